/**
 * Branded quantities and the only converters between units. Inside the core every length is in millimetres
 * and every angle in radians; a number that crosses a file carries its unit as a brand and as a name suffix.
 * Arithmetic on branded numbers gives plain numbers: brand the result again (`mm(a + b)`), which also checks
 * that it is finite. Text is written by `formatFixed` and its relatives, without locale services, so that the
 * window, the service and a certificate check print the same digits everywhere.
 */
import { invariant } from './result.ts';

declare const unitOf: unique symbol;

/** A finite number whose unit is named by `U`. */
export type Quantity<U extends string> = number & { readonly [unitOf]: U };

/** Millimetres. */
export type Mm = Quantity<'mm'>;
/** Radians. */
export type Rad = Quantity<'rad'>;
/** Degrees of arc. */
export type Deg = Quantity<'deg'>;
/** Slope, millimetres of rise per metre of run (the tangent times 1000). */
export type MmPerM = Quantity<'mm/m'>;
/** Per cent: of slope (the tangent times 100) or of a plain ratio. */
export type Percent = Quantity<'%'>;
/** Degrees Celsius. */
export type Celsius = Quantity<'degC'>;
/** Kilopascals above the air's pressure (tyre pressure). */
export type KPa = Quantity<'kPa'>;
/** Lux. */
export type Lux = Quantity<'lx'>;
/** Kilograms. */
export type Kg = Quantity<'kg'>;
/** Kilometres (odometer). */
export type Km = Quantity<'km'>;

function branded<U extends string>(value: number, unit: U): Quantity<U> {
  invariant(Number.isFinite(value), `a quantity in ${unit} must be finite, got ${value}`);
  return value as Quantity<U>;
}

/** Brands a finite number as millimetres; throws on NaN or infinity (a bug, never a reading). */
export const mm = (value: number): Mm => branded(value, 'mm');
/** Brands a finite number as radians. */
export const rad = (value: number): Rad => branded(value, 'rad');
/** Brands a finite number as degrees of arc. */
export const deg = (value: number): Deg => branded(value, 'deg');
/** Brands a finite number as millimetres per metre. */
export const mmPerM = (value: number): MmPerM => branded(value, 'mm/m');
/** Brands a finite number as per cent. */
export const percent = (value: number): Percent => branded(value, '%');
/** Brands a finite number as degrees Celsius. */
export const celsius = (value: number): Celsius => branded(value, 'degC');
/** Brands a finite number as kilopascals. */
export const kPa = (value: number): KPa => branded(value, 'kPa');
/** Brands a finite number as lux. */
export const lux = (value: number): Lux => branded(value, 'lx');
/** Brands a finite number as kilograms. */
export const kg = (value: number): Kg => branded(value, 'kg');
/** Brands a finite number as kilometres. */
export const km = (value: number): Km => branded(value, 'km');

/** Millimetres in one inch, exact by the international yard and pound agreement of 1959. */
export const MM_PER_INCH = 25.4;
/** Millimetres in one foot: 12 inches. */
export const MM_PER_FOOT = 304.8;
/** Kilopascals in one bar, exact. */
export const KPA_PER_BAR = 100;
/** Kilopascals in one pound-force per square inch: 0.45359237 kg x 9.80665 m/s2 / (25.4 mm)2. */
export const KPA_PER_PSI = (0.45359237 * 9.80665) / (25.4 * 25.4 * 1e-6) / 1000;
/** Kilometres in one mile, exact: 1609.344 m. */
export const KM_PER_MILE = 1.609344;

const RAD_PER_DEG = Math.PI / 180;

/** Degrees to radians; 180 gives pi. */
export const radFromDeg = (value: number): Rad => rad(value * RAD_PER_DEG);
/** Radians to degrees; pi gives 180. */
export const degFromRad = (value: number): Deg => deg(value / RAD_PER_DEG);
/** Minutes of arc to radians; 60 is one degree. */
export const radFromArcminutes = (value: number): Rad => rad((value / 60) * RAD_PER_DEG);
/** A slope in mm/m to its angle, through the arc tangent: 10 mm/m gives 0.572939 degrees. */
export const radFromMmPerM = (value: number): Rad => rad(Math.atan(value / 1000));
/** An angle to its slope in mm/m, through the tangent. */
export const mmPerMFromRad = (value: number): MmPerM => mmPerM(Math.tan(value) * 1000);
/** A slope in per cent to its angle: 1 % is 10 mm/m. */
export const radFromPercent = (value: number): Rad => rad(Math.atan(value / 100));
/** An angle to its slope in per cent. */
export const percentFromRad = (value: number): Percent => percent(Math.tan(value) * 100);
/** Metres to millimetres. */
export const mmFromM = (value: number): Mm => mm(value * 1000);
/** Centimetres to millimetres. */
export const mmFromCm = (value: number): Mm => mm(value * 10);
/** Inches to millimetres; 1 gives 25.4. */
export const mmFromInch = (value: number): Mm => mm(value * MM_PER_INCH);
/** Feet to millimetres; 1 gives 304.8. */
export const mmFromFoot = (value: number): Mm => mm(value * MM_PER_FOOT);
/** Millimetres to inches; 25.4 gives 1. */
export const inchFromMm = (value: number): number => value / MM_PER_INCH;
/** Bar to kilopascals. */
export const kPaFromBar = (value: number): KPa => kPa(value * KPA_PER_BAR);
/** Pounds per square inch to kilopascals; 1 gives 6.894757. */
export const kPaFromPsi = (value: number): KPa => kPa(value * KPA_PER_PSI);
/** Miles to kilometres. */
export const kmFromMile = (value: number): Km => km(value * KM_PER_MILE);
/** Degrees Fahrenheit to Celsius; 212 gives 100. */
export const celsiusFromFahrenheit = (value: number): Celsius => celsius(((value - 32) * 5) / 9);

/** An angle brought into (-pi, pi]; keeps the value untouched when it is inside already. */
export function wrapRad(value: number): Rad {
  if (value > -Math.PI && value <= Math.PI) return rad(value);
  const turns = Math.ceil((value - Math.PI) / (2 * Math.PI));
  return rad(value - turns * 2 * Math.PI);
}

/** The decimal sign of a written number; digits are never grouped. */
export type DecimalSign = '.' | ',';

/** Largest magnitude that is written digit by digit; anything beyond it in this trade is a bug. */
const WRITABLE_LIMIT = 1e15;

/**
 * A number with a fixed count of decimals, ungrouped; ties go away from zero; never a "-0".
 * `formatFixed(1234.5, 2, ',')` gives `1234,50`. The sign is an ASCII hyphen: signed text is for files and
 * logs, screens use the words of `core/words/direction.ts`.
 */
export function formatFixed(value: number, decimals: number, sign: DecimalSign = '.'): string {
  invariant(
    Number.isFinite(value) && Math.abs(value) < WRITABLE_LIMIT,
    `cannot write ${value} digit by digit`,
  );
  invariant(
    Number.isInteger(decimals) && decimals >= 0 && decimals <= 12,
    `bad count of decimals ${decimals}`,
  );
  const text = value.toFixed(decimals);
  const unsigned = text.startsWith('-') && !/[1-9]/.test(text) ? text.slice(1) : text;
  return sign === ',' ? unsigned.replace('.', ',') : unsigned;
}

/** A length in millimetres with its unit: `formatMm(1350, 1)` gives `1350.0 mm`. */
export function formatMm(value: number, decimals: number, sign: DecimalSign = '.'): string {
  return `${formatFixed(value, decimals, sign)} mm`;
}

/** A length given in millimetres, written in decimal inches: `formatInch(25.4, 2)` gives `1.00 in`. */
export function formatInch(valueMm: number, decimals: number, sign: DecimalSign = '.'): string {
  return `${formatFixed(inchFromMm(valueMm), decimals, sign)} in`;
}

/** An angle given in radians, written in degrees: `formatDeg(Math.PI, 2)` gives `180.00°`. */
export function formatDeg(valueRad: number, decimals: number, sign: DecimalSign = '.'): string {
  return `${formatFixed(degFromRad(valueRad), decimals, sign)}°`;
}

/** The unit a person reads lengths in. */
export type LengthUnit = 'mm' | 'in';

/** Inches are shown with two places at the least: 0.01 in is a quarter of a millimetre. */
const LEAST_INCH_DECIMALS = 2;

/** A length in the person's unit; inches get one decimal more than millimetres, and never less than two. */
export function formatLength(
  valueMm: number,
  decimalsInMm: number,
  unit: LengthUnit,
  sign: DecimalSign = '.',
): string {
  if (unit === 'mm') return formatMm(valueMm, decimalsInMm, sign);
  return formatInch(valueMm, Math.max(LEAST_INCH_DECIMALS, decimalsInMm + 1), sign);
}

/** A share from 0 to 1 as per cent: `formatShare(0.954, 1)` gives `95.4 %`. */
export function formatShare(share: number, decimals: number, sign: DecimalSign = '.'): string {
  return `${formatFixed(share * 100, decimals, sign)} %`;
}
