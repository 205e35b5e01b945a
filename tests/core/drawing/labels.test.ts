import { describe, expect, test } from 'vitest';
import {
  type LabelWish,
  type Obstacles,
  placeLabels,
  segmentCrossesBox,
  spotsAround,
} from '../../../core/drawing/labels.ts';
import { sheetTransform } from '../../../core/drawing/sceneView.ts';
import { boxesOverlap, textBox } from '../../../core/drawing/textBox.ts';

const sheet = { widthPt: 300, heightPt: 300 };
const bounds = { minXMm: 0, minYMm: 0, maxXMm: 300, maxYMm: 300 };
const level = sheetTransform({ view: 'level', viewerAt: 'ahead', bounds, sheet });
const within = { minXPt: 0, minYPt: 0, maxXPt: 300, maxYPt: 300 };
const free: Obstacles = { boxes: [], segments: [], within };
const middle = { xMm: 150, yMm: 150 };

function wish(text: string, needed = true): LabelWish {
  return {
    text,
    sizePt: 12,
    bold: false,
    role: 'ink',
    masked: false,
    needed,
    spots: spotsAround(middle, [5, 20, 40], level),
  };
}

describe('a segment and a box', () => {
  const box = { minXPt: 10, minYPt: 10, maxXPt: 30, maxYPt: 20 };
  const segment = (ax: number, ay: number, bx: number, by: number) =>
    [
      { xPt: ax, yPt: ay },
      { xPt: bx, yPt: by },
    ] as const;

  test.each([
    ['runs through', segment(0, 0, 40, 30), true],
    ['ends inside', segment(0, 15, 12, 15), true],
    ['lies inside', segment(12, 12, 28, 18), true],
    ['passes beside', segment(0, 25, 40, 25), false],
    ['stops short', segment(0, 15, 9, 15), false],
    ['cuts the corner off', segment(0, 11, 11, 0), false],
    ['stands upright beside', segment(31, 0, 31, 40), false],
    ['stands upright through', segment(20, 0, 20, 40), true],
  ])('%s', (_, line, crosses) => {
    expect(segmentCrossesBox(line, box)).toBe(crosses);
  });
});

describe('labels', () => {
  test('take their best spot when nothing is in the way', () => {
    const [label] = placeLabels([wish('first')], free, level);
    expect(label).toMatchObject({ text: 'first', align: 'middle', rise: 'above' });
  });

  test('keep off each other', () => {
    const labels = placeLabels(
      ['one', 'two', 'three', 'four', 'five'].map((text) => wish(text)),
      free,
      level,
    );
    expect(labels).toHaveLength(5);
    const boxes = labels.map((label) => textBox(label, level));
    boxes.forEach((box, index) => {
      for (const other of boxes.slice(index + 1)) expect(boxesOverlap(box, other)).toBe(false);
    });
  });

  test('keep off boxes and lines', () => {
    const obstacles: Obstacles = {
      boxes: [{ minXPt: 100, minYPt: 100, maxXPt: 200, maxYPt: 150 }],
      segments: [
        [
          { xPt: 0, yPt: 160 },
          { xPt: 300, yPt: 160 },
        ],
      ],
      within,
    };
    const [label] = placeLabels([wish('kept clear')], obstacles, level);
    if (label === undefined) throw new Error('there is room below');
    const box = textBox(label, level);
    expect(obstacles.boxes.some((other) => boxesOverlap(box, other))).toBe(false);
    expect(obstacles.segments.some((segment) => segmentCrossesBox(segment, box))).toBe(false);
  });

  test('without room are left out, or kept when they are needed', () => {
    const full: Obstacles = { ...free, boxes: [within] };
    expect(placeLabels([wish('spare', false)], full, level)).toEqual([]);
    expect(placeLabels([wish('needed')], full, level)).toHaveLength(1);
  });

  test('stay inside their area', () => {
    const narrow: Obstacles = { ...free, within: { minXPt: 150, minYPt: 0, maxXPt: 300, maxYPt: 300 } };
    const [label] = placeLabels([wish('to one side')], narrow, level);
    if (label === undefined) throw new Error('there is room on one side');
    expect(textBox(label, level).minXPt).toBeGreaterThanOrEqual(150);
  });

  test('come out the same every time', () => {
    const wishes = ['a', 'bb', 'ccc'].map((text) => wish(text));
    expect(placeLabels(wishes, free, level)).toEqual(placeLabels(wishes, free, level));
  });
});
