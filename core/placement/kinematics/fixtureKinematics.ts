/**
 * How a fixture can be moved: what turns about what, how far each part goes, and what one turn of its screw does. Plain
 * data of one fixture, measured once or taken from its maker. Everything is optional: without it the fixture is a stand
 * on castors that turns about the point under its bar's centre, tilts about that point, and has no ends.
 *
 * Places are in the fixture frame seen from above, from under the bar's centre mark: `outMm` out of the face, `acrossMm`
 * to the left of one who looks out of it. All lengths in mm.
 */

/** One adjustable part, counted along its own measure; zero is its middle, or for mast and slide its own scale's zero. */
export interface Travel {
  /** The two ends. */
  readonly leastMm: number;
  readonly mostMm: number;
  /** The smallest change that can be set and seen; changes are rounded to it. */
  readonly stepMm: number;
  /** What one turn of its screw or crank changes, mm; absent where it is pushed by hand. */
  readonly perTurnMm?: number | undefined;
}

/** A point about which something turns, seen from above. */
export interface Pivot {
  readonly outMm: number;
  readonly acrossMm: number;
}

/** The fine turn of the bar on its stand. Its travel is in mm at the bar's end. */
export interface TurnAdjuster extends Travel {
  readonly pivot: Pivot;
}

/**
 * A tilt. `feet`: the whole stand tilts about a line on the floor, `axisMm` from under the bar's centre (out of the face
 * for a lean, across for a level), and carries bar and target sideways. `head`: only bar and target tilt, about the bar's
 * centre mark. `screwAtMm` is how far the screw sits from that line; its travel is in mm of the screw.
 */
export interface TiltAdjuster extends Travel {
  readonly where: 'feet' | 'head';
  readonly axisMm: number;
  readonly screwAtMm: number;
}

/** All that is known of a fixture's moving parts. */
export interface FixtureKinematics {
  /** What the castored base turns about when it is turned by hand, such as its one fixed castor. */
  readonly basePivot?: Pivot | undefined;
  readonly turn?: TurnAdjuster | undefined;
  /** A rail along the face's normal, or along the bar: a base without one rolls as far as the floor goes. */
  readonly roll?: Travel | undefined;
  readonly shift?: Travel | undefined;
  /** Height of the target's centre over the floor that the mast reaches. */
  readonly mast?: Travel | undefined;
  readonly lean?: TiltAdjuster | undefined;
  readonly level?: TiltAdjuster | undefined;
  /** How far the slide goes either way from the bar's centre mark. */
  readonly slide?: Travel | undefined;
  /** What a target does that hangs beside the bar's centre; absent: nothing that is known beforehand. */
  readonly offCentre?: OffCentreSag | undefined;
}

/** The bend of a bar under a target at one end: both grow with the slide's distance from the centre mark. */
export interface OffCentreSag {
  /** How far the target sinks, mm per metre of slide. */
  readonly sinksMmPerM: number;
  /** How far the slid side goes low, radians per metre of slide, and its standard uncertainty at any place, radians. */
  readonly tiltRadPerM: number;
  readonly uTiltRad: number;
}

/** Where each adjuster stands now on its own measure, mm; one that nobody read counts as in its middle (zero). */
export interface JointPositions {
  /** Positive turning left seen from above. */
  readonly turnMm?: number;
  /** Positive out of the face. */
  readonly rollMm?: number;
  /** Positive to the left of one who looks out of the face. */
  readonly shiftMm?: number;
  /** Positive with the top out of the face. */
  readonly leanMm?: number;
  /** Positive with the left of one who looks out of the face up. */
  readonly levelMm?: number;
}

/** What a hand can set and an eye can see where the fixture's data say nothing, mm (common practice, no source). */
export const SEEN_MM = 0.5;
