/** Mats on a sloping floor solved back to where they truly lie, tied to wheels and to each other. */
import { describe, expect, test } from 'vitest';
import {
  heightKey,
  type Mat,
  type MatPlace,
  type MatsInput,
  type MatTie,
  matRecipe,
  roughWheels,
  solveMats,
  tieKey,
} from '../../../../core/placement/bodies/mats.ts';
import { slotValues } from '../../../../core/placement/readings.ts';
import {
  distance,
  type P3,
  plus,
  by as scaledBy,
  type TrueLayout,
  worldOf,
} from '../../../../core/rehearsal/trueBay.ts';
import { EQUIPMENT, inputOf, SQUARE } from '../trueLayout.ts';

const DEG = Math.PI / 180;
const PLANE_MM = 1432.1;
const LAYOUT: TrueLayout = {
  ...SQUARE,
  carAt: [120, -80],
  carHeading: 25 * DEG,
  floorSlope: [0.006, -0.004],
};
const TEN = { lower: -10, upper: 10, stated: true } as const;

const square = (id: string, aheadMm: number, leftMm: number): Mat => ({
  id,
  points: [
    { id: 'A', xMm: 600, yMm: 500, uMm: 0.3 },
    { id: 'B', xMm: 600, yMm: -500, uMm: 0.3 },
    { id: 'C', xMm: -600, yMm: -500, uMm: 0.3 },
    { id: 'D', xMm: -600, yMm: 500, uMm: 0.3 },
  ],
  required: { aheadMm, leftMm, yawRad: 0 },
  permitted: { ahead: TEN, left: TEN, yaw: { lower: -0.5 * DEG, upper: 0.5 * DEG, stated: true } },
  flatWithinMm: 3,
});
const MATS = [square('front', 4600, 0), square('left', 1300, 2000), square('right', 1300, -2000)];
const TRUE = {
  front: { ahead: 4606, left: -4, yaw: 0.3 * DEG },
  left: { ahead: 1297, left: 2005, yaw: -0.2 * DEG },
  right: { ahead: 1290, left: -2030, yaw: 1.1 * DEG },
} as const;

const world = worldOf(LAYOUT, EQUIPMENT);

/** A point of a mat as it lies: on the car's plane, which the floor is. */
function placeOf(place: MatPlace): P3 {
  if ('wheel' in place) return world.points[`mark.${place.wheel}`] ?? [0, 0, 0];
  const mat = MATS.find((each) => each.id === place.mat);
  const point = mat?.points.find((each) => each.id === place.point);
  const truth = TRUE[place.mat as keyof typeof TRUE];
  if (point === undefined) throw new Error('no point');
  const [c, s] = [Math.cos(truth.yaw), Math.sin(truth.yaw)];
  const [ahead, left] = [
    truth.ahead + c * point.xMm - s * point.yMm,
    truth.left + s * point.xMm + c * point.yMm,
  ];
  const { x, y } = world.carAxes;
  return plus(world.carOrigin, plus(scaledBy(x, ahead), scaledBy(y, left)));
}

const car = inputOf(LAYOUT);
const carValues = slotValues(car.readings, car);
const slotOf = (id: string, value: number) => ({ slot: { id, purpose: 'proof' as const }, value, count: 1 });

function recipe(): readonly MatTie[] {
  const wheels = roughWheels(carValues);
  if (!wheels.ok) throw new Error('no car');
  return matRecipe(MATS, wheels.value);
}

function read(ties = recipe(), off: Readonly<Record<string, number>> = {}): MatsInput {
  return {
    car,
    carValues,
    mats: MATS,
    ties: ties.map((tie) => {
      const key = tieKey(tie);
      return { ...tie, value: slotOf(key, distance(placeOf(tie.from), placeOf(tie.to)) + (off[key] ?? 0)) };
    }),
    heights: MATS.flatMap((mat) =>
      mat.points.map((point) => {
        const key = heightKey(mat.id, point.id);
        const staff = PLANE_MM - placeOf({ mat: mat.id, point: point.id })[2];
        return { mat: mat.id, point: point.id, value: slotOf(key, staff + (off[key] ?? 0)) };
      }),
    ),
  };
}

function found(input: MatsInput) {
  const answer = solveMats(input);
  if (!answer.ok) throw new Error(JSON.stringify(answer.error));
  return answer.value;
}

describe('floor mats', () => {
  test('are solved back to where they lie', () => {
    const { mats, globalTest } = found(read());
    for (const mat of mats) {
      const truth = TRUE[mat.id as keyof typeof TRUE];
      expect(Math.hypot(mat.aheadMm - truth.ahead, mat.leftMm - truth.left), mat.id).toBeLessThan(1e-6);
      expect(mat.yawRad, mat.id).toBeCloseTo(truth.yaw, 9);
      expect(mat.flatnessMm).toBeLessThan(1e-6);
    }
    expect(globalTest?.passed).toBe(true);
  });
  test('each has its own verdict', () => {
    const { mats } = found(read());
    expect(mats.map((mat) => [mat.id, mat.worst])).toEqual([
      ['front', 'proven'],
      ['left', 'proven'],
      ['right', 'outside'],
    ]);
    const right = mats.find((mat) => mat.id === 'right');
    expect(right?.coordinates.map((each) => [each.coordinate, each.verdict])).toEqual([
      ['ahead', expect.stringMatching(/within|beyond/)],
      ['left', 'outside'],
      ['yaw', 'outside'],
    ]);
  });
  test('a tie between mats lowers what is not known of the farther one', () => {
    const all = recipe();
    const alone = all.filter(({ from }) => 'wheel' in from);
    const u = (ties: readonly MatTie[]) => found(read(ties)).mats[0]?.coordinates[1]?.u ?? 0;
    expect(all.length).toBeGreaterThan(alone.length);
    expect(u(all)).toBeLessThan(u(alone));
  });
  test('a bump of 6 mm under one corner of four lies 3 mm off the best plane, end to end', () => {
    const { mats } = found(read(recipe(), { [heightKey('left', 'A')]: -6 }));
    const left = mats.find((mat) => mat.id === 'left');
    // The best plane leaves plus and minus 1.5 mm at the four corners of a rectangle.
    expect(left?.flatnessMm).toBeCloseTo(3, 1);
    expect(mats.find((mat) => mat.id === 'front')?.flat).toBe(true);
    const more = found(read(recipe(), { [heightKey('left', 'A')]: -9 })).mats.find(
      (mat) => mat.id === 'left',
    );
    expect(more?.flat).toBe(false);
  });
  test('a slip of 25 mm in one tie fails the global test and proves nothing', () => {
    const [tie] = recipe();
    if (tie === undefined) throw new Error('no tie');
    const { globalTest, mats } = found(read(recipe(), { [tieKey(tie)]: 25 }));
    expect(globalTest?.passed).toBe(false);
    expect(mats.some((mat) => mat.worst === 'proven')).toBe(false);
  });
  test('what is missing or unknown is named by mat and place', () => {
    const few = recipe().filter(
      ({ from, to }) => ![from, to].some((each) => 'mat' in each && each.mat === 'left'),
    );
    expect(solveMats(read(few))).toEqual({ ok: false, error: { code: 'mats/undetermined', mats: ['left'] } });
    const low = read();
    const heights = low.heights.filter((each) => each.mat !== 'right');
    expect(solveMats({ ...low, heights })).toEqual({
      ok: false,
      error: { code: 'mats/undetermined', mats: ['right'] },
    });
    const strange: MatTie = { from: { wheel: 'FL' }, to: { mat: 'left', point: 'Z' } };
    const [first] = low.ties;
    if (first === undefined) throw new Error('no tie');
    const ties = [...low.ties, { ...strange, value: first.value }];
    expect(solveMats({ ...low, ties })).toEqual({
      ok: false,
      error: { code: 'mats/unknownPlace', places: ['@mat.left.Z'] },
    });
  });
  test('without the car nothing is solved, and its error says what to read', () => {
    const bare = new Map([...carValues].filter(([key]) => key !== 'base.L'));
    const answer = solveMats({ ...read(), carValues: bare });
    expect(answer.ok ? '' : answer.error.code).toBe('placement/undetermined');
  });
  test('the recipe ties every mat to its two nearest wheels by its two farthest points, and to the next mat', () => {
    const ties = recipe();
    const wheelsOf = (id: string) =>
      new Set(
        ties.flatMap(({ from, to }) => ('wheel' in from && 'mat' in to && to.mat === id ? [from.wheel] : [])),
      );
    expect(wheelsOf('front')).toEqual(new Set(['FL', 'FR']));
    expect(wheelsOf('left')).toEqual(new Set(['FL', 'RL']));
    expect(wheelsOf('right')).toEqual(new Set(['FR', 'RR']));
    expect(new Set(ties.map(tieKey)).size).toBe(ties.length);
  });
});
