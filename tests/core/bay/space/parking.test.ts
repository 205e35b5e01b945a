import { describe, expect, test } from 'vitest';
import { fitAt, type ParkingPlace, type SpaceFit, spaceFit } from '../../../../core/bay/space/fit.ts';
import {
  type BestParking,
  bestParking,
  PARKING_STEP_MM,
  type ParkingLimits,
} from '../../../../core/bay/space/parking.ts';
import { contains, type Polygon } from '../../../../core/bay/space/polygon.ts';
import {
  type Bay,
  prepareBay,
  prepareParts,
  rollingStrip,
  type SpacePart,
} from '../../../../core/bay/space/room.ts';
import { fitSentences, parkingSentence } from '../../../../core/bay/space/spaceWords.ts';
import type { Vec2 } from '../../../../core/geometry/vector.ts';
import { randomFrom } from '../../../../core/uncertainty/random.ts';
import { radFromDeg } from '../../../../core/units.ts';
import { say } from '../../../../core/words/index.ts';

const box = (x: number, y: number, length: number, width: number): Polygon => [
  [x, y],
  [x + length, y],
  [x + length, y + width],
  [x, y + width],
];

const part = (
  name: string,
  kind: SpacePart['kind'],
  outline: Polygon,
  over: Partial<SpacePart> = {},
): SpacePart => ({
  name,
  kind,
  outline,
  fromMm: 0,
  toMm: 2000,
  marginMm: 0,
  ...over,
});

/** A car of 4400 by 1800 mm, its rear axle 900 mm before its end. */
const CAR = part('car', 'car', box(-900, -900, 4400, 1800), { fromMm: 150, marginMm: 400 });
/** A fixture 2400 mm wide, 1.5 m before the bumper, and the zone between. */
const FIXTURE = part('fixture', 'footprint', box(5000, -1200, 800, 2400));
const ZONE = part('clear zone', 'clearZone', box(3500, -1000, 1500, 2000), { toMm: 2500 });
const WORK = [CAR, FIXTURE, ZONE];

const HALL: Bay = { outline: box(0, 0, 9000, 4000), obstacles: [] };
const STRAIGHT: ParkingLimits = {
  xMm: [0, 9000],
  yMm: [0, 4000],
  headingsRad: [[radFromDeg(-3), radFromDeg(3)]],
};

function fitOf(bay: Bay, parts: readonly SpacePart[], xMm: number, yMm: number, degrees = 0): SpaceFit {
  const found = spaceFit(bay, parts, { xMm, yMm, headingRad: radFromDeg(degrees) });
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
}

function best(bay: Bay, parts: readonly SpacePart[], limits = STRAIGHT, step?: number): BestParking {
  const found = bestParking(bay, parts, limits, step);
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
}

describe('does it fit as parked', () => {
  test('in the middle of the hall: the car 200 mm beyond its margin, all pairs listed, tightest first', () => {
    const found = fitOf(HALL, WORK, 2000, 2000);
    expect(found.fits).toBe(true);
    // Car: 2000 - 900 to either side, 1100 behind, needs 400. Fixture: 2000 - 1200 = 800 beside, 1200 ahead.
    expect(found.findings.map(({ part: p, spareMm }) => [p, Math.round(spareMm)])).toEqual([
      ['car', 700],
      ['fixture', 800],
      ['clear zone', 1000],
    ]);
    expect(fitSentences(found)[0]).toMatchObject({
      key: 'space.fits',
      values: { part: 'car', gap: '1100 mm' },
    });
  });

  test('500 mm too near the door end, and turned by 10 degrees: what collides and by how much', () => {
    const near = fitOf(HALL, WORK, 700, 2000);
    expect(near.fits).toBe(false);
    expect(near.findings[0]).toMatchObject({ part: 'car', against: 'walls' });
    expect(near.findings[0]?.clearanceMm).toBeCloseTo(-200, 9);
    expect(near.findings[0]?.spareMm).toBeCloseTo(-600, 9);
    const turned = fitOf(HALL, WORK, 2000, 2000, 10);
    // The fixture's far corner, 5800 ahead and 1200 to the left: y = 2000 + 5800 sin + 1200 cos.
    const far = 4000 - (2000 + 5800 * Math.sin(radFromDeg(10)) + 1200 * Math.cos(radFromDeg(10)));
    expect(turned.findings.find((f) => f.part === 'fixture')?.clearanceMm).toBeCloseTo(far, 9);
    expect(fitSentences(near).map(({ key }) => key)).toEqual(['space.collides']);
  });

  test('heights: a lift arm on the floor is in the way of the fixture and not of the raised bumper', () => {
    const arm = { name: 'lift arm', outline: box(2500, 1500, 600, 400), fromMm: 0, toMm: 120 };
    const beam = { name: 'beam', outline: box(7000, 1500, 1000, 400), fromMm: 2200, toMm: 2600 };
    const found = fitOf({ ...HALL, obstacles: [arm, beam] }, WORK, 2000, 2000);
    expect(found.fits).toBe(true);
    const tall = { ...FIXTURE, toMm: 2300 };
    const blocked = fitOf({ ...HALL, obstacles: [arm, beam] }, [CAR, tall], 2000, 2000);
    expect(blocked.findings[0]).toMatchObject({ part: 'fixture', against: 'beam' });
    expect(blocked.fits).toBe(false);
    const raised = fitOf({ ...HALL, obstacles: [{ ...arm, toMm: 151 }] }, WORK, 2000, 2000);
    expect(raised.findings[0]).toMatchObject({ part: 'car', against: 'lift arm' });
  });

  test('a fixture place inside the car is wrong wherever one parks', () => {
    const inside = part('fixture', 'footprint', box(3000, -1200, 800, 2400));
    const found = fitOf(HALL, [CAR, inside], 2000, 2000);
    expect(found.fits).toBe(false);
    expect(found.inTheCar).toMatchObject([{ part: 'fixture', against: 'car' }]);
    expect(found.inTheCar[0]?.clearanceMm).toBeCloseTo(-500, 9);
    expect(parkingSentence(best(HALL, [CAR, inside])).key).toBe('space.inTheCar');
  });

  test('rolling a wheel turn needs the strip before and behind', () => {
    const strip = rollingStrip(box(-900, -900, 4400, 1800), 1985, 1985);
    const found = fitOf(HALL, [part('rolling', 'rolling', strip)], 2000, 2000);
    // Rear end at 2000 - 900 - 1985; front end at 2000 + 3500 + 1985.
    expect(found.findings[0]?.clearanceMm).toBeCloseTo(-885, 9);
  });

  test('a room with a niche: the niche is room, the corner beside it is not', () => {
    const niche: Bay = {
      outline: [
        [0, 0],
        [9000, 0],
        [9000, 4000],
        [3000, 4000],
        [3000, 6000],
        [0, 6000],
      ],
      obstacles: [],
    };
    const crate = (x: number, y: number) =>
      fitOf(niche, [part('crate', 'footprint', box(0, 0, 500, 500))], x, y);
    expect(crate(1000, 5000).fits).toBe(true);
    expect(crate(2800, 4200).findings[0]?.clearanceMm).toBeCloseTo(-300, 9);
    // 500 mm diagonal from the inner corner (3000, 4000): 300 and 400 off.
    expect(crate(2200, 3100).findings[0]?.clearanceMm).toBeCloseTo(Math.hypot(300, 400), 9);
  });

  test.each([
    [{ outline: box(0, 0, 5, 5), obstacles: [] }, WORK, 'bay/badOutline', 'walls'],
    [
      { ...HALL, obstacles: [{ name: 'post', outline: [], fromMm: 0, toMm: 1 }] },
      WORK,
      'bay/badOutline',
      'post',
    ],
    [
      { ...HALL, obstacles: [{ name: 'post', outline: box(0, 0, 50, 50), fromMm: 9, toMm: 9 }] },
      WORK,
      'bay/badHeightRange',
      'post',
    ],
    [HALL, [{ ...CAR, toMm: 0 }], 'bay/badHeightRange', 'car'],
  ] as const)('wrong input %#', (bay, parts, code, name) => {
    const place = { xMm: 0, yMm: 0, headingRad: 0 };
    for (const result of [spaceFit(bay, parts, place), bestParking(bay, parts, STRAIGHT)]) {
      expect(!result.ok && result.error).toMatchObject({ code, name });
    }
  });
});

describe('the best place to park', () => {
  test('alone in a hall: in the middle across, 700 mm to spare, and proven to a step', () => {
    const found = best(HALL, WORK);
    expect(found.fitsSomewhere).toBe(true);
    // Across the car bounds it: (4000 - 1800) / 2 - 400.
    expect(found.fit.spareMm).toBeGreaterThan(700 - PARKING_STEP_MM);
    expect(found.fit.spareMm).toBeLessThanOrEqual(700 + 1e-6);
    expect(found.mostSpareMm).toBeGreaterThanOrEqual(700 - 1e-6);
    expect(found.mostSpareMm).toBeLessThanOrEqual(found.fit.spareMm + PARKING_STEP_MM + 1e-9);
    expect(Math.abs(found.place.yMm - 2000)).toBeLessThanOrEqual(PARKING_STEP_MM);
    expect(say('space.park', parkingSentence(found).values)).toMatch(/to spare at the tightest place/);
  });

  test('the same input gives the same answer', () => {
    expect(best(HALL, WORK)).toEqual(best(HALL, WORK));
  });

  test('a bay that runs askew by 0.35 rad: the heading is found to where it costs less than the step', () => {
    const askew = (p: Vec2): Vec2 => [
      Math.cos(0.35) * p[0] - Math.sin(0.35) * p[1],
      Math.sin(0.35) * p[0] + Math.cos(0.35) * p[1],
    ];
    const narrow: Bay = { outline: box(0, 0, 9000, 3000).map(askew), obstacles: [] };
    const limits: ParkingLimits = { xMm: [0, 4000], yMm: [0, 4000], headingsRad: [[-0.1, 0.6]] };
    // Car: (3000 - 1800) / 2 less 400; fixture: (3000 - 2400) / 2. Only straight in the bay is there 200 on either side.
    const found = best(narrow, WORK, limits, 2);
    expect(found.fit.spareMm).toBeGreaterThan(198);
    expect(found.mostSpareMm).toBeGreaterThanOrEqual(200 - 1e-6);
    expect(Math.abs(found.place.headingRad - 0.35)).toBeLessThan(0.001);
  });

  test('only the heading is free (the rear wheels stand in turn plates): it is found by turning alone', () => {
    const there: ParkingLimits = { xMm: [2000, 2000], yMm: [1300, 1300], headingsRad: [[-0.3, 0.3]] };
    const parts = [FIXTURE, ZONE];
    const found = best(HALL, parts, there, 2);
    let most = Number.NEGATIVE_INFINITY;
    for (let turn = -0.3; turn <= 0.3; turn += 0.0005) {
      most = Math.max(most, fitOf(HALL, parts, 2000, 1300, (turn * 180) / Math.PI).spareMm);
    }
    expect(found.fit.spareMm).toBeGreaterThanOrEqual(most - 2);
    expect(found.mostSpareMm).toBeGreaterThanOrEqual(most);
    // Straight on, the fixture is 100 mm from the near wall: turning away from it gains much.
    expect(fitOf(HALL, parts, 2000, 1300).spareMm).toBeCloseTo(100, 9);
    expect(most).toBeGreaterThan(300);
  });

  test('a pillar drives the car to the other side', () => {
    const pillar = { name: 'pillar', outline: box(4000, 3200, 400, 400), fromMm: 0, toMm: 3000 };
    const wide: Bay = { outline: box(0, 0, 9000, 4600), obstacles: [pillar] };
    const found = best(wide, WORK);
    expect(found.place.yMm).toBeLessThan(2000);
    expect(found.fitsSomewhere).toBe(true);
  });

  test('too short a bay: it fits nowhere, and at least so much lacks', () => {
    // Behind the car 400 mm, in all 900 + 5800 + 400 = 7100 mm are needed; the bay has 6800.
    const short: Bay = { outline: box(0, 0, 6800, 4000), obstacles: [] };
    const found = best(short, WORK);
    expect(found.fitsSomewhere).toBe(false);
    // The lack of 300 mm is shared by both ends at best.
    expect(found.fit.spareMm).toBeLessThan(-149);
    expect(found.fit.spareMm).toBeGreaterThan(-150 - PARKING_STEP_MM);
    expect(found.mostSpareMm).toBeLessThan(0);
    expect(found.headingRoomRad).toBe(0);
    expect(parkingSentence(found).key).toBe('space.nowhere');
  });

  test('only reversed in: the wide end of the bay takes the fixture', () => {
    const bottle: Bay = {
      outline: [
        [0, 0],
        [2500, 0],
        [2500, 600],
        [9000, 600],
        [9000, 3400],
        [2500, 3400],
        [2500, 4000],
        [0, 4000],
      ],
      obstacles: [],
    };
    const wideFixture = part('fixture', 'footprint', box(5000, -1500, 800, 3000));
    const parts = [{ ...CAR, marginMm: 300 }, wideFixture];
    const nose: ParkingLimits = { ...STRAIGHT, headingsRad: [[-0.05, 0.05]] };
    const both: ParkingLimits = {
      ...STRAIGHT,
      headingsRad: [
        [-0.05, 0.05],
        [Math.PI - 0.05, Math.PI + 0.05],
      ],
    };
    expect(best(bottle, parts, nose).fitsSomewhere).toBe(false);
    const found = best(bottle, parts, both);
    expect(found.fitsSomewhere).toBe(true);
    expect(found.place.headingRad).toBeGreaterThan(3);
  });

  test('limits: none, turned round, or nothing to place', () => {
    expect(bestParking(HALL, [], STRAIGHT)).toEqual({ ok: false, error: { code: 'bay/nothingToPlace' } });
    for (const limits of [
      { ...STRAIGHT, headingsRad: [] },
      { ...STRAIGHT, xMm: [5, 4] as const },
      { ...STRAIGHT, yMm: [0, Number.POSITIVE_INFINITY] as const },
    ]) {
      expect(bestParking(HALL, WORK, limits)).toEqual({ ok: false, error: { code: 'bay/badLimits' } });
    }
  });

  test('the room for turning is real: at its end the work still fits', () => {
    const found = best(HALL, WORK);
    for (const way of [-1, 1]) {
      const { xMm, yMm, headingRad } = found.place;
      const turned = { xMm, yMm, headingRad: headingRad + way * found.headingRoomRad };
      const there = spaceFit(HALL, WORK, turned);
      expect(there.ok && there.value.spareMm).toBeGreaterThanOrEqual(-1e-6);
    }
    expect(found.headingRoomRad).toBeGreaterThan(0.1);
  });
});

describe('against brute force', () => {
  /** Random bays with two things in them, and a small work. */
  const layout = (seed: number): { bay: Bay; parts: readonly SpacePart[]; limits: ParkingLimits } => {
    const random = randomFrom(seed).uniform;
    const post = (name: string) => ({
      name,
      outline: box(5000 * random(), 3500 * random(), 200 + 500 * random(), 200 + 500 * random()),
      fromMm: 0,
      toMm: 3000,
    });
    const cut = 800 * random();
    const outline: Polygon = [
      [0, 0],
      [6000, 0],
      [6000, 4000 - cut],
      [3500 + 1000 * random(), 4000 - cut],
      [3300, 4000],
      [0, 4000],
    ];
    const parts = [
      part('car', 'car', box(-400, -500, 2000, 1000), { marginMm: 150 }),
      part('fixture', 'footprint', box(2200, -800, 400, 1600)),
    ];
    const limits: ParkingLimits = { xMm: [0, 6000], yMm: [0, 4000], headingsRad: [[-0.3, 0.3]] };
    return { bay: { outline, obstacles: [post('post'), post('bin')] }, parts, limits };
  };

  test.each([1, 2, 3, 4, 5, 6])('layout %d: no grid place beats it, and the bound holds', (seed) => {
    const { bay, parts, limits } = layout(seed);
    const found = best(bay, parts, limits, 20);
    const [room, prepared] = [prepareBay(bay), prepareParts(parts)];
    if (!room.ok || !prepared.ok) throw new Error('the layout is sound');
    let most = Number.NEGATIVE_INFINITY;
    for (let x = 0; x <= 6000; x += 150) {
      for (let y = 0; y <= 4000; y += 150) {
        for (let turn = -0.3; turn <= 0.3001; turn += 0.15) {
          most = Math.max(
            most,
            fitAt(room.value, prepared.value, { xMm: x, yMm: y, headingRad: turn }).spareMm,
          );
        }
      }
    }
    expect(found.fit.spareMm).toBeGreaterThanOrEqual(most - 20);
    expect(most).toBeLessThanOrEqual(found.mostSpareMm + 1e-9);
  });

  test('where it says it fits, no point of any part is outside the walls or in a thing', () => {
    for (const seed of [1, 2, 3, 4, 5, 6]) {
      const { bay, parts, limits } = layout(seed);
      const { place, fitsSomewhere } = best(bay, parts, limits, 40);
      if (!fitsSomewhere) continue;
      for (const { outline } of parts) {
        for (const point of pointsOf(outline, place)) {
          expect(contains(bay.outline, point)).toBe(true);
          expect(bay.obstacles.some((thing) => contains(thing.outline, point))).toBe(false);
        }
      }
    }
  });
});

/** A grid of points over a box part where it is parked. */
function pointsOf(outline: Polygon, { xMm, yMm, headingRad }: ParkingPlace): readonly Vec2[] {
  const [xs, ys] = [outline.map((p) => p[0]), outline.map((p) => p[1])];
  const [c, s] = [Math.cos(headingRad), Math.sin(headingRad)];
  const along = (list: readonly number[], t: number): number =>
    Math.min(...list) * (1 - t) + Math.max(...list) * t;
  const shares = Array.from({ length: 12 }, (_, i) => i / 11);
  return shares.flatMap((a) =>
    shares.map((b): Vec2 => {
      const [x, y] = [along(xs, a), along(ys, b)];
      return [xMm + c * x - s * y, yMm + s * x + c * y];
    }),
  );
}
