import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { hasIntegrity } from '../../../electron/setup/integrity.mjs';

let folder = '';
let file = '';

// SHA-512 of "abc": FIPS 180-2 appendix C.1, in base64.
const abc = 'sha512-3a81oZNherrMQXNJriBBMRLm+k6JqX6iCp7u5ktV05ohkpkqJ0/BqDa6PCOj/uu9RU1EI2Q86A4qmslPpUyknw==';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'integrity-'));
  file = join(folder, 'abc');
  writeFileSync(file, 'abc');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('the published bytes pass', async () => {
  expect(await hasIntegrity(file, abc)).toBe(true);
});

test('one other byte does not', async () => {
  writeFileSync(`${file}d`, 'abd');
  expect(await hasIntegrity(`${file}d`, abc)).toBe(false);
});

test.each(['', 'sha1-qZk+NkcGgWq6PiVxeFDCbJzQ2J0=', abc.slice(0, -3), `${abc} ${abc}`])(
  'an integrity that is not one sha512 is a mistake: "%s"',
  async (integrity) => {
    await expect(hasIntegrity(file, integrity)).rejects.toThrow('not a sha512 integrity');
  },
);

test('a missing file is an error, not a pass', async () => {
  await expect(hasIntegrity(join(folder, 'nowhere'), abc)).rejects.toThrow('ENOENT');
});
