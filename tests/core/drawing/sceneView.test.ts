import { describe, expect, test } from 'vitest';
import type { ScenePoint, SceneView, ViewerPlace } from '../../../core/drawing/scene.ts';
import {
  boundsForSheet,
  type SheetTransform,
  sheetTransform,
  textSide,
} from '../../../core/drawing/sceneView.ts';

const bounds = { minXMm: -2000, minYMm: -1500, maxXMm: 6000, maxYMm: 1500 };
const sheet = { widthPt: 700, heightPt: 520 };
const at = (xMm: number, yMm: number): ScenePoint => ({ xMm, yMm });

function view(seen: SceneView, viewerAt: ViewerPlace = 'ahead', composed: SceneView = seen): SheetTransform {
  return sheetTransform({ view: composed, viewerAt, bounds, sheet }, seen);
}

const VIEWS: readonly (readonly [SceneView, ViewerPlace])[] = [
  ['asIStand', 'ahead'],
  ['asIStand', 'behind'],
  ['asIStand', 'carLeft'],
  ['asIStand', 'carRight'],
  ['carUp', 'ahead'],
  ['level', 'ahead'],
];

describe('where the viewer stands decides which side things are on', () => {
  test("a person ahead of the car faces it: its left is on the viewer's right-hand side", () => {
    const { toSheet } = view('asIStand', 'ahead');
    expect(toSheet(at(2000, 800)).xPt).toBeGreaterThan(toSheet(at(2000, 0)).xPt);
    expect(toSheet(at(2000, -800)).xPt).toBeLessThan(toSheet(at(2000, 0)).xPt);
  });

  test('and the car is at the top with its nose toward the viewer', () => {
    const { toSheet } = view('asIStand', 'ahead');
    expect(toSheet(at(3600, 0)).yPt).toBeGreaterThan(toSheet(at(0, 0)).yPt);
    expect(toSheet(at(5100, 0)).yPt).toBeGreaterThan(toSheet(at(3600, 0)).yPt);
  });

  test("a person behind the car looks the way it drives: its left is on the viewer's left-hand side", () => {
    const { toSheet } = view('asIStand', 'behind');
    expect(toSheet(at(0, 800)).xPt).toBeLessThan(toSheet(at(0, 0)).xPt);
    expect(toSheet(at(3600, 0)).yPt).toBeLessThan(toSheet(at(0, 0)).yPt);
  });

  test("a person at the car's left looks at its flank: the nose is on the viewer's left-hand side", () => {
    const { toSheet } = view('asIStand', 'carLeft');
    expect(toSheet(at(3600, 0)).xPt).toBeLessThan(toSheet(at(0, 0)).xPt);
    expect(toSheet(at(0, 800)).yPt).toBeGreaterThan(toSheet(at(0, 0)).yPt);
  });

  test("a person at the car's right has the nose on the right-hand side", () => {
    const { toSheet } = view('asIStand', 'carRight');
    expect(toSheet(at(3600, 0)).xPt).toBeGreaterThan(toSheet(at(0, 0)).xPt);
    expect(toSheet(at(0, -800)).yPt).toBeGreaterThan(toSheet(at(0, 0)).yPt);
  });

  test('with the car up its left is on the left-hand side, as its driver has it', () => {
    const { toSheet } = view('carUp');
    expect(toSheet(at(0, 800)).xPt).toBeLessThan(toSheet(at(0, 0)).xPt);
    expect(toSheet(at(3600, 0)).yPt).toBeLessThan(toSheet(at(0, 0)).yPt);
  });

  test('a side view has x to the right and heights up', () => {
    const { toSheet } = view('level');
    expect(toSheet(at(100, 0)).xPt).toBeGreaterThan(toSheet(at(0, 0)).xPt);
    expect(toSheet(at(0, 100)).yPt).toBeLessThan(toSheet(at(0, 0)).yPt);
  });
});

describe.each(VIEWS)('the transform of %s, viewer %s', (seen, viewerAt) => {
  const { toSheet, toWorld, ptPerMm } = view(seen, viewerAt);

  test('never mirrors: turning left in the world turns left on the sheet', () => {
    const origin = toSheet(at(0, 0));
    const x = toSheet(at(1000, 0));
    const y = toSheet(at(0, 1000));
    // The sheet's own y runs down, so a left turn has a negative cross product there.
    const cross = (x.xPt - origin.xPt) * (y.yPt - origin.yPt) - (x.yPt - origin.yPt) * (y.xPt - origin.xPt);
    expect(cross).toBeCloseTo(-(1000 * ptPerMm) * (1000 * ptPerMm), 6);
  });

  test('comes back to the same world point', () => {
    for (const point of [at(0, 0), at(5230.4, -911.2), at(-1999, 1499)]) {
      const again = toWorld(toSheet(point));
      expect(again.xMm).toBeCloseTo(point.xMm, 9);
      expect(again.yMm).toBeCloseTo(point.yMm, 9);
    }
  });

  test('keeps the whole bounds on the sheet and touches two of its edges', () => {
    const corners = [bounds.minXMm, bounds.maxXMm].flatMap((x) =>
      [bounds.minYMm, bounds.maxYMm].map((y) => toSheet(at(x, y))),
    );
    for (const corner of corners) {
      expect(corner.xPt).toBeGreaterThanOrEqual(-1e-9);
      expect(corner.xPt).toBeLessThanOrEqual(sheet.widthPt + 1e-9);
      expect(corner.yPt).toBeGreaterThanOrEqual(-1e-9);
      expect(corner.yPt).toBeLessThanOrEqual(sheet.heightPt + 1e-9);
    }
    const spanX = Math.max(...corners.map((c) => c.xPt)) - Math.min(...corners.map((c) => c.xPt));
    const spanY = Math.max(...corners.map((c) => c.yPt)) - Math.min(...corners.map((c) => c.yPt));
    expect(Math.min(sheet.widthPt - spanX, sheet.heightPt - spanY)).toBeCloseTo(0, 9);
  });
});

describe('turning the view by half a turn', () => {
  test('is known as such and swaps the sides of a text', () => {
    const turned = view('carUp', 'ahead', 'asIStand');
    expect(turned.halfTurned).toBe(true);
    expect(textSide({ align: 'start', rise: 'above' }, turned)).toEqual({ align: 'end', rise: 'below' });
    expect(textSide({ align: 'middle', rise: 'middle' }, turned)).toEqual({
      align: 'middle',
      rise: 'middle',
    });
  });

  test('the composed view leaves them as they are', () => {
    const straight = view('asIStand');
    expect(straight.halfTurned).toBe(false);
    expect(textSide({ align: 'start', rise: 'above' }, straight)).toEqual({ align: 'start', rise: 'above' });
  });

  test('is no turn at all for a viewer behind the car', () => {
    expect(view('carUp', 'behind', 'asIStand').halfTurned).toBe(false);
  });
});

describe('bounds for a sheet', () => {
  test.each(VIEWS)(
    'put the anchor where it was asked for at the scale asked for: %s, %s',
    (seen, viewerAt) => {
      const anchor = at(2700, 120);
      const made = boundsForSheet(sheet, seen, viewerAt, 0.07, anchor, { xPt: 150, yPt: 90 });
      const transform = sheetTransform({ view: seen, viewerAt, bounds: made, sheet });
      expect(transform.ptPerMm).toBeCloseTo(0.07, 12);
      expect(transform.toSheet(anchor).xPt).toBeCloseTo(150, 9);
      expect(transform.toSheet(anchor).yPt).toBeCloseTo(90, 9);
    },
  );

  test('a scene without an area is a bug', () => {
    const flat = { minXMm: 0, minYMm: 5, maxXMm: 10, maxYMm: 5 };
    expect(() => sheetTransform({ view: 'level', viewerAt: 'ahead', bounds: flat, sheet })).toThrow(/area/);
  });
});
