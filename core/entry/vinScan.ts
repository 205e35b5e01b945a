/**
 * The VIN in a scanned text. Labels carry it alone, with a prefix, or among other fields: Code 39 with the letter I ahead
 * (data identifier I of ANSI MH10.8.2, from memory) and, on some, a check character modulo 43 behind (ISO/IEC 16388, annex
 * A); Data Matrix and QR in an ISO/IEC 15434 envelope, as name and value, or in an address. Scanners may put the kind of
 * code ahead (ISO/IEC 15424) and stars around.
 *
 * Only what stands as a word of its own is taken for a VIN: seventeen characters out of the middle of a longer number
 * would fit the check digit by chance once in eleven times.
 */
import { err, ok, type Result } from '../result.ts';
import { checkVin, type VinReport } from '../vehicle/vin.ts';
import type { SCAN_WORDS } from '../words/scan.ts';

/** Why there is no one VIN: a key of the catalogue with its values; `vins` to choose from where there are several. */
export type VinScanFault = {
  readonly key: keyof typeof SCAN_WORDS;
  readonly values: Readonly<Record<string, string>>;
  readonly vins: readonly string[];
};

/** More than any code holds: a QR code has at most 4296 letters and digits (ISO/IEC 18004). */
const MOST_SCANNED = 4_296;

const VIN_LENGTH = 17;

/** Characters of Code 39 in the order of their values, 0 to 42. */
const CODE_39 = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-. $/+%';

/** The check character modulo 43 of a Code 39 text; undefined when a character is none of Code 39's. */
export function code39Check(text: string): string | undefined {
  let sum = 0;
  for (const character of text) {
    const value = CODE_39.indexOf(character);
    if (value < 0) return undefined;
    sum += value;
  }
  return CODE_39.charAt(sum % CODE_39.length);
}

/** A word without what labels put ahead of a VIN and behind it; undefined when no VIN can be left. */
function bareVin(word: string): string | undefined {
  const isChecked = word.length > VIN_LENGTH && code39Check(word.slice(0, -1)) === word.slice(-1);
  for (const rest of isChecked ? [word, word.slice(0, -1)] : [word]) {
    // I is in no VIN, so that an I ahead of seventeen characters can only be the prefix.
    const bare = rest.replace(/^(?:VIN|I)(?=.{17}$)/, '');
    if (bare.length === VIN_LENGTH) return bare;
  }
  return undefined;
}

function fault(
  key: VinScanFault['key'],
  values: Readonly<Record<string, string>> = {},
  vins: readonly string[] = [],
): Result<never, VinScanFault> {
  return err({ key, values, vins });
}

/**
 * The VIN in a scanned text, with what is known about it.
 *
 * @returns `scan.noVin` without any, `scan.vinRefused` when the only one cannot be a VIN, `scan.severalVins` when more than
 * one may be it: of several, those whose check digit fits come before others.
 * @example `vinFromScan('*I1M8GDM9AXKP042788*')` is `1M8GDM9AXKP042788`.
 */
export function vinFromScan(scanned: string): Result<VinReport, VinScanFault> {
  const text = scanned.slice(0, MOST_SCANNED).toUpperCase().trim();
  if (text === '') return fault('scan.empty');
  const words = text.replace(/^\][A-Z][0-9A-Z]/, '').split(/[^0-9A-Z]+/);
  const found = [...new Set(words.flatMap((word) => bareVin(word) ?? []))].map(checkVin);
  const possible = found.filter((report) => report.standing !== 'refuse');
  const proven = possible.filter((report) => report.checkDigit === 'right');
  const [first, ...others] = proven.length > 0 ? proven : possible;
  if (first === undefined) {
    const refused = found[0];
    return refused === undefined ? fault('scan.noVin') : fault('scan.vinRefused', { vin: refused.vin });
  }
  if (others.length === 0) return ok(first);
  const vins = [first, ...others].map((report) => report.vin);
  return fault('scan.severalVins', { vins: vins.join(', ') }, vins);
}
