/** The window's own files: from one folder, by exact extension, nothing outside it. */
import { realpath } from 'node:fs/promises';
import { resolve, sep } from 'node:path';

const mediaTypes: Readonly<Record<string, string>> = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
  '.woff2': 'font/woff2',
};

/** The type a file is served as, or undefined: an extension that is not listed is not served. */
export function mediaTypeOfName(path: string): string | undefined {
  return mediaTypes[/\.[a-z0-9]+$/.exec(path)?.[0] ?? ''];
}

/**
 * The file that a URL's path names inside `folder`, or undefined when it names anything else. The decoded path is
 * resolved first and compared afterwards, links included, so neither `..`, `%2e%2e`, nor a link leads outside.
 */
export async function fileInFolder(folder: string, urlPath: string): Promise<string | undefined> {
  let decoded: string;
  try {
    decoded = decodeURIComponent(urlPath);
  } catch {
    return undefined;
  }
  if (decoded.includes('\0') || decoded.includes('\\')) return undefined;
  const base = await realpath(folder);
  const wanted = resolve(base, `.${decoded.startsWith('/') ? decoded : `/${decoded}`}`);
  if (!wanted.startsWith(base + sep)) return undefined;
  const real = await realpath(wanted).catch(() => undefined);
  return real?.startsWith(base + sep) ? real : undefined;
}
