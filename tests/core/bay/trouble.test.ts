import { describe, expect, test } from 'vitest';
import { troubleOf } from '../../../core/bay/trouble.ts';
import { slotsOf, templateOf, WORD_KEYS, wordFaults } from '../../../core/words/index.ts';

/** One of each refusal, with the details it carries. */
const TROUBLES = [
  { code: 'bay/tooFewHeights', count: 2 },
  { code: 'bay/heightsInLine' },
  { code: 'bay/wheelsNotApart' },
  { code: 'bay/gridNotRising', axis: 'x' },
  { code: 'bay/gridIncomplete', rows: 3, expectedRows: 4 },
  { code: 'bay/badHeight', xMm: 2000, yMm: 1000 },
  { code: 'bay/badUncertainty' },
  { code: 'bay/outsideSurvey', place: 'mast foot', byMm: 512.3 },
  { code: 'bay/surveyGap', place: 'mast foot' },
  { code: 'bay/lineShorterThanEdge', lineMm: 1000, edgeMm: 2000 },
  { code: 'bay/stepsTooWide', stepMm: 1000, edgeMm: 2000 },
  { code: 'bay/lineNotRising' },
  { code: 'bay/lineTooShort', heights: 11, least: 12 },
  { code: 'bay/supportForbidden', support: 'lift', wheels: ['FL', 'RR'], permitted: ['floor'] },
  { code: 'bay/contactNotUnderLoad', wheels: ['FR'] },
  { code: 'bay/dayUnreadable', day: 'soon' },
  { code: 'bay/surveyNotYet', madeOn: '2026-01-15', day: '2026-01-14' },
  { code: 'bay/surveyExpired', validUntil: '2026-01-15', day: '2026-01-16' },
  { code: 'bay/groundWorksSince', madeOn: '2026-01-15', worksOn: '2026-02-01' },
  { code: 'bay/spotMissing', place: 'RL' },
  { code: 'bay/spotOtherDay', place: 'RL', readOn: '2026-01-15', day: '2026-01-16' },
  { code: 'bay/spotOtherSetUp', place: 'RL' },
  { code: 'bay/noLightReadings' },
  { code: 'bay/badLightReading', index: 2 },
  { code: 'bay/tooFewLightReadings', count: 4, least: 5 },
  { code: 'bay/badOutline', name: 'pillar', fault: 'crossesItself' },
  { code: 'bay/badHeightRange', name: 'pillar' },
  { code: 'bay/nothingToPlace' },
  { code: 'bay/badLimits' },
  { code: 'bay/noSurvey' },
  { code: 'bay/surveyUnderWay' },
  { code: 'bay/surveyNotForSupport' },
  { code: 'bay/parkedUnknown' },
  { code: 'vehicle/noContactPlane' },
  { code: 'vehicle/axlesCoincide' },
  { code: 'vehicle/axleTooShort', lengthMm: 40 },
  { code: 'vehicle/marksTooClose' },
  { code: 'vehicle/marksExact' },
  { code: 'vehicle/tooFewMarks', count: 1 },
  { code: 'vehicle/reportWithoutUncertainty', document: 'A-17' },
  { code: 'vehicle/cornersNotApart' },
  { code: 'vehicle/radiusImplausible', radiusMm: 400, diameterMm: 632 },
  { code: 'vehicle/pressureImplausible', pressureKPa: 2300 },
] as const;

describe('refusals in plain words', () => {
  test.each(TROUBLES)('$code', (error) => {
    const { what, next, safe } = troubleOf(error);
    for (const sentence of [what, next, safe]) {
      expect(sentence).not.toMatch(/[{}?]|undefined|NaN/);
      expect(sentence).toMatch(/^[A-Z0-9].*\.$/);
      expect(wordFaults(sentence)).toEqual([]);
    }
    // Every slot of its wording is a detail the error carries.
    const slots = ['what', 'next', 'safe'].flatMap((p) =>
      slotsOf(templateOf(`error.${error.code}.${p}`) ?? '{none}'),
    );
    expect(Object.keys(error)).toEqual(expect.arrayContaining(slots));
  });

  test('every worded code of the bay and the car is tried above', () => {
    const worded = WORD_KEYS.flatMap((key) => /^error\.((?:bay|vehicle)\/\w+)\.what$/.exec(key)?.[1] ?? []);
    expect([...worded].sort()).toEqual([...TROUBLES.map((error) => error.code)].sort());
  });

  test('names are said in words, lengths in the unit of the person, places counted from one', () => {
    const missing = { code: 'bay/spotMissing', place: 'RL' } as const;
    expect(troubleOf(missing).what).toContain("car's left rear wheel");
    const outside = { code: 'bay/outsideSurvey', place: 'mast foot', byMm: 508 } as const;
    expect(troubleOf(outside).what).toBe('The surveyed floor ends 508 mm before this place: mast foot.');
    expect(troubleOf(outside, 'in').what).toBe(
      'The surveyed floor ends 20.00 in before this place: mast foot.',
    );
    const dark = { code: 'bay/badLightReading', index: 2 } as const;
    expect(troubleOf(dark).what).toContain('number 3');
  });
});
