/**
 * The unit suffixes a person may type after a number, per kind of quantity, and the factor (or function) that
 * brings the number to the unit the core works in. Suffixes are compared in lower case.
 */
import {
  celsius,
  celsiusFromFahrenheit,
  km,
  kmFromMile,
  kPa,
  kPaFromBar,
  kPaFromPsi,
  lux,
  mm,
  mmFromCm,
  mmFromFoot,
  mmFromInch,
  mmFromM,
  percent,
  rad,
  radFromArcminutes,
  radFromDeg,
  radFromMmPerM,
  radFromPercent,
} from '../units.ts';

/** What kind of quantity a field takes. */
export type EntryKind =
  | 'length'
  | 'angle'
  | 'pressure'
  | 'illuminance'
  | 'distanceDriven'
  | 'temperature'
  | 'share'
  | 'count';

/** The unit in which the value of each kind is kept. */
export const KEPT_UNIT = {
  length: 'mm',
  angle: 'rad',
  pressure: 'kPa',
  illuminance: 'lx',
  distanceDriven: 'km',
  temperature: '°C',
  share: '%',
  count: '',
} as const satisfies Readonly<Record<EntryKind, string>>;

/** One unit a person can write: its own name, and the converter to the kept unit. */
export type WrittenUnit = { readonly name: string; readonly toKept: (value: number) => number };

const unit = (name: string, toKept: (value: number) => number): WrittenUnit => ({ name, toKept });

const MM = unit('mm', mm);
const CM = unit('cm', mmFromCm);
const M = unit('m', mmFromM);
const INCH = unit('in', mmFromInch);
const FOOT = unit('ft', mmFromFoot);
const DEGREE = unit('°', radFromDeg);
const MINUTE = unit('′', radFromArcminutes);
const SECOND = unit('″', (value) => radFromArcminutes(value / 60));
const SLOPE = unit('mm/m', radFromMmPerM);
const SLOPE_PERCENT = unit('%', radFromPercent);
const RADIAN = unit('rad', rad);
const KPA = unit('kPa', kPa);
const BAR = unit('bar', kPaFromBar);
const PSI = unit('psi', kPaFromPsi);
const LUX = unit('lx', lux);
const KM = unit('km', km);
const MILE = unit('mi', kmFromMile);
const CELSIUS = unit('°C', celsius);
const FAHRENHEIT = unit('°F', celsiusFromFahrenheit);
const PERCENT = unit('%', percent);

type Suffixes = ReadonlyMap<string, WrittenUnit>;

/** Suffix to unit, in every language of the catalogue at once: nobody types otherwise at another PC. A single apostrophe is a foot in a length and a minute of arc in an angle. */
export const SUFFIXES: Readonly<Record<EntryKind, Suffixes>> = {
  length: new Map([
    ['mm', MM],
    ['cm', CM],
    ['m', M],
    ['in', INCH],
    ['inch', INCH],
    ['inches', INCH],
    ['"', INCH],
    ['zoll', INCH],
    ['ft', FOOT],
    ['fuß', FOOT],
    ["'", FOOT],
  ]),
  angle: new Map([
    ['deg', DEGREE],
    ['grad', DEGREE],
    ['°', DEGREE],
    ["'", MINUTE],
    ['"', SECOND],
    ['mm/m', SLOPE],
    ['%', SLOPE_PERCENT],
    ['rad', RADIAN],
  ]),
  pressure: new Map([
    ['kpa', KPA],
    ['bar', BAR],
    ['psi', PSI],
  ]),
  illuminance: new Map([
    ['lx', LUX],
    ['lux', LUX],
  ]),
  distanceDriven: new Map([
    ['km', KM],
    ['mi', MILE],
    ['miles', MILE],
  ]),
  temperature: new Map([
    ['°c', CELSIUS],
    ['c', CELSIUS],
    ['°f', FAHRENHEIT],
    ['f', FAHRENHEIT],
  ]),
  share: new Map([['%', PERCENT]]),
  count: new Map(),
};

/** The unit of a number typed without one: the tape's for lengths, degrees for angles, else the kept unit. */
export function unitWithoutSuffix(kind: EntryKind, numbersIn: string | undefined): WrittenUnit {
  const named = numbersIn === undefined ? undefined : SUFFIXES[kind].get(numbersIn);
  if (named !== undefined) return named;
  switch (kind) {
    case 'length':
      return MM;
    case 'angle':
      return DEGREE;
    case 'pressure':
      return KPA;
    case 'illuminance':
      return LUX;
    case 'distanceDriven':
      return KM;
    case 'temperature':
      return CELSIUS;
    case 'share':
      return PERCENT;
    case 'count':
      return unit('', (value) => value);
  }
}

/** The parts that may follow one another in one entry: feet then inches, degrees then minutes then seconds. */
export function mayFollow(before: WrittenUnit, after: WrittenUnit): boolean {
  return (
    (before === FOOT && after === INCH) ||
    (before === DEGREE && after === MINUTE) ||
    (before === DEGREE && after === SECOND) ||
    (before === MINUTE && after === SECOND)
  );
}

/** The number of smaller units that make one of `before`: `1'350` is no length, it is a grouped number. */
export function limitAfter(before: WrittenUnit): number {
  return before === FOOT ? 12 : 60;
}

/** The units a person may type for a kind, once each, for a message. */
export function knownUnits(kind: EntryKind): readonly string[] {
  return [...new Set([...SUFFIXES[kind].values()].map((written) => written.name))];
}
