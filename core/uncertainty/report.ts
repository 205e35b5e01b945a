/**
 * How a result and its uncertainty are rounded and written: U to at most two significant digits, the value to the same
 * last place, and U rounded up when rounding would lower it by more than 5 % (JCGM 100:2008 7.2.6; ILAC-P14:09/2020,
 * from memory). Digits are never grouped, so that a reader's machine can read them back.
 */
import { invariant } from '../result.ts';
import { type DecimalSign, formatFixed } from '../units.ts';

/** Rounding may lower U by no more than this share. */
const MOST_LOWERED = 0.05;

/** An uncertainty rounded, and the last place it is stated to. */
export interface RoundedUncertainty {
  readonly U: number;
  /** Decimals after the sign: 2 for 0.79; negative when the last place is tens or more. */
  readonly decimals: number;
}

/** U to `digits` significant digits: 0.7918 -> 0.79, 0.0000996 -> 0.00010, with one digit 1.06 -> 2. */
export function roundUncertainty(U: number, digits: 1 | 2 = 2): RoundedUncertainty {
  invariant(Number.isFinite(U) && U > 0, `an uncertainty to state is positive, got ${U}`);
  const nearest = leading(U, digits);
  if (nearest.U >= U * (1 - MOST_LOWERED)) return nearest;
  const step = placeValue(nearest.decimals);
  // One step up may carry into the next digit, which moves the last place.
  return leading(nearest.U + step, digits);
}

/** The nearest number with so many significant digits; decimal text does the rounding, so that no digit is binary. */
function leading(U: number, digits: number): RoundedUncertainty {
  const text = U.toExponential(digits - 1);
  return { U: Number(text), decimals: digits - 1 - Number(text.slice(text.indexOf('e') + 1)) };
}

/** One unit of the last place: 0.01 for 2 decimals, 100 for -2. */
function placeValue(decimals: number): number {
  return Number(`1e${-decimals}`);
}

/** A value and its U in writing, both to the same last place. */
export interface Statement {
  readonly value: string;
  readonly U: string;
  readonly decimals: number;
}

/** 1234.5678 with U 2.345 is stated as 1234.6 and 2.3. */
export function statement(value: number, U: number, digits: 1 | 2 = 2, sign: DecimalSign = '.'): Statement {
  const rounded = roundUncertainty(U, digits);
  return {
    value: toPlace(value, rounded.decimals, sign),
    U: toPlace(rounded.U, rounded.decimals, sign),
    decimals: rounded.decimals,
  };
}

/** The value with u in its last digits, in brackets: 100.02147(35) (JCGM 100:2008 7.2.2, second form). */
export function conciseStatement(value: number, u: number, sign: DecimalSign = '.'): string {
  const { U, decimals } = roundUncertainty(u);
  const units = decimals >= 0 ? formatFixed(U / placeValue(decimals), 0) : formatFixed(U, 0);
  return `${toPlace(value, decimals, sign)}(${units})`;
}

function toPlace(value: number, decimals: number, sign: DecimalSign): string {
  if (decimals >= 0) return formatFixed(value, decimals, sign);
  const step = placeValue(decimals);
  return formatFixed(Math.round(value / step) * step, 0, sign);
}
