/**
 * A single stand that carries a reflector: its centre is dropped to the floor, and two tapes from the extended points to
 * that mark place it; a third reading from their line is a check. Its turn is not read: it stands in the network as
 * required, and a station that judges it cannot be served.
 */
import type { Reading } from '../../adjust/network.ts';
import { rotate, rotationMatrix } from '../../geometry/rotation.ts';
import type { Vec2, Vec3 } from '../../geometry/vector.ts';
import { err, ok, type Result } from '../../result.ts';
import { workUncertainties } from '../defaults.ts';
import { facingYawRad } from '../facing.ts';
import { bodyPoints, type FixturePart, heightReadingU } from '../fixtureNetwork.ts';
import { roughAheadMm } from '../fixtureStart.ts';
import { FIXTURE_ID, pointId } from '../names.ts';
import { floorReading, freePoint } from '../networkPart.ts';
import type { PlacementError } from '../placementError.ts';
import type { PlacementInput } from '../placementInput.ts';
import type { SlotValue, SlotValues } from '../readings.ts';
import { nearPoints } from '../recipeSpec.ts';
import { type CarStarts, inSpace, meet, readingAt } from '../starts.ts';
import { tapeDistance, tapeReadingU } from '../tape.ts';
import { fixtureNeeds } from './needs.ts';
import { tiltKnowledge, tiltParts } from './tilts.ts';

const MARK = pointId('floorUnder.target');

/** Rough plan place of the target's mark: where two tapes meet beyond the points, or before them where the station says so. */
function markStart(
  input: PlacementInput,
  values: SlotValues,
  car: CarStarts,
): Result<{ readonly at: Vec2; readonly side: 'left' | 'right' }, PlacementError> {
  const near = nearPoints(input.stations);
  const left: Vec2 = car.plan[`${near}.L`] ?? [0, 0];
  const right: Vec2 = car.plan[`${near}.R`] ?? [0, 0];
  const [station] = input.stations;
  const outward = near === 'ahead' ? 1 : -1;
  const beyond = station === undefined || outward * (roughAheadMm(station, values, left[0]) - left[0]) >= 0;
  // From the car's-left to the car's-right point, what lies ahead is on the left hand.
  const side = (near === 'ahead') === beyond ? 'left' : 'right';
  const circle = (centre: Vec2, readingId: string) => ({
    centre,
    radiusMm: readingAt(values, readingId) ?? 0,
    readingId,
  });
  const found = meet(circle(left, 'stand.fromL'), circle(right, 'stand.fromR'), side);
  return found.ok ? ok({ at: found.value, side }) : found;
}

function planReadings(values: SlotValues, input: PlacementInput, side: 'left' | 'right'): readonly Reading[] {
  const work = workUncertainties(input.equipment);
  const near = nearPoints(input.stations);
  const tape = (id: string, from: string) => {
    const value = values.get(id);
    return value === undefined ? [] : [tapeDistance(id, value, from, MARK, work)];
  };
  const line = { from: pointId(`${near}.L`), to: pointId(`${near}.R`) };
  const offset = (value: SlotValue): Reading => {
    const { u, dof } = tapeReadingU(value, work);
    const sign = side === 'left' ? 1 : -1;
    return {
      kind: 'offset',
      id: 'stand.fromLine',
      point: MARK,
      line,
      valueMm: sign * value.value,
      uMm: u,
      dof,
    };
  };
  const fromLine = values.get('stand.fromLine');
  return [
    ...tape('stand.fromL', line.from),
    ...tape('stand.fromR', line.to),
    ...(fromLine === undefined ? [] : [offset(fromLine)]),
  ];
}

function heightOverMark(value: SlotValue, input: PlacementInput): Reading {
  const { u, dof } = heightReadingU(value, workUncertainties(input.equipment));
  const term = (point: string, coefficient: number) =>
    ({ coefficient, quantity: { of: 'coordinate', point, axis: 'z' } }) as const;
  return {
    kind: 'constraint',
    id: 'target.height',
    instrument: 'tape',
    terms: [term(pointId('target'), 1), term(MARK, -1)],
    value: value.value,
    u,
    dof,
  };
}

/** The stand's part of the network; called when `fixtureNeeds` is empty. */
export function singleStandPart(
  input: PlacementInput,
  values: SlotValues,
  car: CarStarts,
): Result<FixturePart, PlacementError> {
  const work = workUncertainties(input.equipment);
  const [floor, height] = [values.get('floor.stand'), values.get('target.height')];
  if (floor === undefined || height === undefined) {
    const readingIds = fixtureNeeds(values, input);
    return err({ code: 'placement/undetermined', quantity: 'fixture', readingIds });
  }
  const start = markStart(input, values, car);
  if (!start.ok) return start;
  const yawRad = facingYawRad(input.stations);
  const tilts = tiltParts(input, values, yawRad, work);
  if (!tilts.ok) return tilts;
  const { pitch, roll } = tilts.value;
  const { outMm, acrossMm, upMm } = input.equipment.fixture.face;
  const angles = { yawRad, pitchRad: pitch.startRad, rollRad: roll.startRad };
  const face: Vec3 = rotate(rotationMatrix(angles), [outMm, acrossMm, upMm]);
  const [x, y] = start.value.at;
  const u = Math.hypot(work.plumbMm, work.markMm);
  return ok({
    points: [freePoint(MARK, inSpace([x, y], -floor.value))],
    readings: [
      floorReading('floor.stand', floor, MARK),
      {
        kind: 'drop',
        id: 'plumb.target',
        instrument: 'plumbBob',
        point: pointId('target'),
        mark: MARK,
        direction: { from: pointId('ahead.R'), to: pointId('ahead.L') },
        alongMm: 0,
        acrossMm: 0,
        uAlongMm: u,
        uAcrossMm: u,
      },
      ...planReadings(values, input, start.value.side),
      heightOverMark(height, input),
      ...pitch.readings,
      ...roll.readings,
    ],
    shared: [],
    sides: [],
    bodies: [
      {
        id: FIXTURE_ID,
        pose: {
          x: { state: 'free', startMm: x - face[0] },
          y: { state: 'free', startMm: y - face[1] },
          z: { state: 'free', startMm: -floor.value + height.value - face[2] },
          yaw: { state: 'fixed', valueRad: yawRad },
          pitch: tiltKnowledge(pitch),
          roll: tiltKnowledge(roll),
        },
        points: bodyPoints(input.equipment.fixture, yawRad),
      },
    ],
  });
}
