import { describe, expect, test } from 'vitest';
import type { Scene, SceneItem } from '../../../core/drawing/scene.ts';
import { sheetTransform } from '../../../core/drawing/sceneView.ts';
import { nearestTouch, sceneTouches } from '../../../core/drawing/touch.ts';

const at = (xMm: number, yMm: number) => ({ xMm, yMm });
const touch = (pick: string, x: number, y: number): SceneItem => ({
  kind: 'symbol',
  at: at(x, y),
  shape: 'touch',
  sizePt: 48,
  role: 'accent',
  pick,
  pickLabel: `reading ${pick}`,
});

const scene: Scene = {
  title: 'a test',
  description: 'points to touch',
  view: 'level',
  viewerAt: 'ahead',
  sheet: { widthPt: 200, heightPt: 200 },
  bounds: { minXMm: 0, minYMm: 0, maxXMm: 200, maxYMm: 200 },
  items: [
    touch('a', 100, 100),
    touch('b', 130, 100),
    {
      kind: 'polyline',
      points: [at(0, 20), at(200, 20)],
      closed: false,
      stroke: { role: 'ink', pen: 'thin' },
      pick: 'c',
    },
    { kind: 'circle', centre: at(10, 190), radiusMm: 2 },
  ],
};

const touches = sceneTouches(scene, sheetTransform(scene));

describe('touch places', () => {
  test('are the items with a pick, where they are on the sheet', () => {
    expect(touches.map((each) => each.pick)).toEqual(['a', 'b', 'c']);
    expect(touches[0]).toMatchObject({ xPt: 100, yPt: 100, label: 'reading a', radiusPt: 24 });
    expect(touches[2]).toMatchObject({ xPt: 100, yPt: 180, label: 'c' });
  });

  test('a finger means the nearer of two that overlap, whichever is drawn on top', () => {
    expect(nearestTouch(touches, { xPt: 112, yPt: 100 })?.pick).toBe('a');
    expect(nearestTouch(touches, { xPt: 118, yPt: 100 })?.pick).toBe('b');
  });

  test('and nothing out of reach of all', () => {
    expect(nearestTouch(touches, { xPt: 100, yPt: 130 })).toBeUndefined();
    expect(nearestTouch([], { xPt: 0, yPt: 0 })).toBeUndefined();
  });
});

test('every kind of item has a place to be touched', () => {
  const kinds: readonly SceneItem[] = [
    { kind: 'curve', start: at(5, 5), pieces: [], closed: false, pick: 'curve' },
    { kind: 'circle', centre: at(5, 5), radiusMm: 1, pick: 'circle' },
    { kind: 'ellipse', centre: at(5, 5), semiMajorMm: 2, semiMinorMm: 1, turnRad: 0, pick: 'ellipse' },
    { kind: 'arc', centre: at(5, 5), radiusMm: 1, fromRad: 0, toRad: 1, pick: 'arc' },
    {
      kind: 'text',
      at: at(5, 5),
      text: 'x',
      sizePt: 9,
      bold: false,
      align: 'start',
      rise: 'middle',
      role: 'ink',
      masked: false,
      pick: 'text',
    },
    {
      kind: 'arrow',
      from: at(0, 0),
      to: at(5, 5),
      headPt: 8,
      stroke: { role: 'ink', pen: 'thin' },
      pick: 'arrow',
    },
    {
      kind: 'dimension',
      measured: [at(0, 0), at(9, 0)],
      from: at(0, 1),
      to: at(9, 1),
      textAt: at(5, 5),
      align: 'middle',
      rise: 'middle',
      valueText: '9.0 mm',
      sizePt: 9,
      role: 'ink',
      pick: 'dimension',
    },
  ];
  const found = sceneTouches({ ...scene, items: kinds }, sheetTransform(scene));
  expect(found.map((each) => each.pick)).toEqual(kinds.map((item) => item.kind));
  for (const each of found) expect([each.xPt, each.yPt]).toEqual([5, 195]);
});
