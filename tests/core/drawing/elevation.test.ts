import { describe, expect, test } from 'vitest';
import { elevationScene } from '../../../core/drawing/elevation.ts';
import {
  type ElevationRequest,
  elevationModel,
  floorFromStaff,
  overFloor,
  overPlane,
} from '../../../core/drawing/elevationModel.ts';
import type { PolylineItem, Scene } from '../../../core/drawing/scene.ts';
import { sheetTransform } from '../../../core/drawing/sceneView.ts';
import { sceneTouches } from '../../../core/drawing/touch.ts';
import { DEMO_ELEVATIONS } from './demoScenes.ts';
import { sceneTexts } from './sceneChecks.ts';

function demo(name: string): ElevationRequest {
  const request = DEMO_ELEVATIONS[name];
  if (request === undefined) throw new Error(`no demo ${name}`);
  return request;
}

const textsOf = (scene: Scene): readonly string[] =>
  sceneTexts(scene, sheetTransform(scene)).map((text) => text.text);

describe('the floor', () => {
  test('of 4.2 mm/m rises 21.4 mm under the target and is drawn ten times that', () => {
    const model = elevationModel(demo('turn'));
    expect(model.floorRiseMm(5090.4)).toBeCloseTo(21.38, 2);
    expect(model.factor).toBe(10);
    expect(overFloor(model, 5090.4, 0).yMm).toBeCloseTo(213.8, 1);
    expect(textsOf(elevationScene(demo('turn')))).toContain('floor rises 4.2 mm/m ahead, drawn × 10');
  });

  test('that falls is said to fall, never signed', () => {
    const request = demo('turn');
    const { answer } = request;
    if (answer?.vehicle === undefined) throw new Error('the demo car is measured');
    const vehicle = { ...answer.vehicle, slopeAheadRad: -0.0031 };
    const scene = elevationScene({ ...request, answer: { ...answer, vehicle } });
    expect(textsOf(scene)).toContain('floor falls 3.1 mm/m ahead, drawn × 10');
    expect(scene.description).toMatch(/floor falls 3\.1 mm\/m ahead/);
  });

  test('that is level is drawn true, without a second line', () => {
    const request = demo('turn');
    const { answer } = request;
    if (answer?.vehicle === undefined) throw new Error('the demo car is measured');
    const vehicle = { ...answer.vehicle, slopeAheadRad: 0 };
    const scene = elevationScene({ ...request, answer: { ...answer, vehicle } });
    expect(elevationModel({ ...request, answer: { ...answer, vehicle } }).factor).toBe(1);
    expect(textsOf(scene)).toContain('floor level along the car within 0.05 mm/m');
    const dashed = scene.items.filter(
      (item): item is PolylineItem => item.kind === 'polyline' && item.stroke?.dash === 'dashDot',
    );
    expect(dashed).toEqual([]);
  });

  test('where it was levelled is the true one, straight between the places of the staff', () => {
    const model = elevationModel(demo('dip'));
    expect(model.floorRiseMm(0)).toBe(0);
    expect(model.floorRiseMm(2712)).toBeCloseTo(11.4, 9);
    expect(model.floorRiseMm(1356)).toBeCloseTo(5.7, 9);
    expect(model.floorRiseMm(9999)).toBeCloseTo(6.2, 9);
    expect(model.floorRiseMm(-9999)).toBe(0);
  });
});

describe('staff readings', () => {
  const staff = { FL: 1203, FR: 1205, RL: 1214, RR: 1216, fixtureLeft: 1208, fixtureRight: 1209 };

  test('give the floor along the car: lower where the staff reads more', () => {
    expect(floorFromStaff(staff, 2712, 5160)).toEqual([
      { aheadMm: 0, riseMm: 0 },
      { aheadMm: 2712, riseMm: 11 },
      { aheadMm: 5160, riseMm: 6.5 },
    ]);
  });

  test('give what is complete and no guess', () => {
    const { fixtureLeft: _, ...withoutOne } = staff;
    expect(floorFromStaff(withoutOne, 2712, 5160)).toHaveLength(2);
    const { RR: __, ...withoutWheel } = staff;
    expect(floorFromStaff(withoutWheel, 2712, 5160)).toEqual([]);
  });
});

describe('heights', () => {
  test('count from the plane of the tyres, not from the floor under the fixture', () => {
    const model = elevationModel(demo('dip'));
    const plane = overPlane(model, 5100, 1350).yMm - overPlane(model, 5100, 0).yMm;
    expect(plane).toBe(1350);
    // Here the floor dips 15.1 mm under that plane: the fixture's own scale must show that much more.
    expect(model.planeRiseMm(5100) - model.floorRiseMm(5100)).toBeCloseTo(21.42 - 6.327, 2);
    expect(overFloor(model, 5100, 0).yMm).toBeLessThan(overPlane(model, 5100, 0).yMm);
  });

  test('are written with their U when measured, and as required before', () => {
    expect(textsOf(elevationScene(demo('turn')))).toEqual(expect.arrayContaining(['1357.5 mm', 'U 1.8 mm']));
    const before = textsOf(elevationScene(demo('nothing')));
    expect(before).toContain('1350.0 mm');
    expect(before.some((text) => text.startsWith('U '))).toBe(false);
    expect(before).toContain('typical, not measured');
  });

  test('the board in the detail leans the way it was found: a negative pitch has its top nearer the car, to the left', () => {
    // The car's nose is on the right, the target beyond it: toward the car is toward smaller x.
    const scene = elevationScene(demo('turn'));
    const boards = scene.items.filter(
      (item): item is PolylineItem =>
        item.kind === 'polyline' &&
        item.points.length === 2 &&
        item.stroke?.role === 'accent' &&
        item.stroke.pen === 'thick',
    );
    const [low, high] = boards[boards.length - 1]?.points ?? [];
    expect(high?.yMm).toBeGreaterThan(low?.yMm ?? 0);
    expect(high?.xMm).toBeLessThan(low?.xMm ?? 0);
  });
});

describe('the car and the target', () => {
  test('lie as seen from the car’s right: the nose to the right, a target ahead beyond it', () => {
    const scene = elevationScene(demo('turn'));
    const { toSheet } = sheetTransform(scene);
    expect(toSheet({ xMm: 3600, yMm: 500 }).xPt).toBeGreaterThan(toSheet({ xMm: -1000, yMm: 500 }).xPt);
    expect(toSheet({ xMm: 5100, yMm: 0 }).xPt).toBeGreaterThan(toSheet({ xMm: 3600, yMm: 0 }).xPt);
  });

  test('a target behind the car stands on the left and its height beside it', () => {
    const model = elevationModel(demo('rear'));
    expect(model.targetAheadMm).toBeCloseTo(-2600, 9);
    expect(textsOf(elevationScene(demo('rear')))).toContain('900.0 mm');
  });
});

describe('touch places of the side view', () => {
  const scene = elevationScene(demo('turn'));
  const touches = sceneTouches(scene, sheetTransform(scene));

  test('are the floor, the height and the tilts; the plan has the rest', () => {
    expect(new Set(touches.map((touch) => touch.pick))).toEqual(
      new Set([
        'floor.FL',
        'floor.FR',
        'floor.RL',
        'floor.RR',
        'floor.fixtureLeft',
        'floor.fixtureRight',
        'target.height',
        'fixture.pitch',
        'fixture.roll',
      ]),
    );
  });

  test('stand at least 24 px apart', () => {
    touches.forEach((a, index) => {
      for (const b of touches.slice(index + 1)) {
        expect(Math.hypot(a.xPt - b.xPt, a.yPt - b.yPt)).toBeGreaterThanOrEqual(24);
      }
    });
  });

  test('are none on paper', () => {
    const paper = elevationScene(demo('paper'));
    expect(sceneTouches(paper, sheetTransform(paper))).toEqual([]);
  });
});
