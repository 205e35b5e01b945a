/** What quick placement takes for granted, in one place. Common practice, no source, except where another file is named. */
import { radFromDeg } from '../../units.ts';

/** Every default of quick placement. Standard uncertainties (one standard deviation) in mm or radians. */
export const quickDefaults = {
  /** A fixture put up by eye before the first look: within 300 mm and 5 degrees, rectangular, and a little more. */
  byEye: { planMm: 200, upMm: 50, yawRad: radFromDeg(3.5), tiltRad: radFromDeg(1) },
  /** A hand makes of an amount this share too much or too little, */
  handShare: 0.05,
  /** and a stand let go settles by this much, however it was moved. */
  settleMm: 2,
  /** A move that ends where the tape reads a number may start anywhere: how far it may go, as a standard deviation. */
  freeMm: 500,
  /** The least that is asked of a hand: half of what it settles by. */
  leastMoveMm: 1,
  /** A look goes on to the proof set when that proves with this probability. */
  enoughOdds: 0.95,
  /**
   * What may stand leaves this share of the odds that no deviation at all would have; and a look that leaves more than that
   * share of the uncertainty there was is not worth the walk. Both were tried on simulated placements (0.8 to 0.97 and 0.65
   * to 0.9): looks and readings change by a third at tight tolerances, proof sets hardly.
   */
  standShare: 0.9,
  worthALook: 0.75,
  /** Looks after which the proof set is taken as things stand. */
  mostLooks: 30,
  /** The tape is held while moving only where it changes by at least this much of what is moved. */
  leastSlope: 0.5,
} as const;
