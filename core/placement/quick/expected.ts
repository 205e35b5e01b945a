/**
 * What each reading of a bar fixture would be at a believed pose, how it changes with the pose, and how well it is read.
 * Bar ends are dropped along gravity to the floor that the staff found under them; tapes run along the floor; the
 * target's height stands on the floor between the two marks; tilts are against gravity.
 */
import { rotate, yawPitchRoll } from '../../geometry/rotation.ts';
import { add, length, subtract, type Vec3 } from '../../geometry/vector.ts';
import { type Matrix, multiply, transpose } from '../../linalg/matrix.ts';
import { fromResolution } from '../../uncertainty/quantity.ts';
import { pointFromVehicle, type VehicleFrame } from '../../vehicle/frame.ts';
import { defaultUncertainties } from '../defaults.ts';
import type { PlacementFixture, WorkClass } from '../equipment.ts';
import { endSign, leftSign } from '../facing.ts';
import { floorWeights, heightReadingU } from '../fixtureNetwork.ts';
import type { TargetPose } from '../model.ts';
import type { CarSide, PlacementReading, SetUps, TiltDirection } from '../placementReading.ts';
import { TAPE_STEP_MM, tapeReadingU } from '../tape.ts';
import { changed, type LinearReading, type Six } from './belief.ts';

/** The readings of a look are chosen from these: those of a proof set. */
export const QUICK_READINGS = [
  'bar.sameL',
  'bar.sameR',
  'bar.diagLR',
  'bar.diagRL',
  'target.height',
  'fixture.pitch',
  'fixture.roll',
] as const;
/** The name of one of them. */
export type QuickReading = (typeof QUICK_READINGS)[number];

/** The car's points as found, in the bay frame, and what the readings are taken of and with. */
export interface Measured {
  readonly frame: VehicleFrame;
  /** The two points of the car's lines nearest to the fixture. */
  readonly near: { readonly L: Vec3; readonly R: Vec3 };
  /** Height of the floor under the bar ends, bay frame. */
  readonly floorZMm: Readonly<Record<CarSide, number>>;
  readonly fixture: PlacementFixture;
  readonly work: WorkClass;
  /** The required heading of the face. */
  readonly yawRad: number;
}

/** Which two points a bar distance joins. */
const JOINS = {
  'bar.sameL': ['L', 'carLeft'],
  'bar.sameR': ['R', 'carRight'],
  'bar.diagLR': ['L', 'carRight'],
  'bar.diagRL': ['R', 'carLeft'],
} as const satisfies Partial<Record<QuickReading, readonly ['L' | 'R', CarSide]>>;

const isDistance = (id: QuickReading): id is keyof typeof JOINS => Object.hasOwn(JOINS, id);

/** The mark of a bar end on the floor, bay frame. */
function barMark({ frame, fixture, floorZMm, yawRad }: Measured, pose: TargetPose, side: CarSide): Vec3 {
  const { outMm, acrossMm, upMm } = fixture.face;
  const along = (endSign(yawRad, side) * fixture.barLength.mm) / 2;
  const end = add(pose.at, rotate(pose.rotation, [-outMm, along - acrossMm, -upMm]));
  const [x, y] = pointFromVehicle(frame, end);
  return [x, y, floorZMm[side]];
}

const inBay = (frame: VehicleFrame, rotation: Matrix): Matrix => multiply(transpose(frame.axes), rotation);

/** What a faultless reading would be: mm, or radians with the signs of the fixture's own axes. */
export function expectedValue(measured: Measured, pose: TargetPose, id: QuickReading): number {
  const { frame, near, fixture, floorZMm, yawRad } = measured;
  if (isDistance(id)) {
    const [from, side] = JOINS[id];
    return length(subtract(barMark(measured, pose, side), near[from]));
  }
  if (id === 'target.height') {
    const weights = floorWeights(fixture.barLength.mm, leftSign(yawRad) * fixture.face.acrossMm);
    const floor = weights.carLeft * floorZMm.carLeft + weights.carRight * floorZMm.carRight;
    return pointFromVehicle(frame, pose.at)[2] - floor;
  }
  const { pitchRad, rollRad } = yawPitchRoll(inBay(frame, pose.rotation));
  return id === 'fixture.pitch' ? pitchRad : Math.asin(Math.cos(pitchRad) * Math.sin(rollRad));
}

/** Steps of the central differences, mm and radians: far below any curvature of a bay. */
const STEP = { mm: 0.1, rad: 1e-5 } as const;

/** How a reading changes with the six coordinates of the target. */
export function slopeOf(measured: Measured, pose: TargetPose, id: QuickReading): Six {
  return [0, 1, 2, 3, 4, 5].map((i) => {
    const step = i < 3 ? STEP.mm : STEP.rad;
    const shifted = (by: number): number =>
      expectedValue(
        measured,
        changed(
          pose,
          [0, 1, 2, 3, 4, 5].map((j) => (j === i ? by : 0)),
        ),
        id,
      );
    return (shifted(step) - shifted(-step)) / (2 * step);
  });
}

/** Variance of one reading with the default instrument of its kind, the drop of the bar end with it. */
export function varianceOf({ work }: Measured, value: number, id: QuickReading): number {
  const of = defaultUncertainties.byWork[work];
  if (id === 'fixture.pitch' || id === 'fixture.roll') return of.inclinometerRad * of.inclinometerRad;
  const slot = { slot: { id, purpose: 'guide' }, value, count: 1 } as const;
  if (id === 'target.height') {
    const { u } = heightReadingU(slot, of);
    return u * u;
  }
  const { u } = tapeReadingU(slot, of);
  return u * u + of.plumbMm * of.plumbMm + of.markMm * of.markMm;
}

/** A reading as the belief takes it in. */
export function linearReading(measured: Measured, pose: TargetPose, id: QuickReading): LinearReading {
  const variance = varianceOf(measured, expectedValue(measured, pose, id), id);
  return { slope: slopeOf(measured, pose, id), variance };
}

/** Variance of what a tape's rounded number hides of the place it is moved to. */
export const roundingVariance = (): number => {
  const u = fromResolution(TAPE_STEP_MM);
  return u * u;
};

function directionOf(id: QuickReading, signedRad: number, yawRad: number): TiltDirection | undefined {
  if (id === 'fixture.pitch') return signedRad >= 0 ? 'towardCar' : 'awayFromCar';
  if (id === 'fixture.roll') return -leftSign(yawRad) * signedRad >= 0 ? 'carLeftLow' : 'carRightLow';
  return undefined;
}

/** A value as a proof reading of these set-ups, its way told as a person picks it. */
export function readingOf(id: QuickReading, value: number, setUps: SetUps, yawRad: number): PlacementReading {
  const direction = directionOf(id, value, yawRad);
  return {
    id,
    purpose: 'proof',
    ref: `expected.${id}`,
    value: Math.abs(value),
    carSetUp: setUps.car,
    fixtureSetUp: setUps.fixture,
    ...(direction === undefined ? {} : { direction }),
  };
}
