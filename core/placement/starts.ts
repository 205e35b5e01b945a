/**
 * Where everything roughly stands, built from the readings by ruler and compass: the car's-left marks lie along x with
 * the rear one at zero, the car's right is where circles meet on that side. The adjustment starts here, so that a
 * layout is never taken for its mirror image; lengths that close no triangle are named.
 */
import { circlesMeet } from '../geometry/circles.ts';
import type { Vec2, Vec3 } from '../geometry/vector.ts';
import { err, ok, type Result } from '../result.ts';
import type { VehiclePoint } from './found.ts';
import type { PlacementError } from './placementError.ts';
import type { Wheel } from './placementReading.ts';
import { impossibleFloors } from './plausible.ts';
import type { SlotValues } from './readings.ts';

/** Circles that miss each other by more than this name their readings as impossible together, mm. */
const GAP_LIMIT_MM = 60;

/** A closed figure that misses by more than this is a slip of the pen; less is left to the adjustment, which finds it, mm. */
export const MISCLOSURE_LIMIT_MM = 300;
/** Two points of a line nearer than this give no direction, mm. */
const SHORTEST_MM = 20;

/** Plan places of the points of the car, and floor heights at the wheels. */
export interface CarStarts {
  readonly plan: Readonly<Record<string, Vec2>>;
  readonly floorZMm: Readonly<Record<Wheel, number>>;
}

/** The value of a proof reading, when there is one. */
export function readingAt(values: SlotValues, id: string): number | undefined {
  return values.get(id)?.value;
}

/** One circle: a known centre, a measured radius and the reading it came from. */
export interface MeasuredCircle {
  readonly centre: Vec2;
  readonly radiusMm: number;
  readonly readingId: string;
}

/** Where two measured circles meet on one side of the way from the first centre to the second. */
export function meet(
  a: MeasuredCircle,
  b: MeasuredCircle,
  side: 'left' | 'right',
): Result<Vec2, PlacementError> {
  const meeting = circlesMeet(a.centre, a.radiusMm, b.centre, b.radiusMm);
  if (meeting === undefined || meeting.gap > GAP_LIMIT_MM) {
    return err({ code: 'placement/impossible', readingIds: [a.readingId, b.readingId] });
  }
  return ok(meeting[side]);
}

/** Whichever of two places is nearer to an expected one. */
export function nearer(a: MeasuredCircle, b: MeasuredCircle, expected: Vec2): Result<Vec2, PlacementError> {
  const left = meet(a, b, 'left');
  const right = meet(a, b, 'right');
  if (!left.ok || !right.ok) return left;
  const far = (p: Vec2): number => Math.hypot(p[0] - expected[0], p[1] - expected[1]);
  return far(left.value) <= far(right.value) ? left : right;
}

/** The car's right points ahead and behind from three or four of the two widths and two diagonals. */
function rightEnds(
  values: SlotValues,
  aheadLeft: Vec2,
  behindLeft: Vec2,
  rightLengthMm: number,
): Result<{ readonly ahead: Vec2; readonly behind: Vec2 }, PlacementError> {
  const circle = (centre: Vec2, readingId: string): MeasuredCircle | undefined => {
    const radiusMm = readingAt(values, readingId);
    return radiusMm === undefined ? undefined : { centre, radiusMm, readingId };
  };
  const widthAhead = circle(aheadLeft, 'width.ahead');
  const diagonalLR = circle(behindLeft, 'diagonal.LR');
  const widthBehind = circle(behindLeft, 'width.behind');
  const diagonalRL = circle(aheadLeft, 'diagonal.RL');
  const both = (a: MeasuredCircle | undefined, b: MeasuredCircle | undefined) =>
    a === undefined || b === undefined ? undefined : meet(a, b, 'right');
  const ahead = both(diagonalLR, widthAhead);
  const behind = both(widthBehind, diagonalRL);
  if (ahead !== undefined && !ahead.ok) return ahead;
  if (behind !== undefined && !behind.ok) return behind;
  const along = (centre: Vec2): MeasuredCircle => ({
    centre,
    radiusMm: rightLengthMm,
    readingId: 'base.R',
  });
  if (ahead !== undefined && behind !== undefined) {
    return ok({ ahead: ahead.value, behind: behind.value });
  }
  if (ahead !== undefined) {
    const other = widthBehind ?? diagonalRL;
    if (other === undefined) return openVehicle(['width.behind', 'diagonal.RL']);
    const found = nearer(along(ahead.value), other, [ahead.value[0] - rightLengthMm, ahead.value[1]]);
    return found.ok ? ok({ ahead: ahead.value, behind: found.value }) : found;
  }
  if (behind !== undefined) {
    const other = widthAhead ?? diagonalLR;
    if (other === undefined) return openVehicle(['width.ahead', 'diagonal.LR']);
    const found = nearer(along(behind.value), other, [behind.value[0] + rightLengthMm, behind.value[1]]);
    return found.ok ? ok({ ahead: found.value, behind: behind.value }) : found;
  }
  return openVehicle(['width.ahead', 'width.behind', 'diagonal.LR', 'diagonal.RL']);
}

function openVehicle(readingIds: readonly string[]): Result<never, PlacementError> {
  return err({ code: 'placement/undetermined', quantity: 'vehicle', readingIds });
}

const NEEDED = ['base.L', 'base.R', 'ahead.L', 'ahead.R', 'behind.L', 'behind.R'] as const;
/** The lengths that close the figure of the car's right side against its left. */
const CLOSING = [
  'base.R',
  'ahead.R',
  'behind.R',
  'width.ahead',
  'width.behind',
  'diagonal.LR',
  'diagonal.RL',
] as const;
const FLOOR = ['floor.FL', 'floor.FR', 'floor.RL', 'floor.RR'] as const;
const DROPS = ['drop.FL', 'drop.FR', 'drop.RL', 'drop.RR'] as const;

/** Starting places of the car's points, or what is still missing or impossible. */
export function carStarts(values: SlotValues): Result<CarStarts, PlacementError> {
  const open = [...FLOOR, ...DROPS, ...NEEDED].filter((id) => !values.has(id));
  if (open.length > 0) return openVehicle(open);
  const read = (id: string): number => readingAt(values, id) ?? 0;
  const short = NEEDED.filter((id) => !(read(id) > SHORTEST_MM));
  const nonsense = [...short, ...impossibleFloors(values, FLOOR)];
  if (nonsense.length > 0) return err({ code: 'placement/impossible', readingIds: nonsense });
  const aheadLeft: Vec2 = [read('base.L') + read('ahead.L'), 0];
  const behindLeft: Vec2 = [-read('behind.L'), 0];
  const rightLengthMm = read('behind.R') + read('base.R') + read('ahead.R');
  const right = rightEnds(values, aheadLeft, behindLeft, rightLengthMm);
  if (!right.ok) return right;
  const { ahead, behind } = right.value;
  const span = Math.hypot(ahead[0] - behind[0], ahead[1] - behind[1]);
  if (!(span > SHORTEST_MM && Math.abs(span - rightLengthMm) < MISCLOSURE_LIMIT_MM)) {
    return err({ code: 'placement/impossible', readingIds: CLOSING.filter((id) => values.has(id)) });
  }
  const on = (fromBehindMm: number): Vec2 => [
    behind[0] + ((ahead[0] - behind[0]) / span) * fromBehindMm,
    behind[1] + ((ahead[1] - behind[1]) / span) * fromBehindMm,
  ];
  const plan: Record<Exclude<VehiclePoint, `hub.${Wheel}` | `barEnd.${string}` | 'bodyFace'>, Vec2> = {
    'mark.RL': [0, 0],
    'mark.FL': [read('base.L'), 0],
    'ahead.L': aheadLeft,
    'behind.L': behindLeft,
    'mark.RR': on(read('behind.R')),
    'mark.FR': on(read('behind.R') + read('base.R')),
    'ahead.R': ahead,
    'behind.R': behind,
  };
  return ok({
    plan,
    floorZMm: {
      FL: -read('floor.FL'),
      FR: -read('floor.FR'),
      RL: -read('floor.RL'),
      RR: -read('floor.RR'),
    },
  });
}

/** A place with its height, as the network's points want it. */
export const inSpace = (place: Vec2, zMm: number): Vec3 => [place[0], place[1], zMm];
