/**
 * What planning takes for granted about a car, a stand and a person until told better. Common practice, no source, except
 * where a source stands beside the number.
 */
import type { InstrumentKind } from '../placement/equipment.ts';
import { radFromDeg } from '../units.ts';

/** Every default of planning, in one object. Lengths mm, angles rad, times s. */
export const planDefaults = {
  /**
   * Car-side lines beyond the marks. With side arms of 280 mm and a usual wheelbase the diagonals then pass inside the tyres;
   * at 1 m they still graze them (`beyondThatPasses` finds the least for a car).
   */
  beyondMm: 1200,
  /** Tyre under load: the wheel centre stands at about 0.47 of the free diameter (as in core/vehicle/tyre.ts). */
  loadedShare: 0.47,
  tyreWidthMm: 205,
  /** A car of the middle size, for a plan that is made before the car is measured. */
  car: {
    wheelbaseMm: 2700,
    trackFrontMm: 1550,
    trackRearMm: 1550,
    hubHeightMm: 315,
    bodyFaceAheadMm: 3560,
  },
  /** A 16 inch rim. */
  rimSpanMm: 406,
  body: { overTrackMm: 240, behindMm: 900, undersideMm: 150, topMm: 1500 },
  standBase: { widthMm: 700, towardCarMm: 250, awayMm: 350, heightMm: 200 },
  /** A tape between floor marks stands on its edge and off the floor's dirt and unevenness: it reaches up to here. */
  tapeTopMm: 50,
  /** Half the room a tape needs beside its straight line: blade, and a finger to see that it hangs free. */
  tapeHalfWidthMm: 15,
  /** A bob's string and its swing. */
  plumbHalfWidthMm: 10,
  /** Room beside a string or laser line. */
  lineHalfWidthMm: 5,
  /** One gap from a car-side line to a rim edge, by steel rule: its setting and half-millimetre step, and its repeatability. */
  rimGapFixedMm: 0.33,
  rimGapRepeatMm: 0.3,
  /** A rear axle against square to the centreline: a car in trim is straight to a few tenths of a degree. */
  axleSquareRad: radFromDeg(0.1),
  /** Handling of one reading, without walking along the tape. */
  seconds: {
    tape: 30,
    plumbBob: 60,
    level: 20,
    inclinometer: 20,
    rule: 30,
    alignmentReport: 30,
  } satisfies Record<InstrumentKind, number>,
  walkMmPerS: 1000,
  /** How often one reading is planned at most. */
  most: {
    tape: 4,
    plumbBob: 6,
    level: 3,
    inclinometer: 4,
    rule: 4,
    alignmentReport: 1,
  } satisfies Record<InstrumentKind, number>,
  /** Stands for "however often": 1e6 repeats leave a thousandth of the repeatability. */
  endless: 1e6,
} as const;
