import { describe, expect, test } from 'vitest';
import { largestGap, type ProfilePoint, type StraightedgeGap } from '../../../core/bay/straightedge.ts';

const line = (heights: readonly number[], stepMm: number): readonly ProfilePoint[] =>
  heights.map((heightMm, i) => ({ alongMm: i * stepMm, heightMm }));

function gap(points: readonly ProfilePoint[], edgeMm: number, u = 0): StraightedgeGap {
  const found = largestGap(points, edgeMm, u);
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
}

describe('the largest gap under a straightedge', () => {
  test('a dip of 3 mm under an edge of 2 m: 3 mm, resting on its two sides', () => {
    const dip = line([0, 0, 0, -3, 0, 0, 0], 500);
    const found = gap(dip, 2000, 0.5);
    expect(found.gapMm).toBeCloseTo(3, 12);
    expect(found.gapAtMm).toBe(1500);
    expect(found.fromMm).toBeLessThan(1500);
    expect(found.toMm).toBeGreaterThan(1500);
  });

  test('u of a gap in the middle of its edge: 0.5 sqrt(1 + 1/4 + 1/4)', () => {
    const found = gap(line([5, 0, -3, 0, 5], 500), 2000, 0.5);
    expect(found.gapMm).toBeCloseTo(8, 12);
    expect(found.uMm).toBeCloseTo(0.5 * Math.sqrt(1.5), 12);
  });

  test('a slope, however steep, is flat; a hump is met at one side: the edge tips on it', () => {
    expect(gap(line([0, 10, 20, 30, 40, 50], 500), 2000).gapMm).toBeCloseTo(0, 9);
    // From the hump at 1000 the edge reaches down to 2000 and 3000: level floor to the chord's middle.
    const hump = line([0, 0, 4, 0, 0, 0, 0], 500);
    const found = gap(hump, 2000);
    // Edge from the top (1000, 4) to (3000, 0): over 1500 it is at 3, the floor at 0.
    expect(found.gapMm).toBeCloseTo(3, 12);
    expect(found.gapAtMm).toBe(1500);
  });

  test('a longer edge never shows less', () => {
    const wavy = line(
      Array.from({ length: 25 }, (_, i) => 4 * Math.sin(i / 3) + 2 * Math.cos(i * 1.3)),
      200,
    );
    const gaps = [1000, 1500, 2000, 3000, 4800].map((edge) => gap(wavy, edge).gapMm);
    gaps.slice(1).forEach((g, i) => {
      expect(g).toBeGreaterThanOrEqual(gaps[i] ?? Number.POSITIVE_INFINITY);
    });
  });

  test('as large as a search over finely moved edges finds, and never smaller', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const heights = Array.from({ length: 12 }, (_, i) => 5 * Math.sin(seed * 12.9898 + i * 78.233 * seed));
      const points = line(heights, 250);
      const exact = gap(points, 1300);
      const searched = finest(points, 1300);
      expect(exact.gapMm).toBeGreaterThanOrEqual(searched - 1e-9);
      expect(exact.gapMm - searched).toBeLessThan(0.05);
      expect(exact.toMm - exact.fromMm).toBeLessThanOrEqual(1300 + 1e-9);
    }
  });

  test('lines an edge cannot judge', () => {
    expect(largestGap(line([0, 1, 2], 500), 2000, 0)).toEqual({
      ok: false,
      error: { code: 'bay/lineShorterThanEdge', lineMm: 1000, edgeMm: 2000 },
    });
    expect(largestGap(line([0, 1, 2, 3], 1000), 2000, 0)).toEqual({
      ok: false,
      error: { code: 'bay/stepsTooWide', stepMm: 1000, edgeMm: 2000 },
    });
    const reversed = [...line([0, 1, 2, 3, 4, 5], 500)].reverse();
    expect(largestGap(reversed, 2000, 0)).toEqual({ ok: false, error: { code: 'bay/lineNotRising' } });
    expect(largestGap([], 2000, 0).ok).toBe(false);
  });
});

/** Edges laid every 5 mm: each rests on the upper hull of what is under it. */
function finest(points: readonly ProfilePoint[], edgeMm: number): number {
  const last = points[points.length - 1]?.alongMm ?? 0;
  const floor = (s: number): number => {
    const i = Math.min(points.length - 2, Math.floor(s / 250));
    const [a, b] = [points[i]?.heightMm ?? 0, points[i + 1]?.heightMm ?? 0];
    return a + ((b - a) * (s - i * 250)) / 250;
  };
  let worst = 0;
  for (let from = 0; from + edgeMm <= last; from += 5) {
    const under = [
      from,
      ...points.map((p) => p.alongMm).filter((s) => s > from && s < from + edgeMm),
      from + edgeMm,
    ];
    for (const r of under) {
      for (const p of under.filter((s) => s < r)) {
        for (const q of under.filter((s) => s > r)) {
          const chord = floor(p) + ((floor(q) - floor(p)) * (r - p)) / (q - p);
          worst = Math.max(worst, chord - floor(r));
        }
      }
    }
  }
  return worst;
}
