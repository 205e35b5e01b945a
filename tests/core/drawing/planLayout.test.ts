import { describe, expect, test } from 'vitest';
import { detailLegend } from '../../../core/drawing/detailLegend.ts';
import { detailModel } from '../../../core/drawing/detailModel.ts';
import { placeOf, planLayout } from '../../../core/drawing/planLayout.ts';
import { type PlanRequest, planModel } from '../../../core/drawing/planModel.ts';
import { readingEnds, readingWords } from '../../../core/drawing/planReadings.ts';
import type { Sheet } from '../../../core/drawing/scene.ts';
import { defaultRecipe, type ReadingSpec } from '../../../core/placement/recipe.ts';
import { A4_PLAN, CAMERA_STATIONS, DEMO_PLANS, PANEL, REAR_STATION } from './demoPlans.ts';

function demo(name: string): PlanRequest {
  const request = DEMO_PLANS[name];
  if (request === undefined) throw new Error(`no demo ${name}`);
  return request;
}

const arranged = (request: PlanRequest) => {
  const model = planModel(request);
  return { model, layout: planLayout(request, model) };
};

/** Panels from a small window to a wall display, and paper. */
const SHEETS: readonly Sheet[] = [
  PANEL,
  A4_PLAN,
  { widthPt: 560, heightPt: 420 },
  { widthPt: 1280, heightPt: 900 },
];

describe.each(SHEETS)('a sheet of $widthPt by $heightPt points', (sheet) => {
  const { model, layout } = arranged({ ...demo('turn'), sheet });
  const { detail, columnPt, transform } = layout;

  test('gives the detail more room than the car: it is the heart of the drawing', () => {
    const carPt = model.car.widthMm * transform.ptPerMm;
    expect(2 * detail.radiusPt).toBeGreaterThan(2 * carPt);
    expect(2 * detail.radiusPt).toBeGreaterThan(0.45 * sheet.widthPt);
  });

  test('keeps the circle on the sheet and clear of the column', () => {
    expect(detail.centrePt.xPt - detail.radiusPt).toBeGreaterThanOrEqual(columnPt - 1e-9);
    expect(detail.centrePt.xPt + detail.radiusPt).toBeLessThanOrEqual(sheet.widthPt);
    expect(detail.centrePt.yPt - detail.radiusPt).toBeGreaterThan(0);
    expect(detail.centrePt.yPt + detail.radiusPt).toBeLessThan(sheet.heightPt);
  });

  test('keeps every point of car and fixture in the column', () => {
    for (const point of Object.values(model.points)) {
      const at = transform.toSheet(point);
      expect(at.xPt).toBeGreaterThan(0);
      expect(at.xPt).toBeLessThan(columnPt);
      expect(at.yPt).toBeGreaterThan(0);
      expect(at.yPt).toBeLessThan(sheet.heightPt);
    }
  });

  test('the circle in the world is the circle on the sheet', () => {
    expect(detail.radiusMm * transform.ptPerMm).toBeCloseTo(detail.radiusPt, 9);
    expect(transform.toSheet(detail.centre).xPt).toBeCloseTo(detail.centrePt.xPt, 6);
    expect(transform.toSheet(detail.centre).yPt).toBeCloseTo(detail.centrePt.yPt, 6);
  });
});

describe('where the viewer stands', () => {
  test('is where the station says its target is', () => {
    expect(placeOf(planModel(demo('datum')))).toBe('ahead');
    expect(placeOf(planModel({ ...demo('datum'), stations: [REAR_STATION] }))).toBe('behind');
    const { answer: _, ...blank } = demo('datum');
    expect(placeOf(planModel({ ...blank, stations: [{ ...REAR_STATION, place: 'carLeft' }] }))).toBe(
      'carLeft',
    );
  });

  test('is ahead when nothing is asked for', () => {
    expect(placeOf(planModel({ ...demo('datum'), stations: [] }))).toBe('ahead');
  });

  test('signs shrink with the text of paper, but not to nothing', () => {
    expect(arranged(demo('turn')).layout.signScale).toBe(1);
    expect(arranged(demo('paper')).layout.signScale).toBe(0.7);
    expect(arranged({ ...demo('turn'), textPt: 21 }).layout.signScale).toBe(1.5);
  });
});

describe('the key of the detail', () => {
  const writing = { textPt: 14, decimalSign: '.', unit: 'mm' } as const;
  const entries = (name: string, roomPt: number): readonly string[] => {
    const { model, layout } = arranged(demo(name));
    const detail = detailModel(model, layout, 1.645);
    if (detail === undefined) throw new Error('a station is asked for');
    const found = model.found === undefined ? undefined : 'as it stands';
    const items = detailLegend(detail, found, { xPt: 480, yPt: 500 }, roomPt, writing, layout.transform);
    return items.flatMap((item) => (item.kind === 'text' ? [item.text] : []));
  };

  test('names what is drawn and nothing else', () => {
    expect(entries('turn', 440)).toEqual(['as it stands', 'required', '95 %', 'permitted']);
    expect(entries('nothing', 440)).toEqual(['required', 'permitted']);
  });

  test('says by how much a tiny ellipse is enlarged', () => {
    expect(entries('far', 600)[2]).toMatch(/^95 %, drawn × \d+$/);
  });

  test('leaves out from its end what has no room', () => {
    expect(entries('turn', 330)).toEqual(['as it stands', 'required', '95 %']);
    expect(entries('turn', 230)).toEqual(['as it stands', 'required']);
  });
});

describe('the places a reading joins', () => {
  const { points } = planModel(demo('datum'));
  const recipe = defaultRecipe({ stations: CAMERA_STATIONS, thrustLine: true });
  const spec = (id: string): ReadingSpec => {
    const found = recipe.find((reading) => reading.id === id);
    if (found === undefined) throw new Error(`no reading ${id}`);
    return found;
  };

  test('are its two points for a distance', () => {
    expect(readingEnds(spec('diagonal.LR'), points)).toEqual([points['behind.L'], points['ahead.R']]);
    expect(readingEnds(spec('bar.sameL'), points)).toEqual([points['ahead.L'], points['barEnd.carLeft']]);
  });

  test('are the middle of the line and the body for an offset', () => {
    const ends = readingEnds(spec('face'), points);
    expect(ends?.[0].yMm).toBeCloseTo((points['ahead.L'].yMm + points['ahead.R'].yMm) / 2, 9);
    expect(ends?.[1]).toEqual(points.bodyFace);
  });

  test('are one and the same for a wheel’s toe', () => {
    expect(readingEnds(spec('toe.RL'), points)).toEqual([points['hub.RL'], points['hub.RL']]);
  });

  test('exist for every reading of the recipe, and so do its words', () => {
    for (const reading of [...recipe, ...defaultRecipe({ stations: [REAR_STATION] })]) {
      expect(readingEnds(reading, points)).toBeDefined();
      expect(readingWords(reading).length).toBeGreaterThan(3);
    }
    expect(() => readingWords({ ...spec('face'), label: 'reading.nowhere' })).toThrow(/no words/);
  });
});
