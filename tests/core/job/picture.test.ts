import { describe, expect, test } from 'vitest';
import {
  keptPhotoFacts,
  looksLikePicture,
  PICTURE_LIMITS,
  pictureFacts,
  withoutForeignSegments,
} from '../../../core/job/picture.ts';
import { jpegOf, pngOf, segment } from '../../electron/pictures.ts';

const foreignOf = (bytes: Uint8Array) => {
  const facts = pictureFacts(bytes);
  return facts.ok ? facts.value.foreign : facts.error;
};

describe('a JPEG by its structure', () => {
  test('kind and size, clean with its plain head', () => {
    expect(pictureFacts(jpegOf(640, 480))).toEqual({
      ok: true,
      value: { mediaType: 'image/jpeg', widthPx: 640, heightPx: 480, foreign: [] },
    });
  });

  test.each([
    ['Exif with place', segment(0xe1, 'Exif\0\0GPS'), 'APP1'],
    ['a colour profile', segment(0xe2, 'ICC_PROFILE\0'), 'APP2'],
    ['press data', segment(0xed, 'Photoshop 3.0\0'), 'APP13'],
    ['a comment', segment(0xfe, 'taken at home'), 'COM'],
    ['a thumbnail in the head', segment(0xe0, 'JFXX\0\x10'), 'APP0'],
  ])('%s is foreign', (_name, more, name) => {
    expect(foreignOf(jpegOf(8, 8, { before: more }))).toEqual([name]);
  });

  test('a comment after the scan and bytes after the end are found too', () => {
    expect(foreignOf(jpegOf(8, 8, { after: segment(0xfe, 'late') }))).toEqual(['COM']);
    expect(foreignOf(jpegOf(8, 8, { tail: new Uint8Array([1, 2, 3]) }))).toEqual(['after the end']);
  });

  test('cut anywhere it is broken, never clean', () => {
    const whole = jpegOf(8, 8);
    for (let length = 3; length < whole.length; length += 1) {
      expect(pictureFacts(whole.subarray(0, length)).ok, String(length)).toBe(false);
    }
  });
});

describe('what an encoder adds', () => {
  test('a profile and a comment leave, the picture stays byte for byte', () => {
    const more = [...segment(0xe2, 'ICC_PROFILE'), ...segment(0xfe, 'made by')];
    expect(withoutForeignSegments(jpegOf(8, 8, { before: more }))).toEqual(jpegOf(8, 8));
    expect(withoutForeignSegments(jpegOf(8, 8))).toEqual(jpegOf(8, 8));
  });

  test('what is no JPEG is not touched', () => {
    expect(withoutForeignSegments(pngOf(3, 2, ['tEXt']))).toEqual(pngOf(3, 2, ['tEXt']));
  });
});

describe('a PNG by its structure', () => {
  test('kind and size; texts and Exif are foreign', () => {
    expect(foreignOf(pngOf(3, 2))).toEqual([]);
    expect(foreignOf(pngOf(3, 2, ['tEXt', 'eXIf']))).toEqual(['tEXt', 'eXIf']);
  });

  test('cut anywhere it is broken', () => {
    const whole = pngOf(3, 2);
    for (let length = 8; length < whole.length; length += 1) {
      expect(pictureFacts(whole.subarray(0, length)).ok, String(length)).toBe(false);
    }
  });
});

describe('what is no picture, and what may be kept', () => {
  test.each([[''], ['%PDF-1.7'], ['<svg xmlns=""/>'], ['GIF89a'], ['BM']])('%j is none', (text) => {
    const bytes = new TextEncoder().encode(text);
    expect(looksLikePicture(bytes)).toBe(false);
    expect(foreignOf(bytes)).toBe('picture/notAPicture');
  });

  test('only a clean JPEG of bounded size', () => {
    const problem = (bytes: Uint8Array) => {
      const facts = keptPhotoFacts(bytes);
      return facts.ok ? undefined : facts.error;
    };
    const side = PICTURE_LIMITS.keptSidePx;
    expect(problem(jpegOf(side, 10))).toBeUndefined();
    expect(problem(jpegOf(side + 1, 10))).toBe('picture/tooLarge');
    expect(problem(jpegOf(10, side + 1))).toBe('picture/tooLarge');
    expect(problem(pngOf(3, 2))).toBe('picture/notAPicture');
    expect(problem(jpegOf(8, 8, { before: segment(0xe1, 'Exif') }))).toBe('picture/carriesData');
    expect(problem(jpegOf(0, 8))).toBe('picture/broken');
    expect(problem(new Uint8Array(PICTURE_LIMITS.keptBytes + 1))).toBe('picture/tooLarge');
  });
});
