// Bytes in and out of the window: by digest, within a size, shown only when their first bytes prove what they are.
import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from './fixtures.ts';

test('dropped bytes come back under their digest', async ({ page, bench }) => {
  const text = '%PDF-1.7 not much of a page';
  const digest = createHash('sha256').update(text).digest('hex');
  const seen = await page.evaluate(async (content) => {
    const stored = await fetch('/drop', { method: 'POST', body: new Blob([content]) });
    const answer = (await stored.json()) as { digest: string; sizeBytes: number };
    const back = await fetch(`/file/${answer.digest}`);
    return {
      answer,
      type: back.headers.get('content-type'),
      disposition: back.headers.get('content-disposition'),
      text: await back.text(),
    };
  }, text);
  expect(seen).toEqual({
    answer: { digest, sizeBytes: text.length },
    type: 'application/pdf',
    disposition: null,
    text,
  });
  expect(readdirSync(join(bench.dataFolder, 'inbox'))).toEqual([]);
});

test('a page is never shown as a page', async ({ page }) => {
  const seen = await page.evaluate(async () => {
    const stored = await fetch('/drop', { method: 'POST', body: '<script>alert(1)</script>' });
    const { digest } = (await stored.json()) as { digest: string };
    const back = await fetch(`/file/${digest}`);
    return [back.headers.get('content-type'), back.headers.get('content-disposition')];
  });
  expect(seen).toEqual(['application/octet-stream', 'attachment']);
});

test('8 MB pass, 33 MB and nothing at all are refused and leave nothing behind', async ({
  page,
  bench,
  trouble,
}) => {
  trouble.expect('413');
  trouble.expect('400');
  const statuses = await page.evaluate(async () => {
    const answers = [];
    for (const megabytes of [8, 33, 0]) {
      const body = megabytes === 0 ? '' : new Blob([new Uint8Array(megabytes * 1024 * 1024)]);
      answers.push((await fetch('/drop', { method: 'POST', body })).status);
    }
    return answers;
  });
  expect(statuses).toEqual([200, 413, 400]);
  expect(readdirSync(join(bench.dataFolder, 'inbox'))).toEqual([]);
});
