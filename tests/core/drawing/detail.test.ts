import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DetailModel, detailModel } from '../../../core/drawing/detailModel.ts';
import { moveArrows, moveShifts } from '../../../core/drawing/detailMove.ts';
import { detailEnds, detailPlaces, detailPlay } from '../../../core/drawing/detailPlaces.ts';
import { ELLIPSE_95 } from '../../../core/drawing/errorEllipse.ts';
import { type PlanLayout, planLayout } from '../../../core/drawing/planLayout.ts';
import { type PlanRequest, planModel } from '../../../core/drawing/planModel.ts';
import type { ScenePoint } from '../../../core/drawing/scene.ts';
import type { Move } from '../../../core/placement/instruction.ts';
import { answerFor, DEMO_PLANS, type DemoDeviation } from './demoPlans.ts';

const NEAR: DemoDeviation = {
  aheadMm: -3,
  leftMm: 2,
  yawRad: 0.002,
  upMm: 0,
  pitchRad: 0,
  uAheadMm: 0.9,
  uLeftMm: 1.4,
  correlation: 0.2,
};

const GUARD = 1.645;

function resolve(
  demo: DemoDeviation | undefined,
  over: Partial<PlanRequest> = {},
): { readonly detail: DetailModel; readonly layout: PlanLayout } {
  const base = DEMO_PLANS.turn;
  if (base === undefined) throw new Error('the demo plan exists');
  const { answer: _, ...blank } = base;
  const request: PlanRequest = {
    ...blank,
    ...over,
    ...(demo === undefined ? {} : { answer: answerFor(demo, []) }),
  };
  const model = planModel(request);
  const layout = planLayout(request, model);
  const detail = detailModel(model, layout, request.guardFactor ?? GUARD);
  if (detail === undefined) throw new Error('a station is asked for');
  return { detail, layout };
}

const far = (layout: PlanLayout, point: ScenePoint): number =>
  Math.hypot(point.xMm - layout.detail.centre.xMm, point.yMm - layout.detail.centre.yMm) /
  layout.detail.radiusMm;

describe('what the detail shows', () => {
  test('deviations at the centre and at both ends, found minus required', () => {
    const { detail } = resolve(NEAR);
    expect(detail.centre?.xMm).toBeCloseTo(-3, 9);
    expect(detail.centre?.yMm).toBeCloseTo(2, 9);
    // Turned to the car's left by 2 mrad on a bar of 2 m: the car's-left end stands 2 mm nearer the car.
    expect(detail.endCarLeft?.xMm).toBeCloseTo(-5, 5);
    expect(detail.endCarRight?.xMm).toBeCloseTo(-1, 5);
    expect(detail.endCarLeft?.yMm).toBeCloseTo(2, 2);
    expect(detail.halfBarMm).toBe(1000);
  });

  test('tolerances as the procedure gives them, and the play a permitted turn leaves at the ends', () => {
    const { detail } = resolve(NEAR);
    expect(detail.ahead).toEqual({ lower: -5, upper: 5 });
    expect(detail.left).toEqual({ lower: -5, upper: 5 });
    expect(detail.endPlayMm).toBeCloseTo(5.2, 2);
  });

  test('the 95 % ellipse and the guard of the rule in force', () => {
    const { detail } = resolve({ ...NEAR, correlation: 0 });
    expect(detail.ellipse?.semiMajorMm).toBeCloseTo(ELLIPSE_95 * 1.4, 9);
    expect(detail.ellipse?.semiMinorMm).toBeCloseTo(ELLIPSE_95 * 0.9, 9);
    expect(detail.guard?.xMm).toBeCloseTo(GUARD * 0.9, 9);
    expect(detail.guard?.yMm).toBeCloseTo(GUARD * 1.4, 9);
    expect(resolve(NEAR, { guardFactor: 2 }).detail.guard?.xMm).toBeCloseTo(1.8, 9);
    expect(resolve(NEAR, { guardFactor: 0 }).detail.guard?.xMm).toBe(0);
  });

  test('without readings only what is required', () => {
    const { detail } = resolve(undefined);
    expect(detail.centre).toBeUndefined();
    expect(detail.ellipse).toBeUndefined();
    expect(detail.ahead).toEqual({ lower: -5, upper: 5 });
  });

  test('an ellipse too small to see is enlarged by a round factor, and only then', () => {
    expect(resolve(NEAR).detail.ellipseFactor).toBe(1);
    const { detail, layout } = resolve({ ...NEAR, aheadMm: 300, uAheadMm: 0.5, uLeftMm: 0.5 });
    expect(detail.ellipseFactor).toBeGreaterThan(1);
    const drawnPt =
      (detail.ellipse?.semiMajorMm ?? 0) * detail.ellipseFactor * detail.factor * layout.transform.ptPerMm;
    expect(drawnPt).toBeGreaterThan(4);
    expect(drawnPt).toBeLessThan(12);
  });
});

describe('an error that cannot be seen at the scale of the car', () => {
  test('of ten millimetres is under a pixel on the plan and over forty in the detail', () => {
    const { detail, layout } = resolve({ ...NEAR, aheadMm: -10, leftMm: 0, yawRad: 0 });
    expect(10 * layout.transform.ptPerMm).toBeLessThan(1);
    expect(10 * layout.transform.ptPerMm * detail.factor).toBeGreaterThan(40);
  });

  test('of a fifth of a degree slopes by more than five degrees', () => {
    const { detail, layout } = resolve({ ...NEAR, aheadMm: 0, leftMm: 0, yawRad: 0.0035 });
    const { found } = detailEnds(detail, detailPlaces(detail, layout.detail));
    if (found === undefined) throw new Error('the fixture is known');
    const slope = Math.abs(found[0].xMm - found[1].xMm) / Math.abs(found[0].yMm - found[1].yMm);
    expect((Math.atan(slope) * 180) / Math.PI).toBeGreaterThan(5);
  });
});

describe('the picture is the rule', () => {
  const inBox = fc.record({
    aheadMm: fc.double({ min: -9, max: 9, noNaN: true }),
    leftMm: fc.double({ min: -9, max: 9, noNaN: true }),
    yawRad: fc.double({ min: -0.01, max: 0.01, noNaN: true }),
    upMm: fc.constant(0),
    pitchRad: fc.constant(0),
    uAheadMm: fc.double({ min: 0.2, max: 4, noNaN: true }),
    uLeftMm: fc.double({ min: 0.2, max: 4, noNaN: true }),
    correlation: fc.double({ min: -0.9, max: 0.9, noNaN: true }),
  });

  test('guard arms lie inside the drawn box exactly when both deviations are proven (seed 5)', () => {
    fc.assert(
      fc.property(inBox, (demo) => {
        const { detail, layout } = resolve(demo);
        const places = detailPlaces(detail, layout.detail);
        const { centre, guard, ahead, left } = detail;
        if (centre === undefined || guard === undefined) throw new Error('the fixture is known');
        const tip = (sign: 1 | -1) =>
          places.atCentre({ xMm: centre.xMm + sign * guard.xMm, yMm: centre.yMm + sign * guard.yMm });
        const corner = (x: number | undefined, y: number | undefined) =>
          places.atCentre({ xMm: x ?? 0, yMm: y ?? 0 });
        const low = corner(ahead?.lower, left?.lower);
        const high = corner(ahead?.upper, left?.upper);
        const inside = [tip(1), tip(-1)].every(
          (at) => at.xMm >= low.xMm && at.xMm <= high.xMm && at.yMm >= low.yMm && at.yMm <= high.yMm,
        );
        const proven =
          Math.abs(demo.aheadMm) + GUARD * demo.uAheadMm <= 5 &&
          Math.abs(demo.leftMm) + GUARD * demo.uLeftMm <= 5;
        expect(inside).toBe(proven);
      }),
      { seed: 5, numRuns: 200 },
    );
  });

  test('everything stays in the circle, and the larger of deviation and tolerance fills it (seed 6)', () => {
    fc.assert(
      fc.property(inBox, (demo) => {
        const { detail, layout } = resolve(demo);
        const places = detailPlaces(detail, layout.detail);
        const { required, found } = detailEnds(detail, places);
        const points = [...required, ...(found ?? []), ...detailPlay(detail, places).flat()];
        for (const point of points) expect(far(layout, point)).toBeLessThan(1);
        const corner = places.atCentre({ xMm: 5, yMm: 5 });
        expect(far(layout, corner)).toBeLessThan(0.7);
        const reach = Math.max(
          ...points.map((point) => far(layout, point)),
          far(layout, corner),
          far(layout, places.atCentre(detail.centre ?? { xMm: 0, yMm: 0 })),
        );
        expect(reach).toBeGreaterThan(0.56 - 1e-9);
      }),
      { seed: 6, numRuns: 200 },
    );
  });
});

describe('arrows of the next move', () => {
  const move = (ahead: number, left: number, yaw: number): Move => ({
    kind: 'turn',
    wordKey: 'move.turn.carLeftEndAway',
    values: {},
    amountMm: 1,
    predictedEffect: { ahead, left, up: 0, yaw, pitch: 0, roll: 0 },
    thenRead: [],
  });

  test('a turn to the car’s right pushes the car’s-left end away and draws the other nearer', () => {
    const { detail } = resolve({ ...NEAR, yawRad: 0.0068 });
    const effect = moveShifts(move(0, 0, -0.0068), detail);
    expect(effect.ends[0].xMm).toBeCloseTo(6.8, 2);
    expect(effect.ends[1].xMm).toBeCloseTo(-6.8, 2);
    expect(effect.centre).toEqual({ xMm: 0, yMm: 0 });
  });

  test('the move that undoes the deviation ends on the required places', () => {
    const demo = { ...NEAR, aheadMm: -12, leftMm: 4, yawRad: 0.004 };
    const { detail, layout } = resolve(demo);
    const places = detailPlaces(detail, layout.detail);
    const arrows = moveArrows(move(12, -4, -0.004), detail, places, layout.transform.ptPerMm, 1);
    expect(arrows).toHaveLength(3);
    const { required } = detailEnds(detail, places);
    const aims = [layout.detail.centre, ...required];
    arrows.forEach((arrow, index) => {
      const aim = aims[index] ?? layout.detail.centre;
      expect(Math.hypot(arrow.to.xMm - aim.xMm, arrow.to.yMm - aim.yMm) / detail.factor).toBeLessThan(0.05);
    });
  });

  test('no arrow for a slide, which moves no fixture, nor for heights and leans', () => {
    const { detail, layout } = resolve(NEAR);
    const places = detailPlaces(detail, layout.detail);
    for (const kind of ['setSlide', 'raise', 'lean', 'level'] as const) {
      const other = { ...move(0, 500, 0), kind };
      expect(moveArrows(other, detail, places, layout.transform.ptPerMm, 1)).toEqual([]);
    }
  });

  test('what cannot be seen is not drawn, and without a known fixture nothing is', () => {
    const { detail, layout } = resolve(NEAR);
    const places = detailPlaces(detail, layout.detail);
    expect(moveArrows(move(0.01, 0, 0), detail, places, layout.transform.ptPerMm, 1)).toEqual([]);
    const blank = resolve(undefined);
    const none = moveArrows(
      move(10, 0, 0),
      blank.detail,
      detailPlaces(blank.detail, blank.layout.detail),
      1,
      1,
    );
    expect(none).toEqual([]);
  });
});
