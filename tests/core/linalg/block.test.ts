import { describe, expect, test } from 'vitest';
import { Block } from '../../../core/linalg/block.ts';

describe('arrays cut from a block', () => {
  test('begin at nought and do not overlap, whatever their kind and length', () => {
    const block = new Block(100);
    const arrays = [0, 1, 3, 5, 0, 2, 40, 7].map((count, i) =>
      i % 2 === 0 ? block.floats(count) : block.integers(count),
    );
    expect(arrays.map((array) => array.length)).toEqual([0, 1, 3, 5, 0, 2, 40, 7]);
    for (const array of arrays) expect(array.every((value) => value === 0)).toBe(true);
    arrays.forEach((array, i) => {
      array.fill(i + 1);
    });
    arrays.forEach((array, i) => {
      expect(array.every((value) => value === i + 1)).toBe(true);
    });
  });

  test('share a piece of memory while it lasts', () => {
    const block = new Block(64);
    const [first, second, third] = [block.floats(4), block.floats(4), block.floats(1)];
    expect(second.buffer).toBe(first.buffer);
    expect(second.byteOffset).toBe(32);
    expect(third.buffer).not.toBe(first.buffer);
  });

  test('may be larger than a piece', () => {
    expect(new Block(8).floats(1000)).toHaveLength(1000);
    expect(new Block(0).integers(3)).toHaveLength(3);
  });
});
