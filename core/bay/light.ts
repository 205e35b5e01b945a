/**
 * Light on the target and around it, from a grid of illuminance readings in lux. Uniformity is the lowest over the mean
 * (EN 12464-1:2011 and 2021, from memory). What a meter's class permits becomes its uncertainty (DIN 5032-7:1985).
 */
import { err, ok, type Result } from '../result.ts';
import { rectangular } from '../uncertainty/quantity.ts';
import { mean } from '../uncertainty/typeA.ts';

/** Class of an illuminance meter. */
export type LuxMeterClass = 'L' | 'A' | 'B' | 'C';

/** Total permitted error of each class, share of the reading (DIN 5032-7:1985, as reproduced in a meter's manual). */
const TOTAL_ERROR: Readonly<Record<LuxMeterClass, number>> = { L: 0.03, A: 0.05, B: 0.1, C: 0.2 };

/** A grid of readings summed up. Lux. */
export interface Illuminance {
  readonly mean: number;
  readonly lowest: number;
  readonly highest: number;
  /** Lowest over mean, 0 to 1. */
  readonly uniformity: number;
  /** Place of the lowest reading in the list: where to put a lamp. */
  readonly darkest: number;
}

/** What keeps readings from being summed up. */
export type LightError =
  | { readonly code: 'bay/noLightReadings' }
  | { readonly code: 'bay/badLightReading'; readonly index: number };

/** Mean, lowest and uniformity of readings in lux; a reading below nothing, or no number, is an error with its place. */
export function illuminance(lux: readonly number[]): Result<Illuminance, LightError> {
  if (lux.length === 0) return err({ code: 'bay/noLightReadings' });
  const index = lux.findIndex((value) => !(value >= 0 && value < Number.POSITIVE_INFINITY));
  if (index >= 0) return err({ code: 'bay/badLightReading', index });
  const average = mean(lux);
  const lowest = Math.min(...lux);
  return ok({
    mean: average,
    lowest,
    highest: Math.max(...lux),
    // A dark room is evenly dark, but a uniformity of one would praise it.
    uniformity: average === 0 ? 0 : lowest / average,
    darkest: lux.indexOf(lowest),
  });
}

/** Standard uncertainty of a reading from the meter's class, lux: 500 lx, class B: 28.87 lx. */
export function luxUncertainty(lux: number, meterClass: LuxMeterClass): number {
  return rectangular(TOTAL_ERROR[meterClass] * lux);
}
