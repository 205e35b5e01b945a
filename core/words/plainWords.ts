/**
 * The rule for words on a screen, in the certificate and spoken: no signed number, and no direction that
 * depends on where the reader stands. The person at the fixture faces the car, so a bare "left" is the wrong
 * side half of the time, and "back" moves a fixture toward or away from the car by the reader's guess.
 */

/** What breaks the rule in a text: the offending piece and why. */
export type WordFault = {
  readonly text: string;
  readonly fault: 'bareSide' | 'ambiguousWay' | 'signedNumber';
};

const AMBIGUOUS_WAY = /\b(?:back|backs|backward|backwards|forward|forwards)\b/gi;
const SIDE = /\b(?:left|right)\b/gi;
const CAR_SIDE_BEFORE = /\bcar['\u2019]s[ -](?:(?:left|right) (?:and|or|to) )?$/i;
const SIGNED_NUMBER = /(?:^|[\s(:=,;])[-+\u2212\u2013][0-9]|(?:^|[(:=])\s?[-+\u2212\u2013]\s[0-9]/g;

/**
 * Every piece of `text` that may not reach a screen. "car's left", "car's-left end" and "car's left or right"
 * pass; "left end", "move back", "-4 mm" do not. Dates such as 2026-03-01 and ranges such as 5-10 pass.
 */
export function wordFaults(text: string): readonly WordFault[] {
  const faults: WordFault[] = [];
  for (const match of text.matchAll(AMBIGUOUS_WAY)) faults.push({ text: match[0], fault: 'ambiguousWay' });
  for (const match of text.matchAll(SIDE)) {
    if (!CAR_SIDE_BEFORE.test(text.slice(0, match.index))) faults.push({ text: match[0], fault: 'bareSide' });
  }
  for (const match of text.matchAll(SIGNED_NUMBER))
    faults.push({ text: match[0].trim(), fault: 'signedNumber' });
  return faults;
}
