/**
 * The rule for words on a screen, in the certificate and spoken: no signed number, and no direction that
 * depends on where the reader stands. The person at the fixture faces the car, so a bare "left" is the wrong
 * side half of the time, and "back" moves a fixture toward or away from the car by the reader's guess.
 */
import { type Language, spokenLanguage } from './language.ts';

/** What breaks the rule in a text: the offending piece and why. */
export type WordFault = {
  readonly text: string;
  readonly fault: 'bareSide' | 'ambiguousWay' | 'signedNumber';
};

interface Rule {
  readonly ambiguousWay: RegExp;
  readonly side: RegExp;
  /** What must stand before, or after, a side so that it is the car's. */
  readonly carBefore?: RegExp;
  readonly carAfter?: RegExp;
}

/**
 * In German the car's own sides are one word, `fahrzeuglinks` and `fahrzeugrechts`; `Fahrzeug links` where a line must break; or `linke Fahrzeugseite`. `vor` is
 * banned only where it is a way by itself ("4 mm vor."), not before a noun ("vor dem Fahrzeug", "vor der Arbeit").
 */
const RULES: Readonly<Record<Language, Rule>> = {
  en: {
    ambiguousWay: /\b(?:back|backs|backward|backwards|forward|forwards)\b/gi,
    side: /\b(?:left|right)\b/gi,
    carBefore: /\bcar['\u2019]s[ -](?:(?:left|right) (?:and|or|to) )?$/i,
  },
  de: {
    ambiguousWay:
      /(?<![\p{L}])(?:zurück|vorwärts|rückwärts|vorne?|hinten|vor(?=\s*(?:[.,;:!?)]|$|(?:und|oder|dann)\b)))(?![\p{L}])/giu,
    side: /(?<![\p{L}])(?:links|rechts|(?:link|recht)e[rsnm]?)(?![\p{L}])/giu,
    carBefore: /Fahrzeug $/,
    carAfter: /^ (?:(?:und|oder|zur|bis) rechte[rsnm]? )?Fahrzeugseite/,
  },
};

const SIGNED_NUMBER = /(?:^|[\s(:=,;])[-+\u2212\u2013][0-9]|(?:^|[(:=])\s?[-+\u2212\u2013]\s[0-9]/g;

/** Whether a side found at `index` is said to be the car's. */
function isCarSide(rule: Rule, text: string, index: number, length: number): boolean {
  return (
    (rule.carBefore?.test(text.slice(0, index)) ?? false) ||
    (rule.carAfter?.test(text.slice(index + length)) ?? false)
  );
}

/**
 * Every piece of `text` that may not reach a screen, by the rule of the spoken language. "car's left", "car's-left end" and "car's left or right"
 * pass; "left end", "move back", "-4 mm" do not. Dates such as 2026-03-01 and ranges such as 5-10 pass.
 */
export function wordFaults(text: string): readonly WordFault[] {
  const rule = RULES[spokenLanguage()];
  const faults: WordFault[] = [];
  for (const match of text.matchAll(rule.ambiguousWay))
    faults.push({ text: match[0], fault: 'ambiguousWay' });
  for (const match of text.matchAll(rule.side)) {
    if (!isCarSide(rule, text, match.index, match[0].length))
      faults.push({ text: match[0], fault: 'bareSide' });
  }
  for (const match of text.matchAll(SIGNED_NUMBER))
    faults.push({ text: match[0].trim(), fault: 'signedNumber' });
  return faults;
}
