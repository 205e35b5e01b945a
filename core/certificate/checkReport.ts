/**
 * What checking a certificate answers: one line for each question a doubter asks, each *yes*, *no* or *cannot be told
 * here*, with its words and what they are filled with.
 */
import type { WordKey } from '../words/index.ts';

/** The questions, in the order they are answered. */
export const checkLineIds = [
  'signatureIntact',
  'nothingAppended',
  'signerKnown',
  'recordMatches',
  'chainWhole',
  'personalTexts',
  'numbersRecomputed',
  'editionCurrent',
] as const;

/** One question. */
export type CheckLineId = (typeof checkLineIds)[number];

/** `unknown` is "cannot be told here": never a polite *no*. */
export type CheckAnswer = 'yes' | 'no' | 'unknown';

/** One answered question. `text` is a key of the word catalogue, `values` fill its slots. */
export interface CheckLine {
  readonly id: CheckLineId;
  readonly answer: CheckAnswer;
  readonly text: WordKey;
  readonly values: Readonly<Record<string, string>>;
}

/** All lines in order. `exitCode` is 0 when all are yes, 1 when any is no, else 2. */
export interface CheckReport {
  readonly lines: readonly CheckLine[];
  readonly exitCode: 0 | 1 | 2;
}

/** The report of these lines. Example: one *unknown* among *yes* gives exit code 2. */
export function checkReport(lines: readonly CheckLine[]): CheckReport {
  const answers = new Set(lines.map((line) => line.answer));
  const exitCode = answers.has('no') ? 1 : answers.has('unknown') ? 2 : 0;
  return { lines, exitCode };
}
