/**
 * The car's part of the network: hubs dropped to marks past a side arm, side lines extended beyond the bumpers, widths
 * and diagonals between the extended points, floor heights, the plumbed body face. The bay frame is made by three exact
 * coordinates (rear car's-left mark at zero, front car's-left mark on x) and by the level's plane as height zero: the
 * least that holds it, so nothing measured is bent.
 */
import type { Shared } from '../adjust/network.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { defaultUncertainties, type WorkUncertainties, workUncertainties } from './defaults.ts';
import type { VehiclePoint } from './found.ts';
import { hubDropReadings, leftWheel } from './hubDrop.ts';
import { hubId, markId, pointId } from './names.ts';
import {
  EMPTY,
  floorReading,
  freePoint,
  joined,
  knownLength,
  type NetworkPart,
  straightFloor,
} from './networkPart.ts';
import type { PlacementInput } from './placementInput.ts';
import type { Wheel } from './placementReading.ts';
import { WHEELS } from './placementReading.ts';
import type { SlotValue, SlotValues } from './readings.ts';
import { type CarStarts, inSpace, readingAt } from './starts.ts';
import { tapeDistance, tapeReadingU } from './tape.ts';

/** A hub, its mark, the drop between them and the two heights. The side arm points outward along the axle. */
function wheelPart(input: PlacementInput, values: SlotValues, starts: CarStarts, wheel: Wheel): NetworkPart {
  const work = workUncertainties(input.equipment);
  const drop = values.get(`drop.${wheel}`);
  const floor = values.get(`floor.${wheel}`);
  const place = starts.plan[`mark.${wheel}`];
  if (drop === undefined || floor === undefined || place === undefined) return EMPTY;
  const outward = leftWheel(wheel) ? 1 : -1;
  const armSide = leftWheel(wheel) ? 'left' : 'right';
  const mark = inSpace(place, starts.floorZMm[wheel]);
  const hub: Vec3 = [mark[0], mark[1] - outward * input.equipment.sideArms[armSide].mm, mark[2] + drop.value];
  const markPoint = freePoint(markId(wheel), mark);
  return {
    points: [
      freePoint(hubId(wheel), hub),
      {
        ...markPoint,
        ...(wheel === 'RL' ? { x: { state: 'fixed', valueMm: 0 } } : {}),
        ...(leftWheel(wheel) ? { y: { state: 'fixed', valueMm: 0 } } : {}),
      },
    ],
    readings: [floorReading(`floor.${wheel}`, floor, markId(wheel)), ...hubDropReadings(wheel, drop, work)],
    shared: [],
    sides: leftWheel(wheel)
      ? []
      : [{ point: markId(wheel), line: { from: markId('RL'), to: markId('FL') }, side: 'right' }],
  };
}

/**
 * How far a point set on the extension of a line lies beside it, mm: both marks set the line, and their errors grow with
 * the extension ratio r as root((1 + r)^2 + r^2); the line itself bends a little with every metre; the point is marked.
 */
export function lineExtensionU(work: WorkUncertainties, baseMm: number, beyondMm: number): number {
  const ratio = beyondMm / baseMm;
  const lever = Math.sqrt((1 + ratio) * (1 + ratio) + ratio * ratio);
  const bend = (work.linePerMetreMm * beyondMm) / 1000;
  const set = work.markMm * lever;
  return Math.sqrt(set * set + bend * bend + work.markMm * work.markMm);
}

/** One extended point: its distance, its place on the line of the two marks, and the floor going on straight. */
function extendedPart(
  values: SlotValues,
  starts: CarStarts,
  end: ExtendedEnd,
  work: WorkUncertainties,
): NetworkPart {
  const value = values.get(end.id);
  const place = starts.plan[end.id];
  const baseMm = readingAt(values, end.base);
  if (value === undefined || place === undefined || baseMm === undefined) return EMPTY;
  const ratio = value.value / baseMm;
  const [nearZ, farZ] = [starts.floorZMm[end.near], starts.floorZMm[end.far]];
  const line = { from: markId(end.far), to: markId(end.near) };
  const point = pointId(end.id);
  return {
    points: [freePoint(point, inSpace(place, nearZ + ratio * (nearZ - farZ)))],
    readings: [
      tapeDistance(end.id, value, markId(end.near), point, work),
      {
        kind: 'offset',
        id: `line.${end.id}`,
        point,
        line,
        valueMm: 0,
        uMm: lineExtensionU(work, baseMm, value.value),
      },
      straightFloor(`floorBeyond.${end.id}`, point, [
        [markId(end.near), 1 + ratio],
        [markId(end.far), -ratio],
      ]),
    ],
    shared: [],
    sides: [],
  };
}

interface ExtendedEnd {
  readonly id: 'ahead.L' | 'ahead.R' | 'behind.L' | 'behind.R';
  readonly near: Wheel;
  readonly far: Wheel;
  readonly base: string;
}

const EXTENDED: readonly ExtendedEnd[] = [
  { id: 'ahead.L', near: 'FL', far: 'RL', base: 'base.L' },
  { id: 'ahead.R', near: 'FR', far: 'RR', base: 'base.R' },
  { id: 'behind.L', near: 'RL', far: 'FL', base: 'base.L' },
  { id: 'behind.R', near: 'RR', far: 'FR', base: 'base.R' },
];

/** The tape readings between points of the car that are already there: which two points each joins. */
const BETWEEN: readonly (readonly [string, VehiclePoint, VehiclePoint])[] = [
  ['base.L', 'mark.RL', 'mark.FL'],
  ['base.R', 'mark.RR', 'mark.FR'],
  ['width.ahead', 'ahead.L', 'ahead.R'],
  ['width.behind', 'behind.L', 'behind.R'],
  ['diagonal.LR', 'behind.L', 'ahead.R'],
  ['diagonal.RL', 'behind.R', 'ahead.L'],
];

/**
 * The plumbed body face: behind the line of the two points ahead by the tape, somewhere near its middle, on a floor that
 * goes on straight. The plumb line hangs from the face's height, which the drop along gravity needs.
 */
function bodyFacePart(
  input: PlacementInput,
  values: SlotValues,
  starts: CarStarts,
  work: WorkUncertainties,
): NetworkPart {
  const value = values.get('face');
  const [left, right] = [starts.plan['ahead.L'], starts.plan['ahead.R']];
  if (value === undefined || left === undefined || right === undefined) return EMPTY;
  const line = { from: pointId('ahead.L'), to: pointId('ahead.R') };
  const point = pointId('bodyFace');
  const { u, dof } = tapeReadingU(value, work);
  const mean = (a: string, b: string): number =>
    ((readingAt(values, a) ?? 0) + (readingAt(values, b) ?? 0)) / 2;
  // How far the face lies beyond the front marks, in wheelbases: the floor goes on straight up to there.
  const ratio = (mean('ahead.L', 'ahead.R') - value.value) / mean('base.L', 'base.R');
  const { FL, FR, RL, RR } = starts.floorZMm;
  const zMm = ((1 + ratio) * (FL + FR) - ratio * (RL + RR)) / 2;
  const middle: Vec3 = [(left[0] + right[0]) / 2 - value.value, (left[1] + right[1]) / 2, zMm];
  return {
    points: [freePoint(point, middle)],
    readings: [
      {
        kind: 'offset',
        id: 'face',
        point,
        line,
        valueMm: -value.value,
        uMm: Math.hypot(u, defaultUncertainties.bodyFacePlumbMm),
        dof,
      },
      {
        kind: 'along',
        id: 'bodyFace.side',
        point,
        line,
        valueMm: Math.hypot(right[0] - left[0], right[1] - left[1]) / 2,
        uMm: defaultUncertainties.bodyFaceSideMm,
      },
      straightFloor('floorBeyond.bodyFace', point, [
        [markId('FL'), (1 + ratio) / 2],
        [markId('FR'), (1 + ratio) / 2],
        [markId('RL'), -ratio / 2],
        [markId('RR'), -ratio / 2],
      ]),
    ],
    shared: [
      knownLength(
        'bodyFace.height',
        input.bodyFaceHeight ?? {
          mm: defaultUncertainties.bodyFaceHeightMm,
          uMm: defaultUncertainties.bodyFaceHeightUMm,
        },
      ),
    ],
    sides: [],
  };
}

/** Rear toe from an alignment report as two known angles, positive toe-in; both or none. */
function toePart(values: SlotValues): NetworkPart {
  const left = values.get('toe.RL');
  const right = values.get('toe.RR');
  if (left === undefined || right === undefined) return EMPTY;
  const known = (id: string, value: SlotValue): Shared => ({
    id,
    quantity: 'angle',
    is: {
      state: 'known',
      valueRad: value.direction === 'toeOut' ? -value.value : value.value,
      uRad: defaultUncertainties.toeRad,
    },
  });
  return { ...EMPTY, shared: [known('toe.RL', left), known('toe.RR', right)] };
}

/** Everything about the car. */
export function carPart(input: PlacementInput, values: SlotValues, starts: CarStarts): NetworkPart {
  const work = workUncertainties(input.equipment);
  const between = BETWEEN.flatMap(([id, from, to]) => {
    const value = values.get(id);
    return value === undefined ? [] : [tapeDistance(id, value, pointId(from), pointId(to), work)];
  });
  return joined([
    ...WHEELS.map((wheel) => wheelPart(input, values, starts, wheel)),
    ...EXTENDED.map((end) => extendedPart(values, starts, end, work)),
    { ...EMPTY, readings: between },
    bodyFacePart(input, values, starts, work),
    toePart(values),
    {
      ...EMPTY,
      shared: [
        knownLength('sideArm.left', input.equipment.sideArms.left),
        knownLength('sideArm.right', input.equipment.sideArms.right),
      ],
    },
  ]);
}
