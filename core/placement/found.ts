/** What came out of the adjustment: the car and the fixture as they stand, in the vehicle frame. */
import type { PointInVehicle, PoseInVehicle } from '../frames.ts';
import type { Wheel } from './placementReading.ts';

/** A value that came out of the adjustment, with what is known of it. mm or radians. */
export interface FoundQuantity {
  readonly value: number;
  readonly u: number;
  readonly dof: number;
}

/** A point found on or about the car. */
export type VehiclePoint =
  | `hub.${Wheel}`
  | `mark.${Wheel}`
  | 'ahead.L'
  | 'ahead.R'
  | 'behind.L'
  | 'behind.R'
  | 'bodyFace'
  | 'barEnd.carLeft'
  | 'barEnd.carRight';

/** The thrust line against the centreline: positive to the car's left (yaw of ISO 8855). */
export interface ThrustLineFound {
  readonly angle: FoundQuantity;
  /** U at about 95 %. */
  readonly expandedRad: number;
  /** True when the angle differs from zero by more than U: alignment comes before placement. */
  readonly differs: boolean;
}

/** The car as it stands. */
export interface VehicleFound {
  readonly points: Readonly<Partial<Record<VehiclePoint, PointInVehicle>>>;
  readonly wheelbase: FoundQuantity;
  readonly trackFront: FoundQuantity;
  readonly trackRear: FoundQuantity;
  /** Slope of the contact plane against gravity, radians: positive rising ahead, and rising to the car's left. */
  readonly slopeAheadRad: number;
  readonly slopeLeftRad: number;
  /** How far each wheel's floor point lies above the common plane, mm: the rock of a warped floor. */
  readonly warpMm: Readonly<Record<Wheel, number>>;
  /** Front-axle midpoint and body face ahead of the rear-axle midpoint, mm. */
  readonly frontAxleAheadMm: number;
  readonly bodyFaceAheadMm?: number;
  /** Absent without rear toe values: a centreline is then all that is known. */
  readonly thrustLine?: ThrustLineFound;
}

/** Six by six, row by row, in the order ahead, left, up, yaw, pitch, roll; mm and radians. */
export type PoseCovariance = readonly (readonly number[])[];

/** The fixture as it stands, in the vehicle frame. */
export interface FixtureFound {
  /** The bar's centre mark and the fixture's attitude. */
  readonly bar: PoseInVehicle;
  /** The target's face centre, slide at zero; rotations in the covariance are small turns about the car's axes. */
  readonly target: PoseInVehicle;
  readonly covariance: PoseCovariance;
  readonly barEnds: { readonly carLeft: PointInVehicle; readonly carRight: PointInVehicle };
}
