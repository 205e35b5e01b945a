import { describe, expect, test } from 'vitest';
import { convexPieces, hullAndPockets } from '../../../../core/bay/space/convexPieces.ts';
import {
  contains,
  convexHull,
  counterClockwise,
  isConvex,
  type Polygon,
  polygonFault,
  signedArea,
} from '../../../../core/bay/space/polygon.ts';
import { depthInside, separation } from '../../../../core/bay/space/separation.ts';
import type { Vec2 } from '../../../../core/geometry/vector.ts';
import { randomFrom } from '../../../../core/uncertainty/random.ts';

const box = (x: number, y: number, width: number, height: number): Polygon => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];

/** An L: 4 by 4 m with a corner of 2 by 2 m cut out. */
const L: Polygon = [
  [0, 0],
  [4000, 0],
  [4000, 2000],
  [2000, 2000],
  [2000, 4000],
  [0, 4000],
];

/** A comb of three teeth, clockwise. */
const COMB: Polygon = [
  [0, 0],
  [0, 3000],
  [500, 3000],
  [500, 1000],
  [1500, 1000],
  [1500, 3000],
  [2000, 3000],
  [2000, 1000],
  [3000, 1000],
  [3000, 3000],
  [3500, 3000],
  [3500, 0],
];

const areaOf = (pieces: readonly Polygon[]): number => pieces.reduce((sum, p) => sum + signedArea(p), 0);

describe('polygons', () => {
  test('area either way round, and turned the one way', () => {
    expect(signedArea(L)).toBe(12e6);
    expect(signedArea(COMB)).toBe(-(3500 * 1000 + 3 * 500 * 2000));
    expect(signedArea(counterClockwise(COMB))).toBe(6.5e6);
    expect([isConvex(box(0, 0, 1, 1)), isConvex(L)]).toEqual([true, false]);
  });

  test('inside, outside, on the border', () => {
    expect(contains(L, [1000, 3000])).toBe(true);
    expect(contains(L, [3000, 3000])).toBe(false);
    expect(contains(L, [2000, 3000])).toBe(true);
    expect(contains(L, [4000, 2000])).toBe(true);
    expect(contains(L, [-1, 0])).toBe(false);
  });

  test.each([
    [
      'tooFewCorners',
      [
        [0, 0],
        [1, 1],
      ],
    ],
    [
      'cornerNoNumber',
      [
        [0, 0],
        [1000, Number.NaN],
        [0, 1000],
      ],
    ],
    [
      'noArea',
      [
        [0, 0],
        [5, 0],
        [0, 5],
      ],
    ],
    [
      'crossesItself',
      [
        [0, 0],
        [1000, 1000],
        [1000, 0],
        [0, 1000],
      ],
    ],
    [
      'cornersCoincide',
      [
        [0, 0],
        [0, 0],
        [1000, 0],
        [0, 1000],
      ],
    ],
    [
      'crossesItself',
      [
        [0, 0],
        [2000, 0],
        [2000, 1000],
        [1000, 0],
        [0, 1000],
      ],
    ],
  ] as const)('%s', (fault, corners) => {
    expect(polygonFault(corners)).toBe(fault);
  });

  test('sound polygons have no fault', () => {
    for (const sound of [L, COMB, box(0, 0, 10, 10)]) expect(polygonFault(sound)).toBeUndefined();
  });

  test('the hull leaves out inner and straight corners', () => {
    expect(convexHull([...L, [1000, 1000], [2000, 0]])).toEqual([
      [0, 0],
      [4000, 0],
      [4000, 2000],
      [2000, 4000],
      [0, 4000],
    ]);
  });
});

describe('convex pieces', () => {
  test.each([
    ['L', L],
    ['comb', COMB],
    ['box', box(10, 20, 300, 400)],
  ] as const)('%s: convex, no overlap, nothing lost', (_, polygon) => {
    const pieces = convexPieces(polygon);
    expect(pieces.every(isConvex)).toBe(true);
    expect(areaOf(pieces)).toBeCloseTo(Math.abs(signedArea(polygon)), 3);
    const random = randomFrom(20261125).uniform;
    for (let i = 0; i < 400; i++) {
      const p: Vec2 = [random() * 4400 - 200, random() * 4400 - 200];
      expect(pieces.some((piece) => contains(piece, p))).toBe(contains(polygon, p));
    }
  });

  test('star-shaped rooms of random corners: pieces and pockets add up', () => {
    const random = randomFrom(7).uniform;
    let tried = 0;
    for (let k = 0; k < 60; k++) {
      const n = 4 + Math.floor(random() * 12);
      const star: Polygon = Array.from({ length: n }, (_, i): Vec2 => {
        const angle = (2 * Math.PI * (i + 0.8 * random())) / n;
        const reach = 500 + 3000 * random();
        return [reach * Math.cos(angle), reach * Math.sin(angle)];
      });
      // Few corners may leave the middle outside; such a star still has to be a polygon.
      if (polygonFault(star) !== undefined) continue;
      tried++;
      const area = Math.abs(signedArea(star));
      expect(areaOf(convexPieces(star)) / area).toBeCloseTo(1, 9);
      const { hull, pockets } = hullAndPockets(star);
      expect((signedArea(hull) - areaOf(pockets)) / area).toBeCloseTo(1, 9);
      expect(pockets.every(isConvex)).toBe(true);
    }
    expect(tried).toBeGreaterThan(40);
  });

  test('the pocket of the L is the triangle under its hull', () => {
    const { hull, pockets } = hullAndPockets(L);
    expect(signedArea(hull)).toBe(14e6);
    expect(areaOf(pockets)).toBe(2e6);
    expect(hullAndPockets(box(0, 0, 100, 100)).pockets).toEqual([]);
    // A corner on a straight wall encloses nothing.
    expect(
      hullAndPockets([
        [0, 0],
        [50, 0],
        [100, 0],
        [100, 100],
        [0, 100],
      ]).pockets,
    ).toEqual([]);
  });
});

describe('how far convex polygons are apart', () => {
  test('side by side, corner to corner, overlapping, one in the other', () => {
    const unit = box(0, 0, 1000, 1000);
    expect(separation(unit, box(1300, 200, 500, 500))).toBe(300);
    expect(separation(unit, box(1300, 1400, 500, 500))).toBe(500);
    expect(separation(unit, box(900, -5000, 500, 9000))).toBe(-100);
    // The shortest way out of the middle of a square of 1000 for one of 200: 400 + 200.
    expect(separation(unit, box(400, 400, 200, 200))).toBe(-600);
    expect(separation(unit, box(1000, 0, 10, 1000))).toBe(0);
  });

  test('a turned square: its corner looks at the side', () => {
    const h = 500 * Math.SQRT2;
    const turned: Polygon = [
      [2000 - h, 0],
      [2000, -h],
      [2000 + h, 0],
      [2000, h],
    ];
    expect(separation(box(0, -500, 1000, 1000), turned)).toBeCloseTo(1000 - h, 9);
  });

  test('an answer that cannot matter may be a lower bound, never more than the truth', () => {
    const [a, b] = [box(0, 0, 1000, 1000), box(1300, 1400, 500, 500)];
    const bound = separation(a, b, 350);
    expect(bound).toBeGreaterThanOrEqual(350);
    expect(bound).toBeLessThanOrEqual(500);
  });

  test('a push by the depth parts two polygons and no shorter one does', () => {
    const random = randomFrom(3).uniform;
    let tried = 0;
    for (let k = 0; k < 40; k++) {
      const blob = (): Polygon =>
        convexHull(Array.from({ length: 7 }, (): Vec2 => [1000 * random(), 1000 * random()]));
      const [a, b] = [blob(), blob()];
      const depth = -separation(a, b);
      if (depth <= 0) continue;
      tried++;
      const pushed = (by: number, angle: number): Polygon =>
        b.map(([x, y]): Vec2 => [x + by * Math.cos(angle), y + by * Math.sin(angle)]);
      const angles = Array.from({ length: 720 }, (_, i) => (i * Math.PI) / 360);
      expect(angles.some((angle) => separation(a, pushed(depth * 1.001, angle)) > 0)).toBe(true);
      expect(angles.every((angle) => separation(a, pushed(depth * 0.999, angle)) < 0)).toBe(true);
    }
    expect(tried).toBeGreaterThan(20);
  });

  test('inside a hull: the least room to any side', () => {
    expect(depthInside(box(0, 0, 5000, 3000), box(400, 300, 1000, 1000))).toBe(300);
    expect(depthInside(box(0, 0, 5000, 3000), box(4500, 300, 1000, 1000))).toBe(-500);
  });
});
