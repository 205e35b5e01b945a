/**
 * What `app://datumline` answers: the window's files, `GET /file/<digest>` for stored bytes, `POST /drop` to store
 * some. Never a path from the window: it names a digest, the service owns places.
 */
import { createReadStream } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { Readable } from 'node:stream';
import type { ErrorCode } from '../../core/contract/errorCodes.ts';
import type { Result } from '../../core/result.ts';
import type { LocatedFile } from '../service/host/wire.ts';
import { type Drop, type DropError, dropLimitBytes, receiveDrop } from './drop.ts';
import { headersFor, policyOf } from './headers.ts';
import { isOurUrl } from './origin.ts';
import { fileInFolder, mediaTypeOfName } from './staticFiles.ts';

export interface AppProtocolParts {
  /** The built window. */
  readonly windowFolder: string;
  /** Where dropped bytes arrive before the service takes them. */
  readonly inboxFolder: string;
  locateFile(digest: string): Promise<LocatedFile | undefined>;
  /** True when the service has stored it, else why it was refused. */
  adoptFile(drop: Drop): Promise<true | ErrorCode>;
  log(text: string): void;
}

const stored = /^\/file\/([0-9a-f]{64})$/;
const dropStatus: Readonly<Record<DropError, number>> = { 'file/tooLarge': 413, 'file/empty': 400 };

/** A refusal in the contract's codes, for `renderer/api.ts`. */
function refusal(status: number, code: ErrorCode): Response {
  return plain(status, code);
}

function plain(status: number, text: string): Response {
  return new Response(text, { status, headers: headersFor('text/plain; charset=utf-8') });
}

async function storedFile(parts: AppProtocolParts, digest: string): Promise<Response> {
  const file = await parts.locateFile(digest);
  if (!file) return plain(404, 'no such file');
  const body = Readable.toWeb(createReadStream(file.path)) as ReadableStream<Uint8Array>;
  // Unknown bytes are offered to save, never shown: they could be a page.
  const known = file.mediaType !== 'application/octet-stream';
  const more = { 'Cache-Control': 'no-store', ...(known ? {} : { 'Content-Disposition': 'attachment' }) };
  return new Response(body, { headers: headersFor(file.mediaType, more) });
}

async function windowFile(parts: AppProtocolParts, urlPath: string): Promise<Response> {
  const path = await fileInFolder(parts.windowFolder, urlPath);
  const mediaType = path && mediaTypeOfName(path);
  if (!path || !mediaType) return plain(404, 'no such page');
  const bytes = await readFile(path).catch(() => undefined);
  if (!bytes) return plain(404, 'no such page');
  const more = { 'Content-Security-Policy': policyOf(urlPath) };
  return new Response(bytes, { headers: headersFor(mediaType, more) });
}

async function drop(parts: AppProtocolParts, request: Request): Promise<Response> {
  const declared = Number(request.headers.get('content-length') ?? 0);
  if (declared > dropLimitBytes) return refusal(413, 'file/tooLarge');
  if (!request.body) return refusal(400, 'file/empty');
  const received: Result<Drop, DropError> = await receiveDrop(request.body, parts.inboxFolder);
  if (!received.ok) return refusal(dropStatus[received.error], received.error);
  const adopted = await parts.adoptFile(received.value);
  if (adopted !== true) return refusal(adopted.startsWith('picture/') ? 415 : 503, adopted);
  const { digest, sizeBytes } = received.value;
  return new Response(JSON.stringify({ digest, sizeBytes }), { headers: headersFor('application/json') });
}

async function answer(parts: AppProtocolParts, request: Request): Promise<Response> {
  if (!isOurUrl(request.url)) return plain(403, 'not this application');
  const { pathname } = new URL(request.url);
  if (request.method === 'POST') return pathname === '/drop' ? drop(parts, request) : plain(405, 'not here');
  if (request.method !== 'GET') return plain(405, 'not here');
  const digest = stored.exec(pathname)?.[1];
  return digest ? storedFile(parts, digest) : windowFile(parts, pathname);
}

/** Answers one request on the application's scheme; a full disk or a lost folder is an answer too. */
export async function answerAppRequest(parts: AppProtocolParts, request: Request): Promise<Response> {
  try {
    return await answer(parts, request);
  } catch (error) {
    parts.log(`${request.method} ${request.url}: ${error instanceof Error ? error.stack : error}`);
    return refusal(500, 'file/notStored');
  }
}
