// A second build of the window from the same sources, in an application folder of its own: the main process, the
// service and the content security policy are the shipped ones, only the page differs. What is shipped never holds it.
import { mkdir, rename, rm, symlink, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { build, type Plugin } from 'vite';

const root = resolve(import.meta.dirname, '..', '..');

export interface Variant {
  /** Names its folder under `.cache`. */
  readonly name: string;
  /** The page that stands in for the start page, below `renderer`; the start page itself when absent. */
  readonly page?: string;
  readonly plugins?: readonly Plugin[];
}

/** Builds the variant anew and returns its application folder. The ordinary build must be there: it lends the rest. */
export async function buildVariant({ name, page = 'index.html', plugins = [] }: Variant): Promise<string> {
  const folder = join(root, '.cache', `window-${name}`);
  const out = join(folder, 'renderer', 'build');
  await rm(folder, { recursive: true, force: true });
  await mkdir(join(folder, 'electron'), { recursive: true });
  await build({
    configFile: join(root, 'vite.config.ts'),
    logLevel: 'warn',
    plugins: [...plugins],
    build: { outDir: out, rolldownOptions: { input: join(root, 'renderer', page) } },
  });
  if (page !== 'index.html') await rename(join(out, page), join(out, 'index.html'));
  for (const shared of ['electron/build', 'node_modules', 'assets']) {
    await symlink(join(root, shared), join(folder, shared));
  }
  const description = { name: `datumline-${name}`, version: '0.0.0', main: 'electron/build/main.cjs' };
  await writeFile(join(folder, 'package.json'), JSON.stringify(description));
  return folder;
}
