/**
 * Which way the target's face looks, and what follows for the sides of the bar. The fixture's Y points to the left of
 * one who looks out of the face: for a target ahead of the car that is the car's right, for one behind the car's left.
 */
import type { CarSide } from './placementReading.ts';
import type { StationRequirement } from './requirement.ts';

/** Cosine below which a face looks across the car: its bar has no car's-left end, and this recipe does not serve it. */
const ALONG_LIMIT = Math.SQRT1_2 - 1e-9;

/** The required heading of the face's outward normal; without a station the fixture stands ahead and faces the car. */
export const facingYawRad = (stations: readonly StationRequirement[]): number =>
  stations[0]?.yaw.value ?? Math.PI;

/** True when the face looks along the car, within 45 degrees. */
export const looksAlongCar = (yawRad: number): boolean => Math.abs(Math.cos(yawRad)) >= ALONG_LIMIT;

/** Cosine below which a board's edges have no car's left and right any more: within 10 degrees of straight across. */
const ACROSS_LIMIT = 0.17;

/** True when the face's two edges can be told apart as the car's left and right one. */
export const hasCarSides = (yawRad: number): boolean => Math.abs(Math.cos(yawRad)) >= ACROSS_LIMIT;

/** Plus or minus one: how much the fixture's Y points to the car's left. */
export const leftSign = (yawRad: number): 1 | -1 => (Math.cos(yawRad) > 0 ? 1 : -1);

/** The sign along the fixture's Y at which the bar end of a side of the car lies. */
export const endSign = (yawRad: number, side: CarSide): 1 | -1 =>
  (leftSign(yawRad) === 1) === (side === 'carLeft') ? 1 : -1;
