/**
 * Whether the light at the target is what the procedure asks for. The meter's class error is shared by all readings: it does
 * not average, but it drops out of the uniformity, which is a ratio. What each reading adds on its own (holding the
 * meter, flicker, resolution) averages in the mean and stays in the lowest and in the ratio.
 */
import { err, ok, type Result } from '../result.ts';
import { type Decision, type DecisionRule, decide, type Tolerance } from '../uncertainty/decision.ts';
import {
  type Illuminance,
  illuminance,
  type LightError,
  type LuxMeterClass,
  luxUncertainty,
} from './light.ts';
import type { Known } from './weightedPlane.ts';

/** What a procedure permits; a side that is not stated is absent. Lux, uniformity from 0 to 1. */
export interface LightLimits {
  /** Readings the procedure asks for: five when it is silent (four corners and the middle; common practice, no source). */
  readonly leastReadings?: number;
  readonly leastMean?: number;
  readonly mostMean?: number;
  readonly leastLowest?: number;
  readonly mostHighest?: number;
  readonly leastUniformity?: number;
}

/** Readings asked for when the procedure is silent. */
export const FIVE_POINTS = 5;

/** How the readings were taken. */
export interface LightReadings {
  readonly lux: readonly number[];
  readonly meterClass: LuxMeterClass;
  /** u that each reading has on its own, as a share of it: 0.02 is 2 %. */
  readonly repeatability: number;
}

/** A quantity of the light: its value with u, and the verdict where the procedure states a limit. */
export interface LightQuantity extends Known {
  readonly decision: Decision | undefined;
}

/** The light, summed up and judged. Lux; uniformity as a pure number. */
export interface LightFound {
  readonly summary: Illuminance;
  readonly mean: LightQuantity;
  readonly lowest: LightQuantity;
  readonly highest: LightQuantity;
  readonly uniformity: LightQuantity;
}

/** What keeps the light from being judged. */
export type LightVerdictError =
  | LightError
  | { readonly code: 'bay/tooFewLightReadings'; readonly count: number; readonly least: number };

/** Mean, lowest, highest and uniformity with their u, each with its verdict by the rule in force. */
export function lightFound(
  readings: LightReadings,
  limits: LightLimits,
  rule: DecisionRule = 'guarded',
): Result<LightFound, LightVerdictError> {
  const { lux, meterClass, repeatability } = readings;
  const least = limits.leastReadings ?? FIVE_POINTS;
  const summed = illuminance(lux);
  if (!summed.ok) return summed;
  if (lux.length < least) return err({ code: 'bay/tooFewLightReadings', count: lux.length, least });
  const summary = summed.value;
  const own = lux.map((value) => repeatability * value);
  const uMeanOwn = Math.hypot(...own) / lux.length;
  const withClass = (value: number, uOwn: number): number =>
    Math.hypot(luxUncertainty(value, meterClass), uOwn);
  const judged = (value: number, u: number, lower?: number, upper?: number): LightQuantity => ({
    value,
    u,
    decision:
      lower === undefined && upper === undefined ? undefined : decideWithin(value, u, lower, upper, rule),
  });
  return ok({
    summary,
    mean: judged(summary.mean, withClass(summary.mean, uMeanOwn), limits.leastMean, limits.mostMean),
    lowest: judged(
      summary.lowest,
      withClass(summary.lowest, repeatability * summary.lowest),
      limits.leastLowest,
    ),
    highest: judged(
      summary.highest,
      withClass(summary.highest, repeatability * summary.highest),
      undefined,
      limits.mostHighest,
    ),
    uniformity: judged(summary.uniformity, uniformityU(summary, own), limits.leastUniformity),
  });
}

function decideWithin(
  value: number,
  u: number,
  lower: number | undefined,
  upper: number | undefined,
  rule: DecisionRule,
): Decision {
  const tolerance: Tolerance = {
    ...(lower === undefined ? {} : { lower }),
    ...(upper === undefined ? {} : { upper }),
  };
  return decide(value, u, tolerance, rule);
}

/** u of lowest / mean: the lowest reading is in both, with opposite effects. */
function uniformityU(summary: Illuminance, own: readonly number[]): number {
  if (summary.mean === 0) return 0;
  const share = summary.uniformity / (summary.mean * own.length);
  return Math.hypot(...own.map((u, i) => ((i === summary.darkest ? 1 / summary.mean : 0) - share) * u));
}
