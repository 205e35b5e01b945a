/**
 * The fixture's part of the network: a rigid body with its bar ends and its target, two floor marks dropped from the bar
 * ends, four tape distances from the extended points, one height over the floor between the marks, two tilts. A slide
 * moves the target along the bar; its reading errors are known unknowns that only its own station feels.
 */

import type { Body, BodyPoint, Reading, Shared, Side } from '../adjust/network.ts';
import { rotate, rotationMatrix } from '../geometry/rotation.ts';
import type { Vec2, Vec3 } from '../geometry/vector.ts';
import { err, ok, type Result } from '../result.ts';
import { fixtureNeeds } from './bodies/needs.ts';
import { CORNER_DISTANCES, cornerPlace } from './bodies/readings.ts';
import { tiltKnowledge, tiltParts } from './bodies/tilts.ts';
import { defaultUncertainties, type WorkUncertainties, workUncertainties } from './defaults.ts';
import type { PlacementFixture } from './equipment.ts';
import { endSign, facingYawRad, leftSign } from './facing.ts';
import { BAR_DISTANCES, type BarStarts } from './fixtureStart.ts';
import {
  barMarkId,
  FIXTURE_ID,
  markId,
  pointId,
  slideErrorId,
  slideHeightErrorId,
  slideTiltId,
} from './names.ts';
import { EMPTY, floorReading, freePoint, type NetworkPart } from './networkPart.ts';
import type { PlacementError } from './placementError.ts';
import type { PlacementInput } from './placementInput.ts';
import type { CarSide } from './placementReading.ts';
import type { SlotValue, SlotValues } from './readings.ts';
import { nearPoints } from './recipeSpec.ts';
import { inSpace } from './starts.ts';
import { meanOfRepeats, type ReadingU, tapeDistance, tapeOf } from './tape.ts';

/** The fixture's part: the network part and the body. */
export interface FixturePart extends NetworkPart {
  readonly bodies: readonly Body[];
}

/** Where the bar's centre mark and the heading roughly are, from the rough places of the two bar marks. */
function startYawRad(bar: BarStarts, sign: 1 | -1): number {
  const across: Vec2 = [bar.carLeft[0] - bar.carRight[0], bar.carLeft[1] - bar.carRight[1]];
  return Math.atan2(sign * across[1], sign * across[0]) - Math.PI / 2;
}

/** The bar's (or board's) two ends and the target's centre, in the fixture frame. */
export function bodyPoints(fixture: PlacementFixture, yawRad: number): readonly BodyPoint[] {
  const end = (side: CarSide): BodyPoint => ({
    id: pointId(`barEnd.${side}`),
    xMm: 0,
    yMm: (endSign(yawRad, side) * fixture.barLength.mm) / 2,
    zMm: 0,
    uXMm: 0,
    // Two independent ends whose distance has the u of the bar's length.
    uYMm: fixture.barLength.uMm / Math.SQRT2,
    uZMm: 0,
  });
  const { outMm, acrossMm, upMm, uMm } = fixture.face;
  const target: BodyPoint = {
    id: pointId('target'),
    xMm: outMm,
    yMm: acrossMm,
    zMm: upMm,
    uXMm: uMm,
    uYMm: uMm,
    uZMm: uMm,
  };
  return [end('carLeft'), end('carRight'), target];
}

/** The weights of the floor under the car's-left and car's-right bar ends at a place along the bar. */
export function floorWeights(
  barLengthMm: number,
  towardCarLeftMm: number,
): { readonly carLeft: number; readonly carRight: number } {
  const share = towardCarLeftMm / barLengthMm;
  return { carLeft: 0.5 + share, carRight: 0.5 - share };
}

/** u of the target's height: the tape held upright to the face centre, its class, its step, repeats. */
export function heightReadingU(value: SlotValue, work: WorkUncertainties): ReadingU {
  const { own, perUnit } = tapeOf(value, work);
  const { heightSetMm, tapeRepeatMm, tapeRepeatDof } = work;
  return meanOfRepeats([heightSetMm, own, perUnit * value.value], tapeRepeatMm, value.count, tapeRepeatDof);
}

/** The target's height over the floor line between the two bar marks. */
export function heightReading(
  value: SlotValue,
  fixture: PlacementFixture,
  yawRad: number,
  work: WorkUncertainties,
): Reading {
  const weights = floorWeights(fixture.barLength.mm, leftSign(yawRad) * fixture.face.acrossMm);
  const term = (point: string, coefficient: number) =>
    ({ coefficient, quantity: { of: 'coordinate', point, axis: 'z' } }) as const;
  const { u, dof } = heightReadingU(value, work);
  return {
    kind: 'constraint',
    id: 'target.height',
    instrument: 'tape',
    terms: [
      term(pointId('target'), 1),
      term(barMarkId('carLeft'), -weights.carLeft),
      term(barMarkId('carRight'), -weights.carRight),
    ],
    value: value.value,
    u,
    dof,
  };
}

/** A bar end dropped to its floor mark. */
export function barEndPlumb(side: CarSide, work: WorkUncertainties): Reading {
  const u = Math.hypot(work.plumbMm, work.markMm);
  return {
    kind: 'drop',
    id: `plumb.barEnd.${side}`,
    instrument: 'plumbBob',
    point: pointId(`barEnd.${side}`),
    mark: barMarkId(side),
    direction: { body: FIXTURE_ID, axis: 'y' },
    alongMm: 0,
    acrossMm: 0,
    uAlongMm: u,
    uAcrossMm: u,
  };
}

/** The bar end of one side dropped to its floor mark, and that mark's height. */
function barEndPart(values: SlotValues, bar: BarStarts, side: CarSide, work: WorkUncertainties): NetworkPart {
  const floorId = side === 'carLeft' ? 'floor.fixtureLeft' : 'floor.fixtureRight';
  const floor = values.get(floorId);
  if (floor === undefined) return EMPTY;
  return {
    ...EMPTY,
    points: [freePoint(barMarkId(side), inSpace(bar[side], -floor.value))],
    readings: [floorReading(floorId, floor, barMarkId(side)), barEndPlumb(side, work)],
  };
}

/** The distances from the extended points to the bar's marks, as many as are read. */
export function barDistances(
  values: SlotValues,
  near: 'ahead' | 'behind',
  work: WorkUncertainties,
): readonly Reading[] {
  const joins = {
    'bar.sameL': ['L', 'carLeft'],
    'bar.diagLR': ['L', 'carRight'],
    'bar.sameR': ['R', 'carRight'],
    'bar.diagRL': ['R', 'carLeft'],
  } as const;
  return BAR_DISTANCES.flatMap((id) => {
    const value = values.get(id);
    const [point, end] = joins[id];
    return value === undefined
      ? []
      : [tapeDistance(id, value, pointId(`${near}.${point}`), barMarkId(end), work)];
  });
}

/** What is not known exactly of each slide station: slide, height, tilt; all zero with their u. */
function slideUnknowns(
  input: PlacementInput,
  values: SlotValues,
  work: WorkUncertainties,
): readonly Shared[] {
  const tiltU = input.equipment.fixture.kinematics?.offCentre?.uTiltRad ?? defaultUncertainties.slideTiltRad;
  return input.stations.flatMap((station): readonly Shared[] => {
    if (station.kind !== 'slide') return [];
    const slide = values.get(slideErrorId(station.id));
    const height = values.get(slideHeightErrorId(station.id));
    const slideU = defaultUncertainties.slideMm / Math.sqrt(slide?.count ?? 1);
    const heightU: ReadingU =
      height === undefined
        ? { u: work.heightSetMm, dof: Number.POSITIVE_INFINITY }
        : heightReadingU(height, work);
    return [
      { id: slideErrorId(station.id), quantity: 'length', is: { state: 'known', valueMm: 0, uMm: slideU } },
      {
        id: slideHeightErrorId(station.id),
        quantity: 'length',
        is: { state: 'known', valueMm: 0, uMm: heightU.u, dof: heightU.dof },
      },
      {
        id: slideTiltId(station.id),
        quantity: 'angle',
        is: { state: 'known', valueRad: 0, uRad: tiltU },
      },
    ];
  });
}

/** A corner board's edges measured from the wheel's mark and the point beyond it. */
function cornerDistances(
  input: PlacementInput,
  values: SlotValues,
  near: 'ahead' | 'behind',
  work: WorkUncertainties,
): readonly Reading[] {
  const { side, wheel, point } = cornerPlace(input.stations[0], near);
  const inner: CarSide = side === 'carLeft' ? 'carRight' : 'carLeft';
  const joins = {
    'corner.hubIn': [markId(wheel), inner],
    'corner.hubOut': [markId(wheel), side],
    'corner.pointIn': [pointId(point), inner],
    'corner.pointOut': [pointId(point), side],
  } as const;
  return CORNER_DISTANCES.flatMap((id) => {
    const value = values.get(id);
    const [from, end] = joins[id];
    return value === undefined ? [] : [tapeDistance(id, value, from, barMarkId(end), work)];
  });
}

/** The plan readings of a body with two ends. */
function endDistances(
  input: PlacementInput,
  values: SlotValues,
  near: 'ahead' | 'behind',
  work: WorkUncertainties,
): readonly Reading[] {
  return input.body === 'corner'
    ? cornerDistances(input, values, near, work)
    : barDistances(values, near, work);
}

/** The bar marks' side of the line of the extended points, where the station makes it clear. */
function declaredSides(bar: BarStarts, near: 'ahead' | 'behind'): readonly Side[] {
  if (!bar.sideIsClear) return [];
  // From the car's-right to the car's-left point, what lies ahead is on the right hand.
  const line = { from: pointId(`${near}.R`), to: pointId(`${near}.L`) };
  const side = (near === 'ahead') === bar.beyond ? 'right' : 'left';
  return [
    { point: barMarkId('carLeft'), line, side },
    { point: barMarkId('carRight'), line, side },
  ];
}

/** Everything about the fixture; called when `fixtureNeeds` is empty. */
export function fixturePart(
  input: PlacementInput,
  values: SlotValues,
  bar: BarStarts,
): Result<FixturePart, PlacementError> {
  const work = workUncertainties(input.equipment);
  const fixture = input.equipment.fixture;
  const yawRad = facingYawRad(input.stations);
  const near = nearPoints(input.stations);
  const tilts = tiltParts(input, values, yawRad, work);
  if (!tilts.ok) return tilts;
  const height = values.get('target.height');
  const floors = [values.get('floor.fixtureLeft'), values.get('floor.fixtureRight')];
  const [floorLeft, floorRight] = floors;
  if (!height || !floorLeft || !floorRight) {
    const readingIds = fixtureNeeds(values, input);
    return err({ code: 'placement/undetermined', quantity: 'fixture', readingIds });
  }
  const { pitch, roll } = tilts.value;
  const angles = {
    yawRad: startYawRad(bar, leftSign(yawRad)),
    pitchRad: pitch.startRad,
    rollRad: roll.startRad,
  };
  const { outMm, acrossMm, upMm } = fixture.face;
  const faceUp: Vec3 = rotate(rotationMatrix(angles), [outMm, acrossMm, upMm]);
  const floorZMm = -(floorLeft.value + floorRight.value) / 2;
  const ends = [barEndPart(values, bar, 'carLeft', work), barEndPart(values, bar, 'carRight', work)];
  return ok({
    points: ends.flatMap((end) => end.points),
    readings: [
      ...ends.flatMap((end) => end.readings),
      ...endDistances(input, values, near, work),
      heightReading(height, fixture, yawRad, work),
      ...pitch.readings,
      ...roll.readings,
    ],
    shared: [...slideUnknowns(input, values, work), ...pitch.shared, ...roll.shared],
    sides: input.body === 'corner' ? [] : declaredSides(bar, near),
    bodies: [
      {
        id: FIXTURE_ID,
        pose: {
          x: { state: 'free', startMm: (bar.carLeft[0] + bar.carRight[0]) / 2 },
          y: { state: 'free', startMm: (bar.carLeft[1] + bar.carRight[1]) / 2 },
          z: { state: 'free', startMm: floorZMm + height.value - faceUp[2] },
          yaw: { state: 'free', startRad: angles.yawRad },
          pitch: tiltKnowledge(pitch),
          roll: tiltKnowledge(roll),
        },
        points: bodyPoints(fixture, yawRad),
      },
    ],
  });
}
