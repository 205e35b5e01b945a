/**
 * What the job list is searched by. Texts are folded to capital letters and digits: a plate is found however its blanks
 * and hyphens are typed.
 */

/** The text index knows pieces of three characters; shorter ones are looked for by reading every folded text. */
export const SHORTEST_INDEXED = 3;

/** Keeps the end of one text and the beginning of the next from making a word together. */
const BETWEEN = '|';

/** Capital letters and digits of any script, accents taken off. */
export function folded(text: string): string {
  return text
    .normalize('NFKD')
    .toUpperCase()
    .replace(/[^\p{L}\p{N}]/gu, '');
}

/** The text of one row: every part folded. */
export function foldedText(parts: readonly string[]): string {
  return parts
    .map(folded)
    .filter((part) => part !== '')
    .join(BETWEEN);
}

/** A typed search as one piece, and as its words; both without a piece when nothing is typed. */
export function searchTerms(typed: string): {
  readonly whole: readonly string[];
  readonly words: readonly string[];
} {
  const whole = folded(typed);
  const words = typed
    .split(/\s+/)
    .map(folded)
    .filter((word) => word !== '');
  return { whole: whole === '' ? [] : [whole], words: [...new Set(words)] };
}
