/**
 * Values of expressions with their dimension. A length carries millimetres, an angle radians; a plain number
 * neither. Only what a station needs is known: powers of length, and angle as a kind of its own that can be
 * added, scaled and given to sind, cosd, tand.
 */

/** A value with the power of length and of angle it carries: mm to the `length`, rad to the `angle`. */
export type Measure = { readonly value: number; readonly length: number; readonly angle: number };

/** A number without a unit. */
export const plain = (value: number): Measure => ({ value, length: 0, angle: 0 });
/** A length in millimetres. */
export const lengthOf = (valueMm: number): Measure => ({ value: valueMm, length: 1, angle: 0 });
/** An angle in radians. */
export const angleOf = (valueRad: number): Measure => ({ value: valueRad, length: 0, angle: 1 });

/** True when two measures can be added or compared. */
export function sameKind(a: Measure, b: Measure): boolean {
  return a.length === b.length && a.angle === b.angle;
}

/** True for a bare number. */
export function isPlain(a: Measure): boolean {
  return a.length === 0 && a.angle === 0;
}

/** Product of two measures: powers add. */
export function times(a: Measure, b: Measure): Measure {
  return { value: a.value * b.value, length: a.length + b.length, angle: a.angle + b.angle };
}

/** Quotient of two measures: powers subtract. The caller has excluded a zero divisor. */
export function over(a: Measure, b: Measure): Measure {
  return { value: a.value / b.value, length: a.length - b.length, angle: a.angle - b.angle };
}

/** A whole power by repeated multiplication, so that no platform power function enters; `n` may be negative. */
export function wholePower(base: Measure, n: number): Measure {
  let power = plain(1);
  for (let i = 0; i < Math.abs(n); i += 1) power = times(power, base);
  return n < 0 ? over(plain(1), power) : power;
}
