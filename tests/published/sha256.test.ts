/**
 * SHA-256 against the examples of FIPS 180-4 (as published by NIST's Cryptographic Standards and Guidelines, "Examples with
 * Intermediate Values") and the test data of RFC 6234 section 8.5, typed by hand.
 */
import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import { hexOf, sha256Hex, utf8Of } from '../../core/canonical.ts';

const texts: readonly (readonly [name: string, text: string, digest: string])[] = [
  ['the empty text', '', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ['one block', 'abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'two blocks, 448 bits',
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
  [
    'two blocks, 896 bits',
    'abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu',
    'cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1',
  ],
  [
    'a million times a',
    'a'.repeat(1_000_000),
    'cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0',
  ],
  [
    'RFC 6234 test 4: 01234567 eighty times',
    '01234567'.repeat(80),
    '594847328451bdfa85056225462cc1d867d877fb388df0ce35f25ab5562bfbb5',
  ],
];

const bytes: readonly (readonly [hex: string, digest: string])[] = [
  ['bd', '68325720aabd7c82f30f554b313d0570c95accbb7dc4b5aae11204c08ffe732b'],
  ['c98c8e55', '7abc22c0ae5af26ce93dbb94433a0e0b2e119d014f8e7f65bd56c61ccccd9504'],
];

describe('SHA-256, FIPS 180-4 and RFC 6234', () => {
  test.each(texts)('%s', (_name, text, digest) => {
    expect(sha256Hex(text)).toBe(digest);
  });

  test.each(bytes)('bytes %s', (hex, digest) => {
    expect(sha256Hex(Uint8Array.from(Buffer.from(hex, 'hex')))).toBe(digest);
  });

  test("one changed bit gives another digest (the vectors' comparison can fail)", () => {
    expect(sha256Hex('abb')).not.toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
  });

  test('texts are hashed as UTF-8: the euro sign is e2 82 ac (RFC 8785 section 3.2.4)', () => {
    expect(hexOf(utf8Of('€'))).toBe('e282ac');
    expect(sha256Hex('€')).toBe(sha256Hex(new Uint8Array([0xe2, 0x82, 0xac])));
  });

  test("agrees with the platform's own SHA-256 at every length around the block borders", () => {
    for (let length = 0; length <= 200; length += 1) {
      const data = new Uint8Array(length).map((_, index) => (index * 31 + length) % 256);
      expect(sha256Hex(data)).toBe(createHash('sha256').update(data).digest('hex'));
    }
  });
});
