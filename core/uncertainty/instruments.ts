/**
 * What each instrument of the bay puts into a reading, told apart by what it shares: an offset and a share of the reading
 * are the same for all readings of the instrument and do not average away; the rest each reading has for itself. All from
 * the limits its class or maker states (rectangular, JCGM 100:2008 4.3.7) or from stated U and k (4.3.3). Lengths in mm,
 * angles in rad. Handling (marks, setting, repeatability) is not here: see readingUncertainty.ts.
 */
import { invariant } from '../result.ts';
import { fromResolution, type Quantity, quantity, rectangular } from './quantity.ts';
import { type TapeClass, tapeLimitMm } from './tapeClass.ts';

/** Standard uncertainties of one instrument. */
export interface InstrumentUncertainty {
  /** Each reading for itself, in the reading's unit. */
  readonly own: number;
  /** One error in all readings, in their unit: a hook, a zero. */
  readonly offset: number;
  /** One error in proportion to the reading (a scale), or to the distance it was read at (a sloping plane of light). */
  readonly perUnit: number;
}

/** u of one reading by itself: all parts together. `along` is what `perUnit` goes with: the reading, or the distance. */
export function instrumentU(
  id: string,
  { own, offset, perUnit }: InstrumentUncertainty,
  along: number,
): Quantity {
  const share = perUnit * along;
  return quantity(id, 0, Math.sqrt(own * own + offset * offset + share * share));
}

/** u of the difference of two readings of one instrument: the offset cancels, and of the scale only the difference counts. */
export function differenceU({ own, perUnit }: InstrumentUncertainty, first: number, second: number): number {
  const share = perUnit * (first - second);
  return Math.sqrt(2 * own * own + share * share);
}

/**
 * A tape by its class (Directive 2014/32/EU, Annex X). A reading's total is exactly the class limit of its length; of that,
 * what grows with length is taken as one scale of that tape. Class II: 0.115 mm per metre; a hook of it 0.115 mm.
 */
export function tapeInstrument(
  tapeClass: TapeClass,
  lengthMm: number,
  { hook = false, stepMm = 1 }: { readonly hook?: boolean; readonly stepMm?: number } = {},
): InstrumentUncertainty {
  const perUnit = rectangular(tapeLimitMm(tapeClass, 2000) - tapeLimitMm(tapeClass, 1000)) / 1000;
  const total = rectangular(tapeLimitMm(tapeClass, lengthMm));
  const shared = perUnit * lengthMm;
  const step = fromResolution(stepMm);
  return {
    own: Math.sqrt(Math.max(0, total * total - shared * shared) + step * step),
    offset: hook ? rectangular(tapeLimitMm(tapeClass, 1000, true) - tapeLimitMm(tapeClass, 1000)) : 0,
    perUnit,
  };
}

/** A rule that is laid along: the class limit of its length and its step, all of it new with every place it is laid. */
export function ruleInstrument(tapeClass: TapeClass, lengthMm: number, stepMm = 0.5): InstrumentUncertainty {
  return {
    own: Math.hypot(rectangular(tapeLimitMm(tapeClass, lengthMm)), fromResolution(stepMm)),
    offset: 0,
    perUnit: 0,
  };
}

/**
 * A laser distance meter. Makers state a deviation with k = 2 for favourable conditions and more for unfavourable ones, as
 * measured after ISO 16331-1:2017 (that it is k = 2 is from memory). It is mostly the meter's own zero and so shared.
 */
export function distanceMeter(stated: {
  readonly mm: number;
  readonly perMetreMm?: number;
  readonly k?: number;
  readonly stepMm?: number;
}): InstrumentUncertainty {
  const { mm, perMetreMm = 0, k = 2, stepMm = 1 } = stated;
  invariant(k > 0, `k is positive, got ${k}`);
  return { own: fromResolution(stepMm), offset: mm / k, perUnit: perMetreMm / 1000 / k };
}

/** A spirit level or inclinometer: its limit is one zero error in all readings, its step each reading's own. */
export function tiltInstrument(limitRad: number, stepRad: number, seatRad = 0): InstrumentUncertainty {
  return { own: Math.hypot(fromResolution(stepRad), seatRad), offset: rectangular(limitRad), perUnit: 0 };
}

/** What one tilt after reversal is made of, rad. */
export interface TiltAfterReversal {
  /** New with every seating and reading: n repeats divide it by the root of n. */
  readonly repeatRad: number;
  /** Neither repeats nor reversal lower it: the seat against what is measured, the straightness of the scale. */
  readonly keptRad: number;
}

/**
 * Splits u of one tilt after reversal. Turning the instrument takes its zero away and nothing else: it sits on the same seat,
 * whose angle to the face is in both readings, and reads on the same scale. Without this part a tilt read often enough would
 * be known without limit. 0.05 degrees of which 0.03 are kept leave 0.04 to the repeats.
 */
export function tiltAfterReversal(onceRad: number, keptRad: number): TiltAfterReversal {
  invariant(
    onceRad >= keptRad && keptRad >= 0,
    `the kept part ${keptRad} rad is within the whole ${onceRad} rad`,
  );
  return { repeatRad: Math.sqrt((onceRad - keptRad) * (onceRad + keptRad)), keptRad };
}

/** Two readings with the instrument turned end for end: the tilt, the zero it has, and u of the tilt without the zero. */
export interface Reversed {
  readonly tilt: number;
  readonly zero: number;
  readonly u: number;
}

/**
 * Reversal: the first reading is zero + tilt, the second, turned half round, zero - tilt. Half the difference is the tilt,
 * and the zero is gone: u is that of one reading over root 2. 1.2 and -0.8 mrad: tilt 1.0, zero 0.2.
 */
export function reversed(first: number, second: number, { own }: InstrumentUncertainty): Reversed {
  return { tilt: (first - second) / 2, zero: (first + second) / 2, u: own / Math.SQRT2 };
}

/**
 * A plumb bob, in each horizontal direction: half the thickness of its string where it is sighted, its tip's run-out, and
 * the swing that is left, which grows with the string. Drops of one bob turned between them share nothing.
 */
export function plumbBob(parts: {
  readonly stringMm: number;
  readonly tipLimitMm: number;
  readonly swingPerMetreMm: number;
  readonly dropMm: number;
}): InstrumentUncertainty {
  const string = rectangular(parts.stringMm / 2);
  const tip = rectangular(parts.tipLimitMm);
  const swing = rectangular((parts.swingPerMetreMm * parts.dropMm) / 1000);
  return {
    own: Math.sqrt(string * string + tip * tip + swing * swing),
    offset: 0,
    perUnit: 0,
  };
}

/**
 * A rotating or line laser read on a staff: its plane slopes by up to the stated mm per metre, which is one error in
 * proportion to the distance and cancels between places equally far; field test ISO 17123-6 (from memory). Step and
 * the beam's middle are each reading's own.
 */
export function rotatingLaser(stated: {
  readonly limitMmPerM: number;
  readonly stepMm: number;
  readonly beamMm: number;
}): InstrumentUncertainty {
  return {
    own: Math.hypot(fromResolution(stated.stepMm), rectangular(stated.beamMm / 2)),
    offset: 0,
    perUnit: rectangular(stated.limitMmPerM) / 1000,
  };
}
