/**
 * What can carry a target, and the readings that place each: bar fixture, single stand with a reflector, plate or mirror
 * whose tilt takes set values and is proven by reversal, corner board. Data only; the models are in the files beside this.
 */
import type { Coordinate } from '../../frames.ts';
import type { MoveKind } from '../instruction.ts';
import type { CarSide, Wheel } from '../placementReading.ts';
import {
  type Draft,
  type ReadingPoint,
  type ReadingSpec,
  spec,
  targetHeight,
  tiltReading,
} from '../recipeSpec.ts';
import type { StationRequirement } from '../requirement.ts';

/** What carries a target. */
export type BodyKind = 'bar' | 'singleStand' | 'plate' | 'corner';

/** What a kind of body is: which of its coordinates may stay free, and the moves its stand can make. */
export interface BodyTraits {
  /** Coordinates its readings leave open: a station must leave them free too. */
  readonly leavesOpen: readonly Coordinate[];
  readonly moves: readonly MoveKind[];
}

const ALL_MOVES: readonly MoveKind[] = ['turn', 'roll', 'shift', 'raise', 'lean', 'level'];

/** The kinds by name. */
export const BODIES: Readonly<Record<BodyKind, BodyTraits>> = {
  bar: { leavesOpen: [], moves: ALL_MOVES },
  // A reflector looks the same from where it is turned: its yaw is not read.
  singleStand: { leavesOpen: ['yaw'], moves: ALL_MOVES.filter((move) => move !== 'turn') },
  plate: { leavesOpen: [], moves: ALL_MOVES },
  corner: { leavesOpen: [], moves: ALL_MOVES },
};

/** Where a corner target stands, and the two points of the car that its edges are measured from. */
export interface CornerPlace {
  readonly side: CarSide;
  readonly wheel: Wheel;
  readonly point: 'ahead.L' | 'ahead.R' | 'behind.L' | 'behind.R';
}

/** The corner of the car a station's target stands at. */
export function cornerPlace(station: StationRequirement | undefined, near: 'ahead' | 'behind'): CornerPlace {
  const left = (station?.left.value ?? 0) >= 0;
  const end = near === 'ahead' ? 'F' : 'R';
  return {
    side: left ? 'carLeft' : 'carRight',
    wheel: `${end}${left ? 'L' : 'R'}`,
    point: `${near}.${left ? 'L' : 'R'}`,
  };
}

/** Slot keys of a corner's four distances: from the wheel's mark and the point beyond it to the inner and outer edge. */
export const CORNER_DISTANCES = [
  'corner.hubIn',
  'corner.hubOut',
  'corner.pointIn',
  'corner.pointOut',
] as const;

const barDistance = (
  id: string,
  pairId: string,
  points: readonly [ReadingPoint, ReadingPoint],
): ReadingSpec =>
  spec({
    id,
    stage: 'placement',
    kind: 'distance',
    unit: 'mm',
    limits: { min: 100, max: 10000 },
    pairId,
    dependsOn: ['car', 'fixture'],
    part: 'plan',
    points,
    instrument: 'tape',
  });

/** The car's lines end in points ahead and points behind; the fixture is measured from the pair it stands nearer. */
function barReadings(near: 'ahead' | 'behind'): readonly ReadingSpec[] {
  const fromLeft: ReadingPoint = near === 'ahead' ? 'ahead.L' : 'behind.L';
  const fromRight: ReadingPoint = near === 'ahead' ? 'ahead.R' : 'behind.R';
  const distances = [
    barDistance('bar.sameL', 'bar.sameR', [fromLeft, 'barEnd.carLeft']),
    barDistance('bar.diagLR', 'bar.diagRL', [fromLeft, 'barEnd.carRight']),
    barDistance('bar.sameR', 'bar.sameL', [fromRight, 'barEnd.carRight']),
    barDistance('bar.diagRL', 'bar.diagLR', [fromRight, 'barEnd.carLeft']),
  ];
  return [
    ...distances.map((each) => (near === 'ahead' ? each : { ...each, label: `reading.behind.${each.id}` })),
    targetHeight(),
    tiltReading('fixture.pitch', ['towardCar', 'awayFromCar']),
    tiltReading('fixture.roll', ['carLeftLow', 'carRightLow']),
  ];
}

function planDistance(id: string, points: readonly [ReadingPoint, ReadingPoint], more: Partial<Draft> = {}) {
  return spec({
    id,
    stage: 'placement',
    kind: 'distance',
    unit: 'mm',
    limits: { min: 100, max: 10000 },
    dependsOn: ['car', 'fixture'],
    part: 'plan',
    points,
    instrument: 'tape',
    ...more,
  });
}

/** True when every station of this stand leaves the coordinate free. */
export const isFree = (stations: readonly StationRequirement[], coordinate: Coordinate): boolean =>
  stations.every((station) => station.free?.includes(coordinate) === true) && stations.length > 0;

const PITCH = (): ReadingSpec => tiltReading('fixture.pitch', ['towardCar', 'awayFromCar']);
const ROLL = (): ReadingSpec => tiltReading('fixture.roll', ['carLeftLow', 'carRightLow']);

/** A tilt whose coordinate is free may be read, and need not be. */
const asNeeded = (reading: ReadingSpec, free: boolean): ReadingSpec => ({ ...reading, optional: free });

function singleStandReadings(
  near: 'ahead' | 'behind',
  stations: readonly StationRequirement[],
): readonly ReadingSpec[] {
  const left: ReadingPoint = near === 'ahead' ? 'ahead.L' : 'behind.L';
  const right: ReadingPoint = near === 'ahead' ? 'ahead.R' : 'behind.R';
  return [
    planDistance('stand.fromL', [left, 'target'], { pairId: 'stand.fromR' }),
    planDistance('stand.fromR', [right, 'target'], { pairId: 'stand.fromL' }),
    // From the line of the two points: the one reading that would tell a slip in either distance.
    planDistance('stand.fromLine', [left, 'target'], { kind: 'offset', optional: true }),
    targetHeight(),
    asNeeded(PITCH(), isFree(stations, 'pitch')),
    asNeeded(ROLL(), isFree(stations, 'roll')),
  ];
}

/** The same tilt twice: the inclinometer turned end for end shows its zero error the other way round. */
function plateReadings(
  near: 'ahead' | 'behind',
  stations: readonly StationRequirement[],
): readonly ReadingSpec[] {
  const [first, turned] = [PITCH(), PITCH()].map((each, at) => {
    const id = at === 0 ? 'plate.tilt' : 'plate.tiltTurned';
    return { ...each, id, label: `reading.${id}` };
  });
  return barReadings(near).flatMap((each) => {
    if (each.id === 'fixture.pitch')
      return first === undefined || turned === undefined ? [] : [first, turned];
    return each.id === 'fixture.roll' ? [asNeeded(each, isFree(stations, 'roll'))] : [each];
  });
}

function cornerReadings(
  near: 'ahead' | 'behind',
  stations: readonly StationRequirement[],
): readonly ReadingSpec[] {
  const { side, wheel, point } = cornerPlace(stations[0], near);
  const outer: ReadingPoint = side === 'carLeft' ? 'barEnd.carLeft' : 'barEnd.carRight';
  const inner: ReadingPoint = side === 'carLeft' ? 'barEnd.carRight' : 'barEnd.carLeft';
  return [
    planDistance('corner.hubIn', [`mark.${wheel}`, inner]),
    planDistance('corner.hubOut', [`mark.${wheel}`, outer]),
    planDistance('corner.pointIn', [point, inner]),
    planDistance('corner.pointOut', [point, outer]),
    targetHeight(),
    asNeeded(PITCH(), isFree(stations, 'pitch')),
    asNeeded(ROLL(), isFree(stations, 'roll')),
  ];
}

/** The readings of the placement stage for a body. */
export function bodyReadings(
  body: BodyKind,
  near: 'ahead' | 'behind',
  stations: readonly StationRequirement[],
): readonly ReadingSpec[] {
  switch (body) {
    case 'bar':
      return barReadings(near);
    case 'singleStand':
      return singleStandReadings(near, stations);
    case 'plate':
      return plateReadings(near, stations);
    case 'corner':
      return cornerReadings(near, stations);
  }
}
