import { describe, expect, test } from 'vitest';
import { floorMapScene } from '../../../core/drawing/floorMap.ts';
import { floorProfileScene } from '../../../core/drawing/floorProfile.ts';
import type { Scene, SceneItem } from '../../../core/drawing/scene.ts';
import { spacePlanScene } from '../../../core/drawing/spacePlan.ts';

const sheet = { widthPt: 800, heightPt: 400 };
const paper = { sheet, textPt: 14, decimalSign: '.' } as const;
const texts = (scene: Scene): readonly string[] =>
  scene.items.flatMap((item) => (item.kind === 'text' ? [item.text.trim()] : []));
const picks = (scene: Scene): readonly SceneItem[] => scene.items.filter((item) => item.pick !== undefined);

describe('the map of a floor', () => {
  const grid = {
    xsMm: [0, 1000, 2000],
    ysMm: [0, 1000],
    heightsMm: [
      [-1200, -1202, -1204],
      [-1201, undefined, undefined],
    ],
  };
  const underWay = floorMapScene({
    ...paper,
    grid,
    givenUp: new Set(['2,1']),
    next: { column: 1, row: 1 },
    touchable: true,
  });

  test('tells heights over the lowest place, so that none is signed', () => {
    for (const text of ['4.0', '2.0', '0.0', '3.0']) expect(texts(underWay)).toContain(text);
    expect(texts(underWay).filter((text) => text.startsWith('-'))).toEqual([]);
  });

  test('every place is touched by its own name, and the next one alone pulses', () => {
    expect(picks(underWay).map((item) => item.pick)).toEqual(['0,0', '1,0', '2,0', '0,1', '1,1', '2,1']);
    expect(
      picks(underWay)
        .filter((item) => item.pulse === true)
        .map((item) => item.pick),
    ).toEqual(['1,1']);
  });

  test('has contour lines once it is whole, none before', () => {
    const contours = (scene: Scene) =>
      scene.items.filter((item) => item.kind === 'polyline' && item.stroke?.role === 'accent');
    expect(contours(underWay)).toEqual([]);
    const [first = [], second = []] = grid.heightsMm;
    const whole = floorMapScene({
      ...paper,
      grid: { ...grid, heightsMm: [first, second.map((_, i) => -1201 - 2 * i)] },
      givenUp: new Set(),
      touchable: false,
    });
    expect(contours(whole).length).toBeGreaterThan(3);
    expect(picks(whole)).toEqual([]);
  });

  test('a car that stands half beyond the survey is in the picture whole', () => {
    const corner = { xMm: 4000, yMm: 500 };
    const scene = floorMapScene({
      ...paper,
      grid,
      givenUp: new Set(),
      touchable: false,
      car: { outline: [{ xMm: 500, yMm: 0 }, corner, { xMm: 500, yMm: 900 }], wheels: [corner] },
    });
    expect(scene.bounds.maxXMm).toBeGreaterThan(4000);
  });
});

describe('the profile of a floor', () => {
  const floor = [0, 1000, 2000, 3000].map((aheadMm) => ({ aheadMm, heightMm: -1200 + 0.005 * aheadMm }));
  const scene = floorProfileScene({
    ...paper,
    floor,
    marks: [
      { aheadMm: 1500, text: 'axle' },
      { aheadMm: 5000, text: 'beyond' },
    ],
  });

  test('is enlarged in height by the factor it states', () => {
    const line = scene.items.find((item) => item.kind === 'polyline' && item.stroke?.pen === 'thick');
    if (line?.kind !== 'polyline') throw new Error('no floor');
    const rise = (line.points[3]?.yMm ?? 0) - (line.points[0]?.yMm ?? 0);
    const factor = Number(/× (\d+)/.exec(scene.description)?.[1]);
    expect(rise).toBeCloseTo(15 * factor, 6);
    expect(factor).toBe(20);
  });

  test('names what stands on it and nothing beyond it', () => {
    expect(texts(scene)).toContain('axle');
    expect(texts(scene)).not.toContain('beyond');
  });
});

describe('the plan of a bay', () => {
  const walls = [
    [0, 0],
    [9000, 0],
    [9000, 4000],
    [0, 4000],
  ] as const;
  const part = (lacksRoom: boolean) =>
    spacePlanScene({
      sheet,
      textPt: 14,
      walls,
      obstacles: [
        {
          name: 'bench',
          outline: [
            [0, 0],
            [500, 0],
            [500, 500],
          ],
        },
      ],
      parts: [
        {
          name: 'board',
          kind: 'footprint',
          lacksRoom,
          outline: [
            [8000, 0],
            [10_000, 0],
            [10_000, 900],
          ],
        },
      ],
    });

  test('shows what reaches beyond the walls, with its name', () => {
    const scene = part(true);
    expect(scene.bounds.maxXMm).toBeGreaterThan(10_000);
    expect(texts(scene)).toEqual(['bench', 'board']);
  });

  test('what lacks room differs by pen and dash, not by colour alone', () => {
    const strokeOf = (scene: Scene) => {
      const drawn = scene.items.findLast((item) => item.kind === 'polyline');
      return drawn?.kind === 'polyline' ? drawn.stroke : undefined;
    };
    expect(strokeOf(part(true))).toMatchObject({ pen: 'thick', dash: 'dashed' });
    expect(strokeOf(part(false))?.dash).toBeUndefined();
    expect(part(true).description).not.toBe(part(false).description);
  });
});
