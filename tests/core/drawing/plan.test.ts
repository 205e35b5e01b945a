import { describe, expect, test } from 'vitest';
import { NOMINAL_CAR } from '../../../core/drawing/carShape.ts';
import { planScene } from '../../../core/drawing/plan.ts';
import { type PlanRequest, planModel } from '../../../core/drawing/planModel.ts';
import type { PolylineItem, Scene, SceneItem } from '../../../core/drawing/scene.ts';
import { sheetTransform } from '../../../core/drawing/sceneView.ts';
import { sceneTouches } from '../../../core/drawing/touch.ts';
import { slotKey } from '../../../core/placement/recipe.ts';
import { CAMERA_STATIONS, DEMO_PLANS, PANEL, REAR_STATION } from './demoPlans.ts';
import { sceneTexts } from './sceneChecks.ts';

function demo(name: string): PlanRequest {
  const request = DEMO_PLANS[name];
  if (request === undefined) throw new Error(`no demo ${name}`);
  return request;
}

const textsOf = (scene: Scene): readonly string[] =>
  sceneTexts(scene, sheetTransform(scene)).map((text) => text.text);

const lines = (scene: Scene): readonly PolylineItem[] =>
  scene.items.filter((item): item is PolylineItem => item.kind === 'polyline');

const rolesOf = (items: readonly SceneItem[]): ReadonlySet<string> =>
  new Set(
    items.flatMap((item) => {
      if ('stroke' in item && item.stroke !== undefined) return [item.stroke.role];
      return 'role' in item ? [item.role] : [];
    }),
  );

describe('a plan from nothing at all', () => {
  const scene = planScene({
    sheet: PANEL,
    textPt: 14,
    view: 'asIStand',
    decimalSign: '.',
    unit: 'mm',
    stations: [],
    recipe: [],
    taken: [],
    medium: 'screen',
  });

  test('draws a typical car in pencil and says that it is one', () => {
    expect(scene.description).toBe('A typical layout; nothing is measured yet.');
    expect(textsOf(scene)).toContain('typical, not measured');
    expect(scene.items.filter((item) => item.kind === 'curve').length).toBeGreaterThan(8);
    expect(rolesOf(scene.items)).not.toContain('accent');
  });
});

describe('before the first reading', () => {
  const request = demo('nothing');
  const scene = planScene(request);

  test('the required fixture stands where procedure and a typical car put it', () => {
    const { required } = planModel(request);
    const front = (request.car?.wheelbaseMm ?? 0) + NOMINAL_CAR.frontOverhangMm;
    expect(required?.face.xMm).toBeCloseTo(front + 1500, 9);
    expect(required?.face.yMm).toBeCloseTo(0, 9);
    // The bar stands 60 mm behind the face, farther from the car.
    expect(required?.bar.xMm).toBeCloseTo(front + 1560, 9);
    expect(required?.endCarLeft.yMm).toBeCloseTo(1000, 9);
    expect(required?.endCarRight.yMm).toBeCloseTo(-1000, 9);
  });

  test('the only accent is the reading that comes next, and it pulses', () => {
    const accented = scene.items.filter((item) => rolesOf([item]).has('accent') && item.pick === undefined);
    expect(accented.length).toBeGreaterThan(0);
    expect(accented.every((item) => item.pulse === true)).toBe(true);
  });

  test('every datum reading can be touched, by its slot', () => {
    const touches = sceneTouches(scene, sheetTransform(scene));
    expect(new Set(touches.map((touch) => touch.pick))).toEqual(new Set(request.recipe.map(slotKey)));
    expect(touches.every((touch) => touch.radiusPt === 24)).toBe(true);
    expect(touches.every((touch) => !touch.label.startsWith('reading.'))).toBe(true);
  });

  test('touch places stand apart: at least 24 px from centre to centre', () => {
    for (const name of ['nothing', 'datum', 'turn']) {
      const plan = planScene(demo(name));
      const touches = sceneTouches(plan, sheetTransform(plan));
      touches.forEach((a, index) => {
        for (const b of touches.slice(index + 1)) {
          const apart = Math.hypot(a.xPt - b.xPt, a.yPt - b.yPt);
          expect(apart, `${a.pick} and ${b.pick}`).toBeGreaterThanOrEqual(24);
        }
      });
    }
  });
});

describe('after the datum', () => {
  const scene = planScene(demo('datum'));

  test('the car is inked with its own wheelbase and U, the fixture only as required', () => {
    expect(textsOf(scene)).toContain('2712.4 mm');
    expect(textsOf(scene)).toContain('U 1.2 mm');
    expect(textsOf(scene)).toContain('fixture not measured yet');
    expect(textsOf(scene)).not.toContain('typical, not measured');
    expect(textsOf(scene)).not.toContain('as it stands');
  });

  test('hub, mark and bar end are three different points', () => {
    const { points } = planModel(demo('datum'));
    const places = ['hub.FL', 'mark.FL', 'barEnd.carLeft'] as const;
    expect(new Set(places.map((name) => JSON.stringify(points[name]))).size).toBe(3);
    expect(points['hub.FL'].yMm).toBe(780.4);
    expect(points['mark.FL'].yMm).toBe(1030.1);
  });
});

describe('with the fixture measured', () => {
  const request = demo('turn');
  const scene = planScene(request);

  test('as it stands and as required differ in pen and dash, not in colour alone', () => {
    const thick = lines(scene).filter(
      (item) => item.stroke?.role === 'accent' && item.stroke.pen === 'thick' && item.pulse !== true,
    );
    const dashed = lines(scene).filter(
      (item) => item.stroke?.role === 'ink' && item.stroke.dash === 'dashed' && item.stroke.pen === 'normal',
    );
    // Each once on the plan, once in the detail and once in the key.
    expect(thick).toHaveLength(3);
    expect(dashed).toHaveLength(3);
    expect(thick.every((item) => (item.stroke?.dash ?? 'solid') === 'solid')).toBe(true);
  });

  test('centreline and thrust line have different dashes, and the enlarged angle says so', () => {
    const dashes = new Set(lines(scene).map((item) => item.stroke?.dash));
    expect(dashes).toContain('dashDot');
    expect(dashes).toContain('longDash');
    expect(textsOf(scene)).toContain('thrust line 0.12°, drawn × 20');
  });

  test('the description says where the target stands, in words', () => {
    expect(scene.description).toBe(
      "The car and the fixture as measured. The target stands 12.0 mm toward the car, 3.6 mm to the car's left, " +
        "turned 0.39°, car's-left end toward the car. " +
        "Next reading: car's-left point ahead to car's-right bar end.",
    );
  });

  test('one arrow pair shows the turn, with its amount', () => {
    expect(scene.items.filter((item) => item.kind === 'arrow')).toHaveLength(2);
    expect(textsOf(scene)).toContain('6.8 mm');
  });

  test('readings still missing are dotted, taken ones are not', () => {
    const dotted = lines(scene).filter((item) => item.stroke?.dash === 'dotted' && !item.closed);
    // Four distances to the bar ends: one taken, one next, two missing.
    expect(dotted).toHaveLength(2);
  });

  test('another reading can be made the next one', () => {
    const other = planScene({ ...request, next: 'bar.sameR' });
    expect(other.description).toMatch(/Next reading: car's-right point ahead to car's-right bar end\.$/);
  });

  test('inch readers get inches', () => {
    const inches = textsOf(planScene({ ...request, unit: 'in', decimalSign: ',' }));
    expect(inches).toContain('106,79 in');
    expect(inches.some((text) => text.includes(' mm'))).toBe(false);
  });
});

describe('slide stations', () => {
  test('keep the bar where the fixture was placed and move only the face', () => {
    const request = { ...demo('datum'), station: 'left' };
    const { required, otherFaces } = planModel(request);
    const { required: centre } = planModel(demo('datum'));
    expect(required?.face.yMm).toBeCloseTo(550, 9);
    expect(required?.bar).toEqual(centre?.bar);
    expect(required?.endCarLeft).toEqual(centre?.endCarLeft);
    expect(otherFaces.map((face) => Math.round(face.yMm))).toEqual([0, -550]);
  });
});

describe('a thrust line as datum', () => {
  test('swings the required place: a tenth of a degree is 8.9 mm at 5.1 m', () => {
    const stations = CAMERA_STATIONS.map((station) => ({
      ...station,
      left: { ...station.left, from: 'thrustLine' as const },
      yaw: { ...station.yaw, from: 'thrustLine' as const },
    }));
    const { answer } = demo('datum');
    if (answer?.vehicle === undefined) throw new Error('the demo car is measured');
    const angle = { value: Math.PI / 1800, u: 0.0003, dof: 30 };
    const vehicle = { ...answer.vehicle, thrustLine: { angle, expandedRad: 0.0006, differs: true } };
    const { required } = planModel({ ...demo('datum'), stations, answer: { ...answer, vehicle } });
    expect(required?.face.yMm).toBeCloseTo(8.905, 2);
    expect(required?.facingRad).toBeCloseTo(Math.PI + Math.PI / 1800, 12);
  });
});

describe('a target behind the car', () => {
  const scene = planScene(demo('rear'));

  test('turns the sheet: the viewer stands behind, with the car’s left on the left', () => {
    expect(scene.viewerAt).toBe('behind');
    const transform = sheetTransform(scene);
    const car = transform.toSheet({ xMm: 1350, yMm: 0 });
    const left = transform.toSheet({ xMm: 1350, yMm: 700 });
    const target = transform.toSheet({ xMm: REAR_STATION.ahead.value, yMm: 0 });
    expect(left.xPt).toBeLessThan(car.xPt);
    expect(target.yPt).toBeGreaterThan(car.yPt);
  });

  test('names the ends by the car’s sides all the same', () => {
    const { required } = planModel(demo('rear'));
    expect(required?.endCarLeft.yMm).toBeCloseTo(1000, 9);
    expect(required?.bar.xMm).toBeCloseTo(REAR_STATION.ahead.value - 60, 9);
  });
});

describe('on paper', () => {
  const scene = planScene(demo('paper'));

  test('nothing can be touched and nothing pulses', () => {
    expect(scene.items.some((item) => item.pick !== undefined || item.pulse === true)).toBe(false);
  });

  test('deviations stand in figures with their U', () => {
    const texts = textsOf(scene);
    expect(texts).toContain('1.2 mm away from the car');
    expect(texts).toContain("0.8 mm to the car's right");
    expect(texts).toContain("turned 0.05°, car's-left end toward the car");
    expect(texts.filter((text) => text.startsWith('U '))).toHaveLength(4);
  });
});
