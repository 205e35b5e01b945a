/**
 * Fault codes as typed from a scan tool, in the form of SAE J2012: the letter of the system (P power train, C chassis,
 * B body, U network), four hexadecimal digits of which the first is 0 to 3, and optionally two hexadecimal digits of
 * the failure type after a hyphen. The form is from memory; whether a code means anything is the maker's affair. Words
 * about a code stand elsewhere: here are codes only, so that before and after can be compared.
 */
import { err, ok, type Result } from '../result.ts';

/** What is recorded where the scan tool shows no code. */
export const NO_CODES = 'none';

/** How people write it, in the languages of this program. */
const SAYS_NONE: ReadonlySet<string> = new Set(['NONE', 'KEINE']);

/** The most codes of one list; a car with more has another trouble first. */
export const MOST_CODES = 40;

/** Why a list of codes is refused: the key of the plain message, with the part that has another form. */
export interface CodesRefusal {
  readonly key:
    | 'codes.form'
    | 'codes.letter'
    | 'codes.first'
    | 'codes.length'
    | 'codes.tooMany'
    | 'codes.noneAndSome';
  readonly values: Readonly<Record<string, string>>;
}

const CODE = /^([PCBU])([0-3][0-9A-F]{3})(?:-([0-9A-F]{2}))?$/;

function faultOf(part: string): CodesRefusal {
  const refusal = (key: CodesRefusal['key']): CodesRefusal => ({ key, values: { part } });
  if (!/^[0-9A-Z-]+$/.test(part)) return refusal('codes.form');
  if (!/^[PCBU]/.test(part)) return refusal('codes.letter');
  if (/^[PCBU][4-9A-F][0-9A-F]{3}(?:-[0-9A-F]{2})?$/.test(part)) return refusal('codes.first');
  if (/^[PCBU][0-9A-F-]*$/.test(part)) return refusal('codes.length');
  return refusal('codes.form');
}

/**
 * Reads codes parted by blanks, commas, semicolons or lines: `p0123-1a, u0100` gives `P0123-1A` and `U0100`; each once, in
 * the order typed. `none` alone gives `none`; an empty text gives an empty list.
 */
export function parseTroubleCodes(text: string): Result<readonly string[], CodesRefusal> {
  // Keyboards of other languages and copied lists bring other hyphens.
  const parts = text
    .toUpperCase()
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .split(/[\s,;]+/)
    .filter((part) => part !== '');
  if (parts.some((part) => SAYS_NONE.has(part))) {
    return parts.length === 1 ? ok([NO_CODES]) : err({ key: 'codes.noneAndSome', values: {} });
  }
  const wrong = parts.find((part) => !CODE.test(part));
  if (wrong !== undefined) return err(faultOf(wrong));
  const codes = [...new Set(parts)];
  if (codes.length > MOST_CODES) return err({ key: 'codes.tooMany', values: { most: String(MOST_CODES) } });
  return ok(codes);
}
