/**
 * A signed text of a procedure as a size and a way, so that nobody types or reads a minus. `-550 mm` is 550 mm the other
 * way, `-(reach / 2)` is reach / 2 the other way. Headings are a turn from where a target looks that faces the car
 * squarely. Pure.
 */
import type { TargetPlace } from '../../core/frames.ts';

export interface SignedText {
  /** What is typed, without its sign. */
  readonly size: string;
  /** The way against the axis: behind, to the car's right, turned to the right seen from above. */
  readonly against: boolean;
}

/** A size that takes a sign in front of it: one quantity, no sum, product or name. */
const ONE_QUANTITY = /^[0-9.,][^+*()^-]*$/;

/** True when the parenthesis that opens a text closes at its very end. */
function isOneParenthesis(text: string): boolean {
  if (!text.startsWith('(') || !text.endsWith(')')) return false;
  let depth = 0;
  return [...text].every((character, at) => {
    if (character === '(') depth += 1;
    if (character === ')') depth -= 1;
    return depth > 0 || at === text.length - 1;
  });
}

/** Size and way of a text; a sum that begins with a minus stays as it is written. */
export function splitSign(text: string): SignedText {
  const rest = text.slice(1);
  if (!text.startsWith('-')) return { size: text, against: false };
  if (isOneParenthesis(rest)) return { size: rest.slice(1, -1), against: true };
  return ONE_QUANTITY.test(rest) ? { size: rest, against: true } : { size: text, against: false };
}

/** The text of a size and a way; nothing and zero have none. */
export function joinSign({ size, against }: SignedText): string {
  if (!against || size.trim() === '' || size.trim() === '0') return size;
  return ONE_QUANTITY.test(size) ? `-${size}` : `-(${size})`;
}

/** The heading of a face that looks squarely at the car from each place. */
export const SQUARE_HEADING: Readonly<Record<TargetPlace, string>> = {
  ahead: '180 deg',
  behind: '0',
  carLeft: '-90 deg',
  carRight: '90 deg',
};

/** One plain angle, with either decimal sign, degrees meant. */
const PLAIN_DEGREES = /^(\d+(?:[.,]\d*)?)\s*(?:deg|°)$/;

/** The turn from square in a heading's text, or undefined where it is written in another way. */
export function turnOf(text: string, place: TargetPlace): SignedText | undefined {
  const square = SQUARE_HEADING[place];
  if (text === '') return { size: '', against: false };
  if (text === square) return { size: '0', against: false };
  if (square === '0') return splitSign(text);
  const sign = text.slice(square.length, square.length + 3);
  const rest = text.slice(square.length + 3);
  if (!text.startsWith(square) || (sign !== ' + ' && sign !== ' - ') || !isOneParenthesis(rest)) {
    return undefined;
  }
  return { size: rest.slice(1, -1), against: sign === ' - ' };
}

/** The heading's text of a turn from square. */
export function headingOf({ size, against }: SignedText, place: TargetPlace): string {
  const square = SQUARE_HEADING[place];
  if (size === '') return '';
  if (size.trim() === '0') return square;
  if (square === '0') return joinSign({ size, against });
  // Inside an expression the decimal sign is a point and the degree has a name.
  const degrees = PLAIN_DEGREES.exec(size.trim())?.[1];
  const inner = degrees === undefined ? size : `${degrees.replace(',', '.')} deg`;
  return `${square} ${against ? '-' : '+'} (${inner})`;
}
