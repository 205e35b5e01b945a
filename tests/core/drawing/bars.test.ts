import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type BarRequest, barScale, barScene } from '../../../core/drawing/bars.ts';
import type { PolylineItem, Scene } from '../../../core/drawing/scene.ts';
import { DEMO_BARS } from './demoScenes.ts';

function demo(name: string): BarRequest {
  const request = DEMO_BARS[name];
  if (request === undefined) throw new Error(`no demo ${name}`);
  return request;
}

const box = (scene: Scene): PolylineItem | undefined =>
  scene.items.find((item): item is PolylineItem => item.kind === 'polyline' && item.fill !== undefined);

const ticks = (scene: Scene): readonly number[] =>
  scene.items
    .filter(
      (item): item is PolylineItem => item.kind === 'polyline' && item.stroke?.role === 'ink' && !item.closed,
    )
    .map((item) => item.points[0]?.xMm ?? 0);

function insideTicks(scene: Scene): boolean {
  const xs = (box(scene)?.points ?? []).map((point) => point.xMm);
  const [low, high] = ticks(scene);
  return Math.min(...xs) >= (low ?? 0) && Math.max(...xs) <= (high ?? 0);
}

describe('the picture is the rule', () => {
  test('a proven deviation has its box between the ticks, others have not', () => {
    expect(insideTicks(barScene(demo('proven')))).toBe(true);
    expect(insideTicks(barScene(demo('within')))).toBe(false);
    expect(insideTicks(barScene(demo('outside')))).toBe(false);
  });

  test('for any deviation and guard on the scale (seed 7)', () => {
    const base = demo('proven');
    fc.assert(
      fc.property(
        fc.double({ min: -7, max: 7, noNaN: true }),
        fc.double({ min: 0.01, max: 6, noNaN: true }),
        (found, guard) => {
          const scene = barScene({ ...base, found, guard });
          expect(insideTicks(scene)).toBe(Math.abs(found) + guard <= 5);
        },
      ),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe('the scale', () => {
  test('keeps the tolerance large and opens up to show a box that lies outside', () => {
    expect(barScale(demo('proven')).reach).toBe(8);
    expect(barScale(demo('outside')).reach).toBeCloseTo(1.05 * 8.8, 9);
    expect(barScale(demo('beyond')).reach).toBe(15);
  });

  test('what lies beyond is an arrow at the end, not a false place', () => {
    const scene = barScene(demo('beyond'));
    expect(barScale(demo('beyond')).beyond).toBe(true);
    expect(box(scene)).toBeUndefined();
    const arrow = scene.items.find((item) => item.kind === 'arrow');
    if (arrow?.kind !== 'arrow') throw new Error('an arrow says so');
    expect(arrow.to.xMm).toBeLessThan(arrow.from.xMm);
  });

  test('works without tolerance and without anything to show', () => {
    const bare = { found: 0, guard: 0 };
    expect(barScale(bare)).toMatchObject({ reach: 1, beyond: false });
    expect(barScale({ found: 3, guard: 2 }).reach).toBe(6);
    expect(barScale({ upper: 4, found: 1, guard: 1 }).place(0)).toBe(0.5);
  });

  test('a side without limit has no tick', () => {
    const { lower: _, lowerText: __, ...rest } = demo('proven');
    expect(ticks(barScene(rest))).toHaveLength(1);
  });
});

describe('what is written', () => {
  test('the limits under their ticks, and the decision for readers for the blind', () => {
    const scene = barScene(demo('within'));
    const texts = scene.items.filter((item) => item.kind === 'text');
    expect(texts.map((item) => item.text)).toEqual(['5 mm', '5 mm']);
    expect(scene.description).toBe('4.0 mm toward the car');
    expect(barScene({ ...demo('within'), textPt: 0 }).items.some((item) => item.kind === 'text')).toBe(false);
  });
});
