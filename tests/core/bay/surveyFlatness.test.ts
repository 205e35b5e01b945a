import { describe, expect, test } from 'vitest';
import type { FloorSurvey } from '../../../core/bay/floorSurvey.ts';
import { surveyFlatness } from '../../../core/bay/surveyFlatness.ts';

/** A floor of 4 by 3 m read every 500 mm. */
function survey(z: (x: number, y: number) => number | undefined): FloorSurvey {
  const xsMm = Array.from({ length: 9 }, (_, i) => 500 * i);
  const ysMm = Array.from({ length: 7 }, (_, i) => 500 * i);
  return { xsMm, ysMm, heightsMm: ysMm.map((y) => xsMm.map((x) => z(x, y))), uHeightMm: 0.4, uTilt: 1e-3 };
}

describe('a surveyed floor under a straightedge', () => {
  test('a gutter along y is seen by edges along x: where and how deep', () => {
    const found = surveyFlatness(
      { survey: survey((x, y) => (x === 1500 ? -6 : 0) + (x === 1500 && y === 1000 ? -1 : 0)) },
      2000,
    );
    expect(found.ok && found.value).toMatchObject({
      along: 'x',
      atMm: 1000,
      linesJudged: 16,
      linesTooShort: 0,
    });
    expect(found.ok && found.value.worst.gapMm).toBeCloseTo(7, 9);
    expect(found.ok && found.value.worst.gapAtMm).toBe(1500);
  });

  test('a sloping floor, tilted level or not, is flat', () => {
    const found = surveyFlatness({ survey: survey((x, y) => 0.01 * x - 0.02 * y) }, 3000);
    expect(found.ok && found.value.worst.gapMm).toBeCloseTo(0, 9);
  });

  test('no edge bridges a place nobody read; what is left is too short and counted', () => {
    // Absent at x = 2000 in all rows but the first: pieces of 1500 mm on either side, 6 rows; one column is gone but for a point.
    const found = surveyFlatness(
      { survey: survey((x, y) => (x === 2000 && y > 0 ? undefined : x === 1500 ? -5 : 0)) },
      2000,
    );
    expect(found.ok && found.value.linesTooShort).toBe(13);
    expect(found.ok && found.value.linesJudged).toBe(9);
    expect(found.ok && found.value).toMatchObject({ along: 'x', atMm: 0 });
  });

  test('an edge longer than every line, or a grid too wide for it', () => {
    expect(surveyFlatness({ survey: survey(() => 0) }, 5000)).toEqual({
      ok: false,
      error: { code: 'bay/lineShorterThanEdge', lineMm: 4000, edgeMm: 5000 },
    });
    expect(surveyFlatness({ survey: survey(() => 0) }, 1000)).toMatchObject({
      error: { code: 'bay/stepsTooWide' },
    });
  });
});
