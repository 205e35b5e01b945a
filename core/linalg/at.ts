/**
 * Reading and adding to one place of a number array. The compiler cannot know that an index is inside; these check it,
 * so that an index error is a thrown bug and never a silent NaN in a result. One function per kind of array: the
 * engine then compiles each to a plain load, which a shared one would lose.
 */

function outside(index: number, length: number): never {
  throw new Error(`invariant broken: index ${index} outside an array of ${length}`);
}

/** The number at `index`; throws outside the array. */
export function at(array: Float64Array, index: number): number {
  const value = array[index];
  return value === undefined ? outside(index, array.length) : value;
}

/** The whole number at `index`; throws outside the array. */
export function indexAt(array: Int32Array, index: number): number {
  const value = array[index];
  return value === undefined ? outside(index, array.length) : value;
}

/** The number at `index` of an ordinary array; throws outside it. */
export function item(array: readonly number[], index: number): number {
  const value = array[index];
  return value === undefined ? outside(index, array.length) : value;
}

/** Adds `amount` to the number at `index`; throws outside the array. */
export function addAt(array: Float64Array, index: number, amount: number): void {
  const value = array[index];
  array[index] = value === undefined ? outside(index, array.length) : value + amount;
}
