import { describe, expect, test } from 'vitest';
import { arrowShapes } from '../../../core/drawing/arrowShapes.ts';
import { dimensionTexts } from '../../../core/drawing/dimensionShapes.ts';
import type { DimensionItem, SceneItem, ScenePoint, SymbolShape } from '../../../core/drawing/scene.ts';
import { DASH_PT, PEN_PT } from '../../../core/drawing/scene.ts';
import { sheetTransform } from '../../../core/drawing/sceneView.ts';
import { itemShapes } from '../../../core/drawing/shapes.ts';
import type { PathCommand, PathShape, SheetShape } from '../../../core/drawing/sheetShape.ts';
import { textBox } from '../../../core/drawing/textBox.ts';

const sheet = { widthPt: 400, heightPt: 400 };
const bounds = { minXMm: -200, minYMm: -200, maxXMm: 200, maxYMm: 200 };
const level = sheetTransform({ view: 'level', viewerAt: 'ahead', bounds, sheet });
const plan = { view: 'asIStand', viewerAt: 'ahead', bounds, sheet } as const;

const at = (xMm: number, yMm: number): ScenePoint => ({ xMm, yMm });

function paths(shapes: readonly SheetShape[]): readonly PathShape[] {
  return shapes.filter((shape): shape is PathShape => shape.kind === 'path');
}

/** Points of a path every hundredth of each piece. */
function traced(commands: readonly PathCommand[]): readonly ScenePoint[] {
  const points: ScenePoint[] = [];
  let from = { xPt: 0, yPt: 0 };
  for (const command of commands) {
    if (command.command === 'close') continue;
    if (command.command === 'cubic') {
      const { control1: a, control2: b, to } = command;
      for (let t = 0; t <= 1; t += 0.01) {
        const s = 1 - t;
        const mix = (p0: number, p1: number, p2: number, p3: number): number =>
          s * s * s * p0 + 3 * s * s * t * p1 + 3 * s * t * t * p2 + t * t * t * p3;
        points.push(
          level.toWorld({
            xPt: mix(from.xPt, a.xPt, b.xPt, to.xPt),
            yPt: mix(from.yPt, a.yPt, b.yPt, to.yPt),
          }),
        );
      }
    } else {
      points.push(level.toWorld(command.to));
    }
    from = command.to;
  }
  return points;
}

describe('round things drawn as cubics', () => {
  test('a circle is one to 2.8e-4 of its radius', () => {
    const shapes = itemShapes(
      { kind: 'circle', centre: at(10, -20), radiusMm: 120, stroke: { role: 'ink', pen: 'thin' } },
      level,
    );
    const points = traced(paths(shapes)[0]?.commands ?? []);
    expect(points.length).toBeGreaterThan(300);
    for (const point of points) {
      expect(Math.abs(Math.hypot(point.xMm - 10, point.yMm + 20) / 120 - 1)).toBeLessThan(2.8e-4);
    }
  });

  test('an ellipse satisfies its own equation, turned axes included', () => {
    const turnRad = 0.6;
    const shapes = itemShapes(
      {
        kind: 'ellipse',
        centre: at(5, 5),
        semiMajorMm: 150,
        semiMinorMm: 60,
        turnRad,
        fill: { role: 'accent', tone: 'pale' },
      },
      level,
    );
    const points = traced(paths(shapes)[0]?.commands ?? []);
    for (const { xMm, yMm } of points) {
      const along = (xMm - 5) * Math.cos(turnRad) + (yMm - 5) * Math.sin(turnRad);
      const across = (yMm - 5) * Math.cos(turnRad) - (xMm - 5) * Math.sin(turnRad);
      const sum = (along / 150) * (along / 150) + (across / 60) * (across / 60);
      expect(Math.abs(sum - 1)).toBeLessThan(6e-4);
    }
    const farthest = points.reduce((best, point) =>
      Math.hypot(point.xMm - 5, point.yMm - 5) > Math.hypot(best.xMm - 5, best.yMm - 5) ? point : best,
    );
    expect(
      Math.abs(Math.tan(Math.atan2(farthest.yMm - 5, farthest.xMm - 5)) - Math.tan(turnRad)),
    ).toBeLessThan(0.02);
  });

  test('an arc starts and ends where it should, whichever way it runs', () => {
    for (const [fromRad, toRad] of [
      [0.2, 2.9],
      [2.9, 0.2],
      [-1, 4],
    ] as const) {
      const shapes = itemShapes(
        {
          kind: 'arc',
          centre: at(0, 0),
          radiusMm: 100,
          fromRad,
          toRad,
          stroke: { role: 'ink', pen: 'thin' },
        },
        level,
      );
      const points = traced(paths(shapes)[0]?.commands ?? []);
      const first = points[0] ?? at(0, 0);
      const last = points[points.length - 1] ?? at(0, 0);
      expect(first.xMm).toBeCloseTo(100 * Math.cos(fromRad), 6);
      expect(first.yMm).toBeCloseTo(100 * Math.sin(fromRad), 6);
      expect(Math.hypot(last.xMm - 100 * Math.cos(toRad), last.yMm - 100 * Math.sin(toRad))).toBeLessThan(6);
      for (const point of points) expect(Math.hypot(point.xMm, point.yMm)).toBeCloseTo(100, 0);
    }
  });
});

describe('arrows', () => {
  const stroke = { role: 'ink', pen: 'thick' } as const;

  test('end exactly at their point, with the head behind it', () => {
    const [shaft, head] = paths(arrowShapes({ xPt: 0, yPt: 0 }, { xPt: 60, yPt: 80 }, 13, 0.7, stroke));
    expect(head?.commands).toContainEqual({ command: 'line', to: { xPt: 60, yPt: 80 } });
    const neck = shaft?.commands[1];
    expect(neck).toMatchObject({ command: 'line' });
    if (neck?.command !== 'line') throw new Error('the shaft is a line');
    expect(Math.hypot(60 - neck.to.xPt, 80 - neck.to.yPt)).toBeCloseTo(13, 9);
  });

  test('short ones keep a shaft', () => {
    const [shaft] = paths(arrowShapes({ xPt: 0, yPt: 0 }, { xPt: 8, yPt: 0 }, 13, 0.7, stroke));
    expect(shaft?.commands[1]).toEqual({ command: 'line', to: { xPt: 2, yPt: 0 } });
  });

  test('without length there is nothing to point with', () => {
    expect(arrowShapes({ xPt: 4, yPt: 4 }, { xPt: 4, yPt: 4 }, 13, 0.7, stroke)).toEqual([]);
  });
});

describe('dimensions', () => {
  const item: DimensionItem = {
    kind: 'dimension',
    measured: [at(0, 0), at(100, 0)],
    from: at(0, 50),
    to: at(100, 50),
    textAt: at(50, 60),
    align: 'middle',
    rise: 'middle',
    valueText: '2914.5 mm',
    uncertaintyText: 'U 1.8 mm',
    sizePt: 10,
    role: 'ink',
  };

  test('have two extension lines, two arrows and the value over its U', () => {
    const shapes = itemShapes(item, level);
    const texts = shapes.filter((shape) => shape.kind === 'text').map((shape) => shape.text);
    expect(texts).toEqual(['2914.5 mm', 'U 1.8 mm']);
    const heads = paths(shapes).filter((shape) => shape.fill?.role === 'ink');
    expect(heads).toHaveLength(2);
    const strokes = paths(shapes).filter((shape) => shape.stroke !== undefined);
    expect(strokes).toHaveLength(4);
  });

  test('keep the value over its U in either view', () => {
    for (const view of ['asIStand', 'carUp'] as const) {
      const transform = sheetTransform(plan, view);
      const [value, u] = dimensionTexts(item, transform.halfTurned).map((text) => textBox(text, transform));
      expect(value?.maxYPt).toBeLessThanOrEqual((u?.minYPt ?? 0) + 1e-9);
    }
  });

  test('without a U the value stands where it was put', () => {
    const { uncertaintyText: _, ...plain } = item;
    expect(dimensionTexts(plain, false)).toHaveLength(1);
    expect(dimensionTexts(plain, false)[0]).toMatchObject({ rise: 'middle', text: '2914.5 mm' });
  });

  test('a dimension line on the points themselves has no extension lines', () => {
    const shapes = paths(itemShapes({ ...item, from: at(0, 0), to: at(100, 0) }, level));
    expect(shapes.filter((shape) => shape.stroke !== undefined)).toHaveLength(2);
  });
});

describe('signs of points', () => {
  const all: readonly SymbolShape[] = [
    'hub',
    'mark',
    'linePoint',
    'barEnd',
    'centre',
    'cross',
    'dot',
    'ring',
  ];

  test('differ in shape, not in colour alone', () => {
    const drawn = all.map((shape) =>
      JSON.stringify(
        itemShapes({ kind: 'symbol', at: at(0, 0), shape, sizePt: 10, role: 'ink' }, level).map((each) =>
          each.kind === 'path' ? [each.commands, each.fill?.tone, each.stroke?.widthPt] : each,
        ),
      ),
    );
    expect(new Set(drawn).size).toBe(all.length);
  });

  test('keep their size on the sheet and lie about their point', () => {
    const wide = sheetTransform({
      ...plan,
      bounds: { minXMm: -9000, minYMm: -9000, maxXMm: 9000, maxYMm: 9000 },
    });
    for (const shape of all) {
      const [first] = paths(
        itemShapes({ kind: 'symbol', at: at(0, 0), shape, sizePt: 10, role: 'ink' }, wide),
      );
      for (const command of first?.commands ?? []) {
        if (command.command === 'close') continue;
        expect(Math.hypot(command.to.xPt - 200, command.to.yPt - 200)).toBeLessThanOrEqual(7.08);
      }
    }
  });

  test('a touch place draws nothing', () => {
    const touch: SceneItem = { kind: 'symbol', at: at(0, 0), shape: 'touch', sizePt: 48, role: 'accent' };
    expect(itemShapes(touch, level)).toEqual([]);
  });

  test('an item without line and surface draws nothing either', () => {
    expect(itemShapes({ kind: 'polyline', points: [at(0, 0), at(1, 1)], closed: false }, level)).toEqual([]);
  });
});

describe('pens and dashes', () => {
  test('pens are at least twice the one before, as technical drawing asks', () => {
    expect(PEN_PT.normal / PEN_PT.thin).toBeGreaterThanOrEqual(2);
    expect(PEN_PT.thick / PEN_PT.normal).toBeGreaterThanOrEqual(2);
  });

  test('no two dashes are alike, and all but the solid one have whole pairs', () => {
    const patterns = Object.values(DASH_PT);
    expect(new Set(patterns.map((pattern) => pattern.join())).size).toBe(patterns.length);
    for (const pattern of patterns) {
      expect(pattern.length % 2).toBe(0);
      expect(pattern.every((length) => length > 0)).toBe(true);
    }
  });
});
