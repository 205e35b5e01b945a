import { describe, expect, test } from 'vitest';
import { type CarShape, carPlan, NOMINAL_CAR, tyrePlan } from '../../../core/drawing/carShape.ts';
import { carSide, levelStand } from '../../../core/drawing/carSide.ts';
import type { CurveItem, SceneItem, ScenePoint } from '../../../core/drawing/scene.ts';

const LONG: CarShape = {
  ...NOMINAL_CAR,
  wheelbaseMm: 3300,
  frontOverhangMm: 1050,
  rearOverhangMm: 1250,
  widthMm: 2050,
  heightMm: 1900,
};
const SHORT: CarShape = {
  ...NOMINAL_CAR,
  wheelbaseMm: 2300,
  frontOverhangMm: 620,
  rearOverhangMm: 540,
  widthMm: 1620,
  heightMm: 1500,
};
const CARS = [NOMINAL_CAR, LONG, SHORT];

const ends = (curve: CurveItem): readonly ScenePoint[] => [
  curve.start,
  ...curve.pieces.map((piece) => piece.end),
];
const curves = (items: readonly SceneItem[]): readonly CurveItem[] =>
  items.filter((item): item is CurveItem => item.kind === 'curve');

/** The outline is the one closed curve in the normal pen. */
function outline(items: readonly SceneItem[]): readonly ScenePoint[] {
  const found = curves(items).filter((curve) => curve.closed && curve.stroke?.pen === 'normal');
  expect(found).toHaveLength(1);
  return found.flatMap(ends);
}

const sorted = (points: readonly ScenePoint[]): readonly string[] =>
  points.map((point) => `${point.xMm.toFixed(6)} ${Math.abs(point.yMm).toFixed(6)}`).sort();

describe.each(CARS)('a car of wheelbase $wheelbaseMm mm seen from above', (car) => {
  const items = carPlan(car, 'ink');

  test('reaches exactly from bumper to bumper and from flank to flank', () => {
    const points = outline(items);
    const xs = points.map((point) => point.xMm);
    const front = car.wheelbaseMm + car.frontOverhangMm;
    expect(Math.max(...xs)).toBeCloseTo(front, 9);
    expect(Math.min(...xs)).toBeCloseTo(-car.rearOverhangMm, 9);
    for (const point of points) expect(Math.abs(point.yMm)).toBeLessThanOrEqual(car.widthMm / 2);
    expect(Math.max(...points.map((point) => point.yMm))).toBeGreaterThan(0.48 * car.widthMm);
  });

  test('is the same on both sides', () => {
    const all = curves(items).flatMap(ends);
    const left = all.filter((point) => point.yMm > 1e-9);
    const right = all.filter((point) => point.yMm < -1e-9);
    expect(sorted(left)).toEqual(sorted(right));
  });

  test('has its windscreen ahead of its rear window, and both inside the body', () => {
    const panes = curves(items).filter((curve) => curve.fill !== undefined);
    expect(panes).toHaveLength(2);
    const middles = panes.map((pane) => {
      const xs = ends(pane).map((point) => point.xMm);
      return (Math.max(...xs) + Math.min(...xs)) / 2;
    });
    expect(middles[0]).toBeGreaterThan(middles[1] ?? Number.POSITIVE_INFINITY);
    for (const point of panes.flatMap(ends)) {
      expect(point.xMm).toBeGreaterThan(-car.rearOverhangMm);
      expect(point.xMm).toBeLessThan(car.wheelbaseMm + car.frontOverhangMm);
      expect(Math.abs(point.yMm)).toBeLessThan(car.widthMm / 2);
    }
  });

  test('is inked or pencilled as a whole', () => {
    const pencil = carPlan(car, 'pencil');
    expect(pencil.some((curve) => curve.stroke?.role === 'ink')).toBe(false);
    expect(items.some((curve) => curve.stroke?.role === 'ink')).toBe(true);
  });
});

describe('a tyre seen from above', () => {
  const hub = { xMm: 100, yMm: 780 };

  test('is as long as its diameter, as wide as its section, about its hub', () => {
    const points = ends(tyrePlan(hub, 0, NOMINAL_CAR, 'ink'));
    const xs = points.map((point) => point.xMm);
    const ys = points.map((point) => point.yMm);
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(634, 9);
    expect(Math.max(...ys) - Math.min(...ys)).toBeCloseTo(205, 9);
    expect((Math.max(...xs) + Math.min(...xs)) / 2).toBeCloseTo(100, 9);
    expect((Math.max(...ys) + Math.min(...ys)) / 2).toBeCloseTo(780, 9);
  });

  test('turned to the left has its front farther to the left', () => {
    const points = ends(tyrePlan(hub, 0.1, NOMINAL_CAR, 'ink'));
    const mean = (some: readonly ScenePoint[]): number =>
      some.reduce((sum, point) => sum + point.yMm, 0) / some.length;
    const front = points.filter((point) => point.xMm > 300);
    const rear = points.filter((point) => point.xMm < -100);
    expect(mean(front)).toBeGreaterThan(780 + 15);
    expect(mean(rear)).toBeLessThan(780 - 15);
  });
});

describe.each(CARS)('a car of wheelbase $wheelbaseMm mm seen from its right', (car) => {
  const items = carSide(car, 'ink', levelStand);

  test('stands on its tyres at zero, under its height and between its bumpers', () => {
    const points = outline(items);
    expect(Math.max(...points.map((point) => point.yMm))).toBeLessThanOrEqual(car.heightMm);
    expect(Math.min(...points.map((point) => point.yMm))).toBeGreaterThan(100);
    const front = car.wheelbaseMm + car.frontOverhangMm;
    expect(Math.max(...points.map((point) => point.xMm))).toBeCloseTo(front, 9);
    const tyres = items.filter((item) => item.kind === 'circle' && item.radiusMm === car.tyreDiameterMm / 2);
    expect(tyres).toHaveLength(2);
    for (const tyre of tyres) {
      if (tyre.kind !== 'circle') continue;
      expect(tyre.centre.yMm - tyre.radiusMm).toBeCloseTo(0, 9);
    }
  });

  test('has its wheels at the axles, whatever place it stands at', () => {
    const moved = carSide(car, 'ink', (x, y) => ({ xMm: x + 40, yMm: y + 7 }));
    const centres = moved.flatMap((item) => (item.kind === 'circle' ? [item.centre] : []));
    expect(new Set(centres.map((centre) => Math.round(centre.xMm)))).toEqual(
      new Set([40, Math.round(car.wheelbaseMm + 40)]),
    );
    expect(centres.every((centre) => Math.abs(centre.yMm - 7 - car.tyreDiameterMm / 2) < 1e-9)).toBe(true);
  });
});
