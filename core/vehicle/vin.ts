/**
 * The vehicle identification number: structure (ISO 3779, ISO 3780), check digit and model-year code (49 CFR
 * 565.15). The check digit is required of vehicles made for North America; elsewhere the ninth character is the
 * maker's own, so that a digit that does not fit can only warn. What the number says about its maker's country
 * is where the maker is registered, not where the car was sold.
 */
import type { VEHICLE_WORDS } from '../words/vehicle.ts';

/** A key of the catalogue that says what is wrong with a VIN or worth a second look. */
export type VinKey = Extract<keyof typeof VEHICLE_WORDS, `vin.${string}`>;

/** One thing to say about a VIN, with the values of its wording. */
export type VinNote = { readonly key: VinKey; readonly values: Readonly<Record<string, string>> };

/** What is known about a typed VIN. */
export type VinReport = {
  /** Capital letters, without blanks and hyphens. */
  readonly vin: string;
  /** `fits`: nothing to say. `warn`: may be true. `refuse`: cannot be a VIN, or is mistyped. */
  readonly standing: 'fits' | 'warn' | 'refuse';
  /** Faults that refuse. */
  readonly faults: readonly VinNote[];
  /** Notes that ask for a second look. */
  readonly warnings: readonly VinNote[];
  /** `notRequired`: does not fit, and need not. Undefined while the structure is wrong. */
  readonly checkDigit: 'right' | 'wrong' | 'notRequired' | undefined;
  /** The ninth character that would fit. */
  readonly expectedDigit: string | undefined;
  readonly region: 'northAmerica' | 'elsewhere' | undefined;
  /** Model years the tenth character can stand for, none where it is no year code. */
  readonly modelYears: readonly number[];
  /** Third character 9: a maker of few vehicles, completed by characters 12 to 14 (49 CFR 565.15(a)). */
  readonly smallMaker: boolean;
  /** The same text with I as 1 and O, Q as 0, when that gives a VIN that fits. */
  readonly suggestion: string | undefined;
};

/** Transliteration of 49 CFR 565.15(c), table III: letters to numbers; digits stand for themselves. */
const VALUE_OF: ReadonlyMap<string, number> = new Map(
  [...'A1B2C3D4E5F6G7H8J1K2L3M4N5P7R9S2T3U4V5W6X7Y8Z9'.matchAll(/([A-Z])(\d)/g)].map(
    (pair): [string, number] => [pair[1] ?? '', Number(pair[2])],
  ),
);

/** Weights of 49 CFR 565.15(c), table IV, by position; the check digit itself has none. */
const WEIGHTS = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2] as const;

/** Year codes of 49 CFR 565.15, table VII, from 1980 on; they repeat every 30 years. */
const YEAR_CODES = 'ABCDEFGHJKLMNPRSTVWXY123456789';
const FIRST_YEAR = 1980;
const YEAR_CYCLE = 30;

const LENGTH = 17;

/** The 17 products of value and weight, in order; undefined when a character has no value. */
export function vinProducts(vin: string): readonly number[] | undefined {
  const products: number[] = [];
  for (const [index, character] of [...vin].entries()) {
    const value = /\d/.test(character) ? Number(character) : VALUE_OF.get(character);
    const weight = WEIGHTS[index];
    if (value === undefined || weight === undefined) return undefined;
    products.push(value * weight);
  }
  return products.length === LENGTH ? products : undefined;
}

/** The check digit that fits: the sum of products modulo 11, with X for 10. Undefined for a wrong structure. */
export function vinCheckDigit(vin: string): string | undefined {
  const products = vinProducts(vin);
  if (products === undefined) return undefined;
  const remainder = products.reduce((sum, product) => sum + product, 0) % 11;
  return remainder === 10 ? 'X' : `${remainder}`;
}

/**
 * North America by the first characters (ISO 3780 assignments, from memory): 1 to 5, and 7 followed by F to Z or
 * a digit (United States); 7A to 7E were New Zealand's.
 */
function regionOf(vin: string): 'northAmerica' | 'elsewhere' {
  return /^(?:[1-5]|7[F-Z0-9])/.test(vin) ? 'northAmerica' : 'elsewhere';
}

/**
 * Years the tenth character stands for. For light vehicles made for North America a letter at position 7 means
 * 2010 or later and a digit 2009 or earlier (inferred from 565.15(b) and its predecessor; from memory).
 */
function modelYearsOf(vin: string, region: 'northAmerica' | 'elsewhere'): readonly number[] {
  const index = YEAR_CODES.indexOf(vin.charAt(9));
  if (index < 0) return [];
  const early = FIRST_YEAR + index;
  const late = early + YEAR_CYCLE;
  if (region === 'elsewhere') return [early, late];
  return [/\d/.test(vin.charAt(6)) ? early : late];
}

const uniqueCharacters = (text: string, pattern: RegExp): string =>
  [...new Set([...text].filter((character) => pattern.test(character)))].join(', ');

function structureFaults(vin: string): readonly VinNote[] {
  const faults: VinNote[] = [];
  const strange = uniqueCharacters(vin, /[^A-Z0-9]/);
  if (strange !== '') faults.push({ key: 'vin.characters', values: { characters: strange } });
  const forbidden = uniqueCharacters(vin, /[IOQ]/);
  if (forbidden !== '') faults.push({ key: 'vin.forbiddenLetters', values: { characters: forbidden } });
  const count = [...vin].length;
  if (count !== LENGTH) faults.push({ key: 'vin.length', values: { count: `${count}` } });
  return faults;
}

function wrongStructure(vin: string, faults: readonly VinNote[]): VinReport {
  const replaced = vin.replace(/I/g, '1').replace(/[OQ]/g, '0');
  const suggested = replaced !== vin && structureFaults(replaced).length === 0 && checkVin(replaced);
  return {
    vin,
    standing: 'refuse',
    faults,
    warnings: [],
    checkDigit: undefined,
    expectedDigit: undefined,
    region: undefined,
    modelYears: [],
    smallMaker: false,
    suggestion: suggested !== false && suggested.standing !== 'refuse' ? replaced : undefined,
  };
}

/**
 * Everything that can be said about a typed VIN. Blanks, hyphens and small letters are forgiven.
 * `checkVin('1M8GDM9AXKP042788')` fits, with model year 1989; the same with another ninth character is refused;
 * a number from elsewhere whose ninth character does not fit only warns.
 */
export function checkVin(text: string): VinReport {
  const vin = text.replace(/[\s-]/g, '').toUpperCase();
  const structure = structureFaults(vin);
  const expectedDigit = vinCheckDigit(vin);
  if (structure.length > 0 || expectedDigit === undefined) return wrongStructure(vin, structure);

  const region = regionOf(vin);
  const modelYears = modelYearsOf(vin, region);
  const right = vin.charAt(8) === expectedDigit;
  const faults: VinNote[] = [];
  const warnings: VinNote[] = [];
  if (!right && region === 'northAmerica') {
    faults.push({ key: 'vin.checkDigitWrong', values: { expected: expectedDigit } });
  }
  if (!right && region === 'elsewhere') {
    warnings.push({ key: 'vin.checkDigitUnused', values: { expected: expectedDigit } });
  }
  if (region === 'northAmerica' && modelYears.length === 0) {
    faults.push({ key: 'vin.yearCode', values: { characters: vin.charAt(9) } });
  }
  if (!/\d{4}$/.test(vin)) warnings.push({ key: 'vin.lastFour', values: {} });
  return {
    vin,
    standing: faults.length > 0 ? 'refuse' : warnings.length > 0 ? 'warn' : 'fits',
    faults,
    warnings,
    checkDigit: right ? 'right' : region === 'northAmerica' ? 'wrong' : 'notRequired',
    expectedDigit,
    region,
    modelYears,
    smallMaker: vin.charAt(2) === '9',
    suggestion: undefined,
  };
}
