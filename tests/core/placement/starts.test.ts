import { describe, expect, test } from 'vitest';
import { endSign, facingYawRad, leftSign, looksAlongCar } from '../../../core/placement/facing.ts';
import { barStarts } from '../../../core/placement/fixtureStart.ts';
import type { PlacementInput } from '../../../core/placement/placementInput.ts';
import { impossibleFloors, impossibleTilts } from '../../../core/placement/plausible.ts';
import { slotValues } from '../../../core/placement/readings.ts';
import { carStarts, meet, nearer } from '../../../core/placement/starts.ts';
import { CENTRE, inputOf, SQUARE } from './trueLayout.ts';

const DEG = Math.PI / 180;
const circle = (x: number, y: number, radiusMm: number, readingId: string) => ({
  centre: [x, y] as const,
  radiusMm,
  readingId,
});
const startsOf = (input: PlacementInput) => {
  const values = slotValues(input.readings, input);
  const car = carStarts(values);
  if (!car.ok) throw new Error(JSON.stringify(car.error));
  return { values, car: car.value };
};

describe('ruler and compass', () => {
  test('a 3-4-5 triangle: 300 from the first and 400 from the second of two points 500 apart', () => {
    const [a, b] = [circle(0, 0, 300, 'a'), circle(500, 0, 400, 'b')];
    expect(meet(a, b, 'left')).toMatchObject({ ok: true, value: [180, 240] });
    expect(meet(a, b, 'right')).toMatchObject({ ok: true, value: [180, -240] });
  });
  test('of the two places the one nearer to what is expected is taken', () => {
    const [a, b] = [circle(0, 0, 300, 'a'), circle(500, 0, 400, 'b')];
    expect(nearer(a, b, [0, 1000])).toMatchObject({ value: [180, 240] });
    expect(nearer(a, b, [0, -1000])).toMatchObject({ value: [180, -240] });
  });
  test('circles that miss by a few millimetres touch, circles that miss by far name both readings', () => {
    expect(meet(circle(0, 0, 240, 'a'), circle(500, 0, 250, 'b'), 'left').ok).toBe(true);
    expect(meet(circle(0, 0, 100, 'a'), circle(500, 0, 250, 'b'), 'left')).toEqual({
      ok: false,
      error: { code: 'placement/impossible', readingIds: ['a', 'b'] },
    });
    expect(meet(circle(0, 0, 100, 'a'), circle(0, 0, 100, 'b'), 'left').ok).toBe(false);
  });
});

describe('where the car starts', () => {
  test('faultless readings put every point of the car in its place at once', () => {
    const { car } = startsOf(inputOf(SQUARE));
    const [x, y] = car.plan['mark.FR'] ?? [0, 0];
    const [fx] = car.plan['mark.FL'] ?? [0];
    // Seen from the car's-left line, which is a little askew because the front marks stand wider apart.
    expect(Math.hypot(x, y)).toBeCloseTo(Math.hypot(2650, 1060 + 1055), 3);
    expect(Math.hypot(x - fx, y)).toBeCloseTo(2120, 3);
    expect(y).toBeLessThan(0);
    expect(car.floorZMm.FL).toBeCloseTo(-1432.1, 9);
  });
  test('what is missing is listed, all of it', () => {
    const input = inputOf(SQUARE, [CENTRE], { leaveOut: ['drop.RL', 'ahead.R', 'floor.FR'] });
    expect(carStarts(slotValues(input.readings, input))).toEqual({
      ok: false,
      error: {
        code: 'placement/undetermined',
        quantity: 'vehicle',
        readingIds: ['floor.FR', 'drop.RL', 'ahead.R'],
      },
    });
  });
  test('two of the widths and diagonals leave the car\u2019s right open, and say which reading would hold it', () => {
    const open = (leaveOut: readonly string[]) => {
      const input = inputOf(SQUARE, [CENTRE], { leaveOut });
      const starts = carStarts(slotValues(input.readings, input));
      return starts.ok || !('readingIds' in starts.error) ? [] : starts.error.readingIds;
    };
    expect(open(['width.behind', 'diagonal.RL'])).toEqual(['width.behind', 'diagonal.RL']);
    expect(open(['width.ahead', 'diagonal.LR'])).toEqual(['width.ahead', 'diagonal.LR']);
    expect(open(['width.ahead', 'width.behind'])).toHaveLength(4);
  });
});

describe('where the bar starts', () => {
  test('beyond the points ahead for a target 5 m from the rear axle, before them for one at 3 m', () => {
    const input = inputOf(SQUARE);
    const { values, car } = startsOf(input);
    const beyond = barStarts(input, values, car);
    expect(beyond.ok && beyond.value.beyond).toBe(true);
    expect(beyond.ok && beyond.value.sideIsClear).toBe(true);
    const nearStation = { ...CENTRE, ahead: { value: 3000, from: 'rearAxle' as const } };
    const before = barStarts({ ...input, stations: [nearStation] }, values, car);
    expect(before.ok && before.value.beyond).toBe(false);
  });
  test('counted from the front axle or the body face it is the same bar', () => {
    const input = inputOf(SQUARE);
    const { values, car } = startsOf(input);
    const places = [
      { value: 5000, from: 'rearAxle' },
      { value: 2350, from: 'frontAxle' },
      { value: 1500, from: 'bodyFace' },
    ] as const;
    const starts = places.map((ahead) =>
      barStarts({ ...input, stations: [{ ...CENTRE, ahead }] }, values, car),
    );
    for (const start of starts) expect(start).toEqual(starts[0]);
  });
});

describe('which way the face looks', () => {
  test('ahead of the car the fixture\u2019s Y is the car\u2019s right, behind it the car\u2019s left', () => {
    expect(leftSign(180 * DEG)).toBe(-1);
    expect(leftSign(0)).toBe(1);
    expect(leftSign(210 * DEG)).toBe(-1);
    expect(leftSign(-30 * DEG)).toBe(1);
  });
  test('the bar ends lie to either side of the centre mark accordingly', () => {
    expect(endSign(180 * DEG, 'carLeft')).toBe(-1);
    expect(endSign(180 * DEG, 'carRight')).toBe(1);
    expect(endSign(0, 'carLeft')).toBe(1);
  });
  test('up to 45 degrees a face looks along the car, beyond that across it', () => {
    for (const yaw of [0, 45, 135, 180, 225, -45]) expect(looksAlongCar(yaw * DEG), `${yaw}`).toBe(true);
    for (const yaw of [46, 90, 134, -90, 270]) expect(looksAlongCar(yaw * DEG), `${yaw}`).toBe(false);
  });
  test('without a station the fixture is taken to stand ahead and to face the car', () => {
    expect(facingYawRad([])).toBe(Math.PI);
    expect(facingYawRad([CENTRE])).toBe(CENTRE.yaw.value);
  });
});

describe('nonsense', () => {
  const values = (change: Record<string, number>) => {
    const input = inputOf(SQUARE);
    const readings = input.readings.map((each) => ({ ...each, value: change[each.id] ?? each.value }));
    return slotValues(readings, input);
  };
  test('a staff reading half a metre from the middle of all is no floor', () => {
    expect(impossibleFloors(values({ 'floor.RR': 1432 + 499 }), ['floor.RR'])).toEqual([]);
    expect(impossibleFloors(values({ 'floor.RR': 1432 + 501 }), ['floor.FL', 'floor.RR'])).toEqual([
      'floor.RR',
    ]);
    expect(impossibleFloors(new Map(), ['floor.RR'])).toEqual([]);
  });
  test('a fixture that leans more than 20 degrees lies on the floor', () => {
    expect(impossibleTilts(values({ 'fixture.pitch': 19 * DEG }))).toEqual([]);
    expect(impossibleTilts(values({ 'fixture.pitch': 21 * DEG }))).toEqual(['fixture.pitch']);
  });
});
