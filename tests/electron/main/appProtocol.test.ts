import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { type AppProtocolParts, answerAppRequest } from '../../../electron/main/appProtocol.ts';
import { contentSecurityPolicy } from '../../../electron/main/headers.ts';

let folder = '';
let parts: AppProtocolParts;
const log = vi.fn();
const known = 'a'.repeat(64);
const unknownType = 'b'.repeat(64);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'protocol-'));
  mkdirSync(join(folder, 'window'));
  writeFileSync(join(folder, 'window', 'index.html'), 'the page');
  writeFileSync(join(folder, 'window', 'notes.txt'), 'not served');
  writeFileSync(join(folder, 'stored'), 'the bytes');
  parts = {
    windowFolder: join(folder, 'window'),
    inboxFolder: join(folder, 'inbox'),
    locateFile: async (digest) => {
      const path = join(folder, 'stored');
      if (digest === known) return { path, mediaType: 'application/pdf' };
      return digest === unknownType ? { path, mediaType: 'application/octet-stream' } : undefined;
    },
    adoptFile: async () => true,
    log,
  };
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const get = (path: string) => answerAppRequest(parts, new Request(`app://datumline${path}`));
const post = (path: string, body: string, with_: Partial<AppProtocolParts> = {}) =>
  answerAppRequest({ ...parts, ...with_ }, new Request(`app://datumline${path}`, { method: 'POST', body }));

describe('reading', () => {
  test('a file of the window', async () => {
    const answer = await get('/index.html');
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(await answer.text()).toBe('the page');
  });

  test('a stored file, not kept by the browser', async () => {
    const answer = await get(`/file/${known}`);
    expect(await answer.text()).toBe('the bytes');
    expect(answer.headers.get('content-type')).toBe('application/pdf');
    expect(answer.headers.get('cache-control')).toBe('no-store');
    expect(answer.headers.get('content-disposition')).toBeNull();
  });

  test('bytes of no known type are for saving', async () => {
    expect((await get(`/file/${unknownType}`)).headers.get('content-disposition')).toBe('attachment');
  });

  test.each([
    `/file/${'c'.repeat(64)}`,
    '/file/..',
    `/file/${known.toUpperCase()}`,
    '/notes.txt',
    '/',
    '/drop',
  ])('%s is not there', async (path) => {
    const answer = await get(path);
    expect(answer.status).toBe(404);
    expect(answer.headers.get('content-security-policy')).toBe(contentSecurityPolicy);
  });

  test('another host is refused', async () => {
    expect((await answerAppRequest(parts, new Request('app://elsewhere/index.html'))).status).toBe(403);
  });
});

describe('writing', () => {
  test('a drop is answered with its digest and size', async () => {
    const answer = await post('/drop', 'abc');
    const digest = createHash('sha256').update('abc').digest('hex');
    expect(await answer.json()).toEqual({ digest, sizeBytes: 3 });
  });

  test('a drop the service does not take is said to be not stored', async () => {
    const answer = await post('/drop', 'abc', { adoptFile: async () => 'file/notStored' });
    expect([answer.status, await answer.text()]).toEqual([503, 'file/notStored']);
  });

  test('a declared size beyond the limit is refused before a byte is read', async () => {
    const request = new Request('app://datumline/drop', {
      method: 'POST',
      headers: { 'content-length': String(33 * 1024 * 1024) },
      body: 'x',
    });
    expect((await answerAppRequest(parts, request)).status).toBe(413);
    expect(request.bodyUsed).toBe(false);
  });

  test('other methods and places are refused', async () => {
    expect((await post('/index.html', 'x')).status).toBe(405);
    expect(
      (await answerAppRequest(parts, new Request('app://datumline/drop', { method: 'PUT', body: 'x' })))
        .status,
    ).toBe(405);
    expect(
      (await answerAppRequest(parts, new Request('app://datumline/index.html', { method: 'DELETE' }))).status,
    ).toBe(405);
  });

  test('a folder that cannot be written is an answer and a line in the log', async () => {
    const answer = await post('/drop', 'x', { inboxFolder: join(folder, 'stored', 'below a file') });
    expect([answer.status, await answer.text()]).toEqual([500, 'file/notStored']);
    expect(log).toHaveBeenCalledWith(expect.stringContaining('ENOTDIR'));
  });
});
