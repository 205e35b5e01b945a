import { describe, expect, test } from 'vitest';
import { redundantPart } from '../../../../core/adjust/trials/redundantPart.ts';

/** A pattern from the unknowns of each row. */
function split(rows: readonly (readonly number[])[], n: number) {
  const rowStart = new Int32Array(rows.length + 1);
  rows.forEach((row, r) => {
    rowStart[r + 1] = (rowStart[r] ?? 0) + row.length;
  });
  return redundantPart({ rowStart, column: Int32Array.from(rows.flat()) }, rows.length, n);
}

describe('the redundant part', () => {
  test('two rows for one unknown check each other; a third row with an unknown of its own follows', () => {
    const { rows, unknowns } = split([[0], [0], [0, 1]], 2);
    expect(rows).toEqual([true, true, false]);
    expect(unknowns).toEqual([true, false]);
  });

  test('as many rows as unknowns: nothing is checked, whatever joins them', () => {
    const { rows, unknowns } = split([[0, 1], [1, 2], [2]], 3);
    expect(rows).toEqual([false, false, false]);
    expect(unknowns).toEqual([false, false, false]);
  });

  test('one row too many reaches all that it joins', () => {
    const { rows, unknowns } = split(
      [
        [0, 1],
        [1, 2],
        [2, 0],
        [0, 2],
      ],
      3,
    );
    expect(rows).toEqual([true, true, true, true]);
    expect(unknowns).toEqual([true, true, true]);
  });

  test('a pair that only hangs on the checked part is left to the second stage', () => {
    // Rows 0 to 2 hold unknowns 0 and 1; rows 3 and 4 hold 2 and 3, which lean on 1.
    const { rows, unknowns } = split([[0], [0, 1], [1], [1, 2, 3], [2, 3]], 4);
    expect(rows).toEqual([true, true, true, false, false]);
    expect(unknowns).toEqual([true, true, false, false]);
  });
});
