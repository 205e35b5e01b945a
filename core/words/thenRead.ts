/** The clause of a move that says what is read after it, so that a list of moves can leave it away. */
import { type Language, spokenLanguage } from './language.ts';

const THEN_READ: Readonly<Record<Language, RegExp>> = { en: /, then read.*$/, de: /, dann .*messen$/ };

/** A move in the spoken language without "then read ...": in a list all are made first, then everything is read. */
export function withoutThenRead(move: string): string {
  return move.replace(THEN_READ[spokenLanguage()], '');
}
