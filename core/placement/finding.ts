/** What the found pose says of a station: deviation, uncertainty, verdict, and what it means for the sensor's aim. */
import type { Coordinate, PoseInVehicle } from '../frames.ts';
import type { PoseCovariance } from './found.ts';
import type { CarSide } from './placementReading.ts';
import type { Datum, PermittedDeviation, RadialPlane, StationRequirement } from './requirement.ts';

/** Which readings made an uncertainty: parts of the variance, largest first; they add up to 1. */
export interface ReadingShare {
  /** A reading's id, or a name of what is known beforehand (`fixture.barLength`, `sideArm.left`, `tape.scale`). */
  readonly readingId: string;
  readonly share: number;
}

/** What a deviation means at the sensor and down the road. */
export interface Consequence {
  /** Turn of the sensor's aim that it can cause, radians, never negative. */
  readonly aimRad: number;
  /** The same sideways (or in height) at 50 m, metres. */
  readonly metresAt50: number;
}

/**
 * How a sensor takes its aim from a target. A camera sees where the target is and how it is turned. A radar before a
 * reflector only sees where it is. A radar before a plate or mirror aligns itself to the plate's normal: where the plate
 * stands does not matter, its turn and lean do, by as much.
 */
export type AimSource = 'camera' | 'radarReflector' | 'radarPlate';

/**
 * The aim error a misplaced target leaves, if the sensor believed it. Signed: sideways positive to the car's left, height
 * positive up, as seen along the sensor's way to the target; rad and, at 50 m, metres.
 */
export interface AimError {
  readonly sidewaysRad: number;
  readonly upRad: number;
  readonly sidewaysMetresAt50: number;
  readonly upMetresAt50: number;
}

/** The verdict on one coordinate (worded by core/uncertainty). */
export type VerdictName = 'proven' | 'within' | 'beyond' | 'cannotBeJudged' | 'outside' | 'notJudged';

/** One coordinate at one station. Lengths in mm, rotations in radians; `deviation` is found minus required. */
export interface CoordinateFinding {
  readonly coordinate: Coordinate;
  readonly datum: Datum;
  readonly required: number;
  readonly found: number;
  readonly deviation: number;
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  readonly U: number;
  readonly permitted?: PermittedDeviation;
  readonly verdict: VerdictName;
  /** Probability of conformity; absent when not judged. */
  readonly probability?: number;
  readonly shares: readonly ReadingShare[];
  readonly consequence?: Consequence;
}

/** The distance from a station's required point within a plane, judged with the whole 2 x 2 covariance. mm. */
export interface RadialFinding {
  readonly plane: RadialPlane;
  /** Found minus required along the plane's two coordinates. */
  readonly deviation: readonly [number, number];
  readonly distanceMm: number;
  /** Along the deviation; near the middle, where a distance is not normal, along the error ellipse's longer axis. */
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  readonly U: number;
  readonly radiusMm: number;
  readonly stated: boolean;
  readonly verdict: VerdictName;
  readonly probability?: number;
  readonly shares: readonly ReadingShare[];
}

/** One station: found from its own readings, or expected from the bar pose while its slide is not read yet. */
export interface StationFinding {
  readonly station: string;
  readonly kind: StationRequirement['kind'];
  readonly basis: 'found' | 'expected';
  readonly required: PoseInVehicle;
  readonly target: PoseInVehicle;
  readonly covariance: PoseCovariance;
  readonly coordinates: readonly CoordinateFinding[];
  /** Only where the station permits a circle. */
  readonly radial?: RadialFinding;
  readonly worst: VerdictName;
  /** What all its deviations together mean at the sensor; only where the sensor's place is known. */
  readonly aim?: AimError;
  /** For a slide: the number to set on the slide and the side, which takes off the bar's own side error. */
  readonly slide?: { readonly side: CarSide; readonly setMm: number };
}
