/**
 * Uncertainties that stand until a shop measures its own: one object, read by the solver and by the documents. All are
 * standard uncertainties (one standard deviation) in mm or radians. Common practice, no source, except the tape
 * classes. Three ways of working: typical (bob held at the hub cap), careful (pin in the hub, two drops), best
 * (fixture in the hub, class I tape).
 */
import { tapeInstrument } from '../uncertainty/instruments.ts';
import { LEAST_POOLED_DOF } from '../uncertainty/readingUncertainty.ts';
import type { TapeClass } from '../uncertainty/tapeClass.ts';
import { radFromDeg } from '../units.ts';
import type { PlacementEquipment, WorkClass } from './equipment.ts';

/** The uncertainties of one way of working. */
export interface WorkUncertainties {
  /** Where the hub's centre is, in each horizontal direction; repeats do not lower it. */
  readonly hubCentreMm: number;
  /** One drop with the bob, in each horizontal direction; n drops divide it by the root of n. */
  readonly plumbMm: number;
  /** Making the floor mark, or setting a point on a string, in each horizontal direction. */
  readonly markMm: number;
  /** Holding both ends of the tape to their marks; repeats of the same tape do not lower it. */
  readonly tapeSetMm: number;
  /** Repeatability of one tape reading, pooled; n repeats divide it by the root of n. */
  readonly tapeRepeatMm: number;
  /** Degrees of freedom behind it. */
  readonly tapeRepeatDof: number;
  /** String or laser line off straight, mm per metre beyond the second mark. */
  readonly linePerMetreMm: number;
  /** The tape held upright to the target's face centre, and the centre found on the face. */
  readonly heightSetMm: number;
  /** One tilt by the inclinometer after reversal, with its seat: all parts. */
  readonly inclinometerRad: number;
  /** Of that, what neither repeats nor reversal lower: the seat against the target's face, the scale (`tiltAfterReversal`). */
  readonly inclinometerKeptRad: number;
  /** The tape class when the instrument does not say its own. */
  readonly tapeClass: TapeClass;
}

const typical: WorkUncertainties = {
  hubCentreMm: 1.5,
  plumbMm: 1,
  markMm: 0.5,
  tapeSetMm: 0.6,
  tapeRepeatMm: 0.5,
  tapeRepeatDof: LEAST_POOLED_DOF,
  linePerMetreMm: 0.3,
  heightSetMm: 1,
  inclinometerRad: radFromDeg(0.05),
  inclinometerKeptRad: radFromDeg(0.03),
  tapeClass: 'II',
};

const careful: WorkUncertainties = {
  ...typical,
  hubCentreMm: 0.5,
  plumbMm: 0.8,
  markMm: 0.4,
  tapeSetMm: 0.4,
  tapeRepeatMm: 0.4,
  linePerMetreMm: 0.2,
  heightSetMm: 0.7,
};

const best: WorkUncertainties = {
  ...careful,
  hubCentreMm: 0.3,
  plumbMm: 0.4,
  markMm: 0.3,
  tapeSetMm: 0.3,
  tapeRepeatMm: 0.3,
  linePerMetreMm: 0.1,
  heightSetMm: 0.5,
  tapeClass: 'I',
};

/** Every default of placement. `byWork` is what depends on the way of working, the rest holds for all. */
export const defaultUncertainties = {
  byWork: { typical, careful, best } satisfies Record<WorkClass, WorkUncertainties>,
  /** Degrees of freedom behind the pooled repeatability of a tape: at least 20, so that t stays near 2. */
  repeatDof: LEAST_POOLED_DOF,
  /** One staff reading. */
  staffMm: 0.5,
  /** Height of a hub above its mark: only slope times its error matters. */
  hubHeightMm: 2,
  /** Floor between and beyond the marks against the straight line through them. */
  floorBeyondMm: 5,
  /** A slide's reading against its scale and index. */
  slideMm: 0.3,
  /** Turn of the bar about its centre by the off-centre weight of a slid target. */
  slideTiltRad: radFromDeg(0.03),
  /** Plumbing the front-most body point, which is found by eye. */
  bodyFacePlumbMm: 1,
  /** How far the plumbed body point may lie beside the centreline. */
  bodyFaceSideMm: 50,
  /** Height of the front-most body point when nobody measured it, and its u. */
  bodyFaceHeightMm: 500,
  bodyFaceHeightUMm: 100,
  /** Individual rear toe from an alignment report. */
  toeRad: radFromDeg(0.03),
} as const;

/**
 * The uncertainties of a piece of work: the defaults of its way of working, with the shop's own repeatability of tapes where
 * studies gave one. What a study does not see (the tape's class, the marks, holding the tape to them) stays as stated.
 */
export function workUncertainties({
  work,
  tapeRepeat,
}: Pick<PlacementEquipment, 'work' | 'tapeRepeat'>): WorkUncertainties {
  const stated = defaultUncertainties.byWork[work];
  return tapeRepeat === undefined
    ? stated
    : { ...stated, tapeRepeatMm: tapeRepeat.mm, tapeRepeatDof: tapeRepeat.dof };
}

/**
 * A tape's class limit as the two parts of `tapeInstrument`, without the step of its graduation: a scale error shared by all
 * readings of that tape (a pure number), and the rest, which each reading has for itself.
 */
export function splitTapeClass(
  tapeClass: TapeClass,
  lengthMm: number,
): { readonly scale: number; readonly ownMm: number } {
  const { perUnit, own } = tapeInstrument(tapeClass, lengthMm, { stepMm: 0 });
  return { scale: perUnit, ownMm: own };
}

/** Standard uncertainty of a tape's end hook, shared by all its readings, mm: the `offset` of `tapeInstrument`. */
export function hookUncertaintyMm(tapeClass: TapeClass): number {
  return tapeInstrument(tapeClass, 1000, { hook: true }).offset;
}
