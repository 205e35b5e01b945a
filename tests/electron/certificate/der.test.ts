import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  der,
  derOid,
  derSetOf,
  derSmallInteger,
  readDer,
  readOne,
  tags,
} from '../../../electron/service/certificate/sign/der.ts';

const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex');
const bytes = (text: string) => new Uint8Array(Buffer.from(text.replaceAll(' ', ''), 'hex'));

describe('encoding', () => {
  // ITU-T X.690 clause 8.19.5 gives {2 100 3} as 06 03 81 34 03.
  test('the standard’s own object identifier', () => {
    expect(hex(derOid('2.100.3'))).toBe('0603813403');
  });

  // ETSI EN 319 142-1 with RFC 5035: id-aa-signingCertificateV2.
  test('the identifier of the signing certificate attribute', () => {
    expect(hex(derOid('1.2.840.113549.1.9.16.2.47'))).toBe('060b2a864886f70d010910022f');
  });

  test('lengths in the shortest form at their steps', () => {
    expect(hex(der(tags.octetString))).toBe('0400');
    expect(hex(der(tags.octetString, new Uint8Array(127))).slice(0, 4)).toBe('047f');
    expect(hex(der(tags.octetString, new Uint8Array(128))).slice(0, 6)).toBe('048180');
    expect(hex(der(tags.octetString, new Uint8Array(255))).slice(0, 6)).toBe('0481ff');
    expect(hex(der(tags.octetString, new Uint8Array(256))).slice(0, 8)).toBe('04820100');
    expect(hex(der(tags.octetString, new Uint8Array(65_536))).slice(0, 10)).toBe('0483010000');
  });

  test('a set stands in order of its encodings, however it was given (X.690 clause 11.6)', () => {
    const members = [derSmallInteger(3), derSmallInteger(1), der(tags.null), derSmallInteger(2)];
    const sorted = '310b 020101 020102 020103 0500'.replaceAll(' ', '');
    expect(hex(derSetOf(tags.set, members))).toBe(sorted);
    expect(hex(derSetOf(tags.set, [...members].reverse()))).toBe(sorted);
  });
});

describe('reading', () => {
  test('gives back what was written (100 runs, seed 5)', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 400 }), { maxLength: 6 }), (contents) => {
        const written = Buffer.concat(contents.map((content) => der(tags.octetString, content)));
        const read = readDer(written);
        expect(read?.map((element) => hex(element.content))).toEqual(contents.map(hex));
        expect(Buffer.concat((read ?? []).map((element) => element.whole)).equals(written)).toBe(true);
      }),
      { seed: 5, numRuns: 100 },
    );
  });

  test.each([
    ['a length that is not the shortest', '04 81 05 0102030405'],
    ['a length of zero bytes', '04 80'],
    ['a length in too many bytes', '04 85 0000000001 01'],
    ['a leading zero in the length', '04 82 0005 0102030405'],
    ['content cut off', '04 05 0102'],
    ['a tag alone', '04'],
    ['something behind that is no encoding', '0400 04'],
  ])('refuses %s', (_name, text) => {
    expect(readDer(bytes(text))).toBeUndefined();
  });

  test('one encoding may be followed by anything', () => {
    expect(readOne(bytes('0401aa ffff'), 0)).toMatchObject({ tag: 4, whole: bytes('0401aa') });
    expect(readOne(bytes('ff 0401aa'), 1)?.content).toEqual(bytes('aa'));
    expect(readOne(bytes('0401aa'), 3)).toBeUndefined();
  });

  test('random bytes never crash it (200 runs, seed 6)', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (random) => {
        const read = readDer(random);
        if (read !== undefined)
          expect(Buffer.concat(read.map((each) => each.whole)).equals(random)).toBe(true);
      }),
      { seed: 6, numRuns: 200 },
    );
  });
});
