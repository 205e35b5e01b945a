/**
 * What a look says: its readings and what was believed before, adjusted together by the network's own adjuster. The belief
 * goes in as a `pose` reading with its covariance, the car's points are held as they were found, and each bar end that is
 * read gets a mark of its own.
 */

import { deriveAll } from '../../adjust/derive.ts';
import type { BodyPoint, Network, NetworkPoint, Reading } from '../../adjust/network.ts';
import { solve } from '../../adjust/solve.ts';
import { rotate, rotateBack, yawPitchRoll } from '../../geometry/rotation.ts';
import { subtract, type Vec3 } from '../../geometry/vector.ts';
import { multiply, transpose } from '../../linalg/matrix.ts';
import { err, ok, type Result } from '../../result.ts';
import { pointFromVehicle } from '../../vehicle/frame.ts';
import { signedTilts, tiltReading } from '../bodies/tilts.ts';
import { defaultUncertainties } from '../defaults.ts';
import { barDistances, barEndPlumb, bodyPoints, heightReading } from '../fixtureNetwork.ts';
import type { PoseCovariance } from '../found.ts';
import { targetAtCentre, turnBetween } from '../model.ts';
import { barMarkId, FIXTURE_ID } from '../names.ts';
import type { PlacementError } from '../placementError.ts';
import type { PlacementReading } from '../placementReading.ts';
import { covarianceBlock } from '../poses.ts';
import { type SlotValues, slotValues } from '../readings.ts';
import { nearPoints } from '../recipeSpec.ts';
import { tapeUnknowns } from '../tape.ts';
import type { QuickGround } from './ground.ts';
import type { QuickKnowledge } from './types.ts';

/** The believed pose of the body's origin in the bay, with its covariance as the adjuster's `pose` reading wants it. */
function poseReading({ frame, fixture }: QuickGround, { pose, covariance }: QuickKnowledge): Reading {
  const { outMm, acrossMm, upMm } = fixture.face;
  const toFace = rotate(pose.rotation, [outMm, acrossMm, upMm]);
  const [xMm, yMm, zMm] = pointFromVehicle(frame, subtract(pose.at, toFace));
  const rows = originRows(toFace).map((row): readonly number[] => row);
  const turned = (k: number): readonly (readonly number[])[] => {
    // Rows of the vehicle's axes as combinations along the bay's: columns of `axes`, transposed.
    const block = rows.slice(3 * k, 3 * k + 3);
    return [0, 1, 2].map((i) =>
      [0, 1, 2, 3, 4, 5].map((j) => {
        const inVehicle: Vec3 = [block[0]?.[j] ?? 0, block[1]?.[j] ?? 0, block[2]?.[j] ?? 0];
        return rotateBack(frame.axes, inVehicle)[i] ?? 0;
      }),
    );
  };
  const jacobian = [...turned(0), ...turned(1)];
  return {
    kind: 'pose',
    id: 'believed',
    body: FIXTURE_ID,
    in: 'bay',
    xMm,
    yMm,
    zMm,
    ...yawPitchRoll(multiply(transpose(frame.axes), pose.rotation)),
    covariance: carried(jacobian, covariance),
  };
}

/** J C J', made symmetric to the last digit. */
function carried(jacobian: readonly (readonly number[])[], covariance: PoseCovariance): number[][] {
  const left = jacobian.map((row) =>
    covariance.map((_, j) => row.reduce((sum, value, i) => sum + value * (covariance[i]?.[j] ?? 0), 0)),
  );
  const full = left.map((row) =>
    jacobian.map((other) => row.reduce((sum, value, i) => sum + value * (other[i] ?? 0), 0)),
  );
  return full.map((row, i) => row.map((value, j) => (value + (full[j]?.[i] ?? 0)) / 2));
}

/**
 * Changes of the body's origin and its turn vector, both along the car's axes, by the six coordinates of the target in the order
 * ahead, left, up, yaw, pitch, roll. The origin lies `-toFace` from the target: a turn w carries it by toFace x w.
 */
function originRows([fx, fy, fz]: Vec3): readonly (readonly number[])[] {
  // A turn vector (x, y, z) is (roll, pitch, yaw).
  return [
    [1, 0, 0, fy, -fz, 0],
    [0, 1, 0, -fx, 0, fz],
    [0, 0, 1, 0, fx, -fy],
    [0, 0, 0, 0, 0, 1],
    [0, 0, 0, 0, 1, 0],
    [0, 0, 0, 1, 0, 0],
  ];
}

function lookReadings(ground: QuickGround, values: SlotValues): Result<readonly Reading[], PlacementError> {
  const { fixture, yawRad } = ground;
  const work = defaultUncertainties.byWork[ground.work];
  const tilts = signedTilts(values, yawRad);
  if (!tilts.ok) return tilts;
  const height = values.get('target.height');
  const pitch = values.get('fixture.pitch');
  const roll = values.get('fixture.roll');
  return ok([
    ...barDistances(values, nearPoints(ground.input.stations), work),
    ...(height === undefined ? [] : [heightReading(height, fixture, yawRad, work)]),
    ...(pitch === undefined ? [] : [tiltReading(pitch, 'pitch', tilts.value.pitchRad, work)]),
    ...(roll === undefined ? [] : [tiltReading(roll, 'roll', tilts.value.rollRad, work)]),
  ]);
}

function lookNetwork(
  ground: QuickGround,
  before: QuickKnowledge,
  values: SlotValues,
): Result<Network, PlacementError> {
  const { fixture, yawRad } = ground;
  const work = defaultUncertainties.byWork[ground.work];
  const readings = lookReadings(ground, values);
  if (!readings.ok) return readings;
  const believed = poseReading(ground, before);
  if (believed.kind !== 'pose') return err({ code: 'placement/unsolvable', cause: 'no pose' });
  const known = new Set(ground.heldShared.map(({ id }) => id));
  const tapes = tapeUnknowns(
    [...values.values()].filter(({ slot }) => slot.id.startsWith('bar.')),
    work,
  );
  const marks = (['carLeft', 'carRight'] as const).map((side) => ({
    point: markPoint(barMarkId(side), [believed.xMm, believed.yMm, ground.floorZMm[side]]),
    reading: barEndPlumb(side, work),
  }));
  return ok({
    format: 'datumline-network-1',
    points: [...ground.heldPoints, ...marks.map(({ point }) => point)],
    shared: [...ground.heldShared, ...tapes.filter(({ id }) => !known.has(id))],
    readings: [believed, ...marks.map(({ reading }) => reading), ...readings.value],
    sides: [],
    bodies: [
      {
        id: FIXTURE_ID,
        pose: {
          x: { state: 'free', startMm: believed.xMm },
          y: { state: 'free', startMm: believed.yMm },
          z: { state: 'free', startMm: believed.zMm },
          yaw: { state: 'free', startRad: believed.yawRad },
          pitch: { state: 'free', startRad: believed.pitchRad },
          roll: { state: 'free', startRad: believed.rollRad },
        },
        points: bodyPoints(fixture, yawRad).map(exactly),
      },
    ],
  });
}

/** What the fixture is made like is wrong by the same in every look and in the proof set: here it is taken as it is said. */
const exactly = (point: BodyPoint): BodyPoint => ({ ...point, uXMm: 0, uYMm: 0, uZMm: 0 });

/** A mark whose height the floor gives. */
const markPoint = (id: string, [x, y, z]: Vec3): NetworkPoint => ({
  id,
  x: { state: 'free', startMm: x },
  y: { state: 'free', startMm: y },
  z: { state: 'fixed', valueMm: z },
});

/** What is believed after a look. Fails where a tilt has no direction, or the readings do not settle to a pose. */
export function afterLook(
  ground: QuickGround,
  before: QuickKnowledge,
  readings: readonly PlacementReading[],
): Result<QuickKnowledge, PlacementError> {
  const asRead = readings.map((reading) => ({ ...reading, purpose: 'proof' as const }));
  const values = slotValues(asRead, ground.input);
  const network = lookNetwork(ground, before, values);
  if (!network.ok) return network;
  const solved = solve(network.value);
  if (!solved.ok) {
    return err({ code: 'placement/impossible', readingIds: [...values.keys()] });
  }
  const { estimates } = solved.value;
  const { frame } = ground;
  const pose = targetAtCentre(estimates, frame);
  const { covariance } = deriveAll(solved.value, (e) => {
    const there = targetAtCentre(e, frame);
    const turn = turnBetween(pose.rotation, there.rotation);
    return [...there.at, turn.yawRad, turn.pitchRad, turn.rollRad];
  });
  return ok({ pose, covariance: covarianceBlock(covariance, 6, 0) });
}
