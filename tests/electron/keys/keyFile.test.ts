import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, test } from 'vitest';
import { openKey, readKeyFileHead, type StoredKey, sealKey } from '../../../electron/service/keys/keyFile.ts';

const key: StoredKey = {
  purpose: 'installation',
  pkcs8: Uint8Array.from({ length: 100 }, (_, index) => index),
  chain: [Uint8Array.of(1, 2, 3), Uint8Array.of(4, 5)],
};
const passphrase = 'Möwe über dem Kai 7';
/** Not random: so that the file can be compared. */
const counting = (count: number) => Uint8Array.from({ length: count }, (_, index) => index + count);

let file: Buffer;
beforeAll(async () => {
  file = Buffer.from(await sealKey(key, passphrase, counting));
});

/** The file with one change and its checksum put right again, as an attacker would. */
function changed(change: (text: string) => string): Buffer {
  const lines = file.toString('latin1').split('\n').slice(0, 3).join('\n');
  const body = `${change(lines)}\n`;
  return Buffer.from(`${body}${createHash('sha256').update(body, 'latin1').digest('hex')}\n`);
}

const wrong = { ok: false, error: { code: 'keys/wrongPassphrase' } };
const damaged = { ok: false, error: { code: 'keys/damaged' } };

describe('a key file', () => {
  test('opens with its passphrase, in either spelling of its letters', async () => {
    for (const spelling of ['NFC', 'NFD'] as const) {
      const opened = await openKey(file, passphrase.normalize(spelling));
      const value = opened.ok ? opened.value : expect.fail('not opened');
      expect(value.purpose).toBe('installation');
      expect([...value.pkcs8]).toEqual([...key.pkcs8]);
      expect(value.chain.map((each) => [...each])).toEqual([
        [1, 2, 3],
        [4, 5],
      ]);
    }
  });

  test('says by name and version what it is, and holds no key in the open', () => {
    expect(file.toString('latin1')).toMatch(
      /^DATUMLINE-KEY 1\n\{"purpose":"installation","kdf":\{"name":"scrypt","N":131072,"r":8,"p":1,/,
    );
    const hex = Buffer.from(key.pkcs8.subarray(0, 24));
    expect(file.includes(hex)).toBe(false);
    expect(file.toString('latin1')).not.toContain(hex.toString('base64').slice(0, 24));
  });

  test('the same random bytes give the same file, others another', async () => {
    expect(Buffer.compare(await sealKey(key, passphrase, counting), file)).toBe(0);
    const other = await sealKey(key, passphrase, (count) => counting(count).reverse());
    expect(Buffer.compare(other, file)).not.toBe(0);
  });

  test('does not open with another passphrase', async () => {
    for (const other of ['', 'möwe über dem Kai 7', `${passphrase} `]) {
      expect(await openKey(file, other)).toEqual(wrong);
    }
  });

  test('shows purpose and chain without a passphrase', () => {
    const head = readKeyFileHead(file);
    expect(head.ok && head.value.purpose).toBe('installation');
    expect(readKeyFileHead(Buffer.from('x'))).toEqual(damaged);
  });
});

describe('a damaged key file', () => {
  test('is told from a wrong passphrase, whichever byte is changed', async () => {
    for (let at = 0; at < file.length; at += 3) {
      const bytes = Buffer.from(file);
      bytes[at] = (bytes[at] ?? 0) ^ 1;
      expect(await openKey(bytes, passphrase)).toEqual(damaged);
    }
  });

  test('cut, lengthened, empty', async () => {
    for (const bytes of [
      file.subarray(0, 40),
      file.subarray(0, -1),
      Buffer.concat([file, file]),
      Buffer.alloc(0),
    ]) {
      expect(await openKey(bytes, passphrase)).toEqual(damaged);
    }
  });

  test('with a cheaper derivation in its header is refused, not obeyed', async () => {
    expect(
      await openKey(
        changed((text) => text.replace('131072', '1024')),
        passphrase,
      ),
    ).toEqual(damaged);
  });

  test('with another purpose or chain in its header does not open: the header is sealed with the key', async () => {
    expect(
      await openKey(
        changed((text) => text.replace('"installation"', '"shopRoot"')),
        passphrase,
      ),
    ).toEqual(wrong);
    expect(
      await openKey(
        changed((text) => text.replace('AQID', 'AQIE')),
        passphrase,
      ),
    ).toEqual(wrong);
  });
});
