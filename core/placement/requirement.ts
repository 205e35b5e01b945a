/**
 * What a procedure asks of a target: one required coordinate at a time, each with its own datum and permitted deviation, and
 * the rule that judges it. Signs by ISO 8855 in the vehicle frame.
 */
import type { Coordinate, TargetPlace } from '../frames.ts';

/** Where "ahead" is counted from. */
export type AheadDatum = 'rearAxle' | 'frontAxle' | 'bodyFace';

/** The line that "left" and the turn are counted from. */
export type LineDatum = 'centreline' | 'thrustLine';

/** Where "up" is counted from. */
export type UpDatum = 'contactPlane';

/** The datum of a coordinate. */
export type Datum = AheadDatum | LineDatum | UpDatum;

/** Permitted deviation found minus required; a side without limit is absent. mm or radians. */
export interface PermittedDeviation {
  readonly lower?: number;
  readonly upper?: number;
  /** True when the vehicle maker states it; false for the shop's working limit. */
  readonly stated: boolean;
}

/** One required coordinate with its own datum. mm or radians. */
export interface RequiredCoordinate<D extends Datum> {
  readonly value: number;
  readonly from: D;
  /** Absent: the coordinate is reported without a verdict. */
  readonly permitted?: PermittedDeviation;
}

/** The two coordinates of a station that a circle lies in: seen from above, or seen along the car. */
export type RadialPlane = 'aheadLeft' | 'leftUp';

/** A permitted distance from the required point within a plane, mm: the two coordinates are judged together. */
export interface RadialRequirement {
  readonly plane: RadialPlane;
  readonly radiusMm: number;
  /** True when the vehicle maker states it; false for the shop's working limit. */
  readonly stated: boolean;
}

/**
 * One required target pose. `yaw.value` is the heading of the face's outward normal counted from its line,
 * positive to the car's left: pi for a target ahead that faces the car squarely, 0 for one behind. Pitch and
 * roll are those of the face, normally 0. A coordinate the procedure leaves free is absent, except `ahead`,
 * `left` and `up`, which place the fixture.
 */
export interface StationRequirement {
  readonly id: string;
  readonly kind: 'reposition' | 'slide';
  readonly place: TargetPlace;
  readonly ahead: RequiredCoordinate<AheadDatum>;
  readonly left: RequiredCoordinate<LineDatum>;
  readonly up: RequiredCoordinate<UpDatum>;
  readonly yaw: RequiredCoordinate<LineDatum>;
  readonly pitch: RequiredCoordinate<UpDatum>;
  readonly roll: RequiredCoordinate<UpDatum>;
  /** Coordinates that are not judged at this station. */
  readonly free?: readonly Coordinate[];
  /** A circle about the required point, beside or instead of limits of its coordinates. */
  readonly radial?: RadialRequirement;
}

/** How a deviation is judged: guarded by 1.645 u (default), plain, or guarded by the whole U. */
export type DecisionRuleName = 'guarded' | 'simple' | 'fullU';
