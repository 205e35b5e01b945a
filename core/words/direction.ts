/**
 * Signed deviations as words a person at the fixture can see. A deviation is found minus required in the
 * vehicle frame (ISO 8855 signs); the words depend on where the target stands and which way its face looks.
 * For a target ahead, +ahead is away from the car; for one behind it is toward the car. The same words serve a
 * move when they are asked for the deviation's opposite.
 */
import type { Coordinate, TargetPlace } from '../frames.ts';
import { type Mm, mm, type Rad, rad } from '../units.ts';
import type { EN } from './en.ts';

/** A key of the catalogue that says a direction. */
export type DirectionKey = Extract<keyof typeof EN, `dir.${string}`>;

/** A direction and an amount that is never negative. */
export type DirectionWords =
  | { readonly key: DirectionKey; readonly amountMm: Mm }
  | { readonly key: DirectionKey; readonly amountRad: Rad };

/** Where the target stands, and the required heading of its face's outward normal in the vehicle frame. */
export type TargetView = { readonly place: TargetPlace; readonly facingYawRad: number };

const AHEAD: Readonly<Record<TargetPlace, readonly [DirectionKey, DirectionKey]>> = {
  ahead: ['dir.awayFromCar', 'dir.towardCar'],
  behind: ['dir.towardCar', 'dir.awayFromCar'],
  carLeft: ['dir.towardCarFront', 'dir.towardCarRear'],
  carRight: ['dir.towardCarFront', 'dir.towardCarRear'],
};

const LEFT: Readonly<Record<TargetPlace, readonly [DirectionKey, DirectionKey]>> = {
  ahead: ['dir.toCarLeft', 'dir.toCarRight'],
  behind: ['dir.toCarLeft', 'dir.toCarRight'],
  carLeft: ['dir.awayFromCar', 'dir.towardCar'],
  carRight: ['dir.towardCar', 'dir.awayFromCar'],
};

/** True when the face looks along the car rather than across it, so that its bar has a car's-left end. */
function looksAlongCar(facingYawRad: number): boolean {
  return Math.abs(Math.cos(facingYawRad)) >= Math.abs(Math.sin(facingYawRad));
}

/**
 * Yaw turns the car's-left end (0, 1) by (-1, 0) and the car's-front end (1, 0) by (0, 1); an end goes toward
 * the car when that displacement has a positive part along the face's normal (cos, sin).
 */
function yawKeys(facingYawRad: number): readonly [DirectionKey, DirectionKey] {
  if (looksAlongCar(facingYawRad)) {
    return Math.cos(facingYawRad) < 0
      ? ['dir.turn.carLeftEndToward', 'dir.turn.carLeftEndAway']
      : ['dir.turn.carLeftEndAway', 'dir.turn.carLeftEndToward'];
  }
  return Math.sin(facingYawRad) > 0
    ? ['dir.turn.carFrontEndToward', 'dir.turn.carFrontEndAway']
    : ['dir.turn.carFrontEndAway', 'dir.turn.carFrontEndToward'];
}

/** Pitch is nose down: the top goes ahead (1, 0); across the car it lowers the end nearer the car's front. */
function pitchKeys(facingYawRad: number): readonly [DirectionKey, DirectionKey] {
  if (!looksAlongCar(facingYawRad)) return ['dir.tilt.carFrontEndLower', 'dir.tilt.carFrontEndHigher'];
  return Math.cos(facingYawRad) > 0
    ? ['dir.lean.topToward', 'dir.lean.topAway']
    : ['dir.lean.topAway', 'dir.lean.topToward'];
}

/** Roll lifts the car's left: it raises the car's-left end; of a face across the car the top goes (0, -1). */
function rollKeys(facingYawRad: number): readonly [DirectionKey, DirectionKey] {
  if (looksAlongCar(facingYawRad)) return ['dir.tilt.carLeftEndHigher', 'dir.tilt.carLeftEndLower'];
  return Math.sin(facingYawRad) < 0
    ? ['dir.lean.topToward', 'dir.lean.topAway']
    : ['dir.lean.topAway', 'dir.lean.topToward'];
}

function keysFor(coordinate: Coordinate, view: TargetView): readonly [DirectionKey, DirectionKey] {
  switch (coordinate) {
    case 'ahead':
      return AHEAD[view.place];
    case 'left':
      return LEFT[view.place];
    case 'up':
      return ['dir.higher', 'dir.lower'];
    case 'yaw':
      return yawKeys(view.facingYawRad);
    case 'pitch':
      return pitchKeys(view.facingYawRad);
    case 'roll':
      return rollKeys(view.facingYawRad);
  }
}

/**
 * The words of a signed deviation: `deviation` in mm for ahead, left, up and in radians for yaw, pitch, roll.
 * `deviationInWords('ahead', -4, { place: 'ahead', facingYawRad: Math.PI })` gives
 * `{ key: 'dir.towardCar', amountMm: 4 }`. Exactly zero gives `dir.none`.
 */
export function deviationInWords(
  coordinate: Coordinate,
  deviation: number,
  view: TargetView,
): DirectionWords {
  const [positive, negative] = keysFor(coordinate, view);
  const key = deviation === 0 ? 'dir.none' : deviation > 0 ? positive : negative;
  const amount = Math.abs(deviation);
  return coordinate === 'yaw' || coordinate === 'pitch' || coordinate === 'roll'
    ? { key, amountRad: rad(amount) }
    : { key, amountMm: mm(amount) };
}

/** The words of the move that undoes a deviation: those of its opposite. */
export function moveInWords(coordinate: Coordinate, deviation: number, view: TargetView): DirectionWords {
  return deviationInWords(coordinate, -deviation, view);
}

/** The side's name with what is found on that side of this car: "car's left (steering-wheel side)". */
export function sideKey(
  side: 'carLeft' | 'carRight',
  steeringSide: 'carLeft' | 'carRight',
): Extract<keyof typeof EN, `side.${string}`> {
  if (side === 'carLeft') {
    return steeringSide === 'carLeft' ? 'side.carLeft.steering' : 'side.carLeft.passenger';
  }
  return steeringSide === 'carRight' ? 'side.carRight.steering' : 'side.carRight.passenger';
}
