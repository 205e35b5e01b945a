/** The fewest readings, against counting through every plan within small bounds. */
import { describe, expect, test } from 'vitest';
import type { WorkClass } from '../../../core/placement/equipment.ts';
import type { DecisionRuleName } from '../../../core/placement/requirement.ts';
import type { Design } from '../../../core/planning/design.ts';
import { countsOf } from '../../../core/planning/evaluate.ts';
import { fewest } from '../../../core/planning/fewest.ts';
import { whatItProves } from '../../../core/planning/proves.ts';
import { costOf } from '../../../core/planning/search.ts';
import { fewestSentences } from '../../../core/planning/sentences.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { CENTRE, EQUIPMENT } from '../placement/trueLayout.ts';
import { countedThrough } from './countedThrough.ts';
import { designFor, planWith, setUpOf, stationWith } from './setUps.ts';

/** Only these may be taken more than once; the rest once at most. */
const boundsOf = (design: Design, more: Readonly<Record<string, number>>): Map<string, number> =>
  new Map(design.laid.slots.map(({ key }) => [key, more[key] ?? 1]));

const designOfTolerance = (
  mm: number,
  deg: number,
  rule: DecisionRuleName = 'guarded',
  work: WorkClass = 'careful',
) => designFor(setUpOf({ stations: [stationWith(mm, deg)], decisionRule: rule }, work));

describe('the fewest readings', () => {
  const cases = [
    { mm: 10, deg: 0.5, rule: 'guarded', more: { 'drop.FL': 2, 'drop.FR': 2 }, cost: 25 },
    { mm: 3.5, deg: 0.12, rule: 'guarded', more: { 'drop.FL': 2, 'drop.FR': 2 }, cost: 26 },
    { mm: 3.3, deg: 0.12, rule: 'guarded', more: { 'drop.FL': 3, 'drop.FR': 2 }, cost: 28 },
    { mm: 3.2, deg: 0.12, rule: 'guarded', more: { 'drop.FL': 2, 'drop.FR': 2, 'bar.diagRL': 2 }, cost: 29 },
    { mm: 4, deg: 0.12, rule: 'fullU', more: { 'drop.FL': 3, 'drop.FR': 3 }, cost: 29 },
  ] as const;

  test.each(cases)(
    '$mm mm and $deg degrees by the rule $rule: as counted through',
    ({ mm, deg, rule, more }) => {
      const design = designOfTolerance(mm, deg, rule);
      const bounds = boundsOf(design, more);
      const { best, plans } = countedThrough(design, bounds);
      expect(plans).toBeGreaterThan(1000);
      const answer = fewest(design, bounds);
      if (best === undefined) {
        expect(answer.outcome).toBe('tooMany');
        return;
      }
      if (answer.outcome !== 'found') throw new Error(JSON.stringify(answer));
      expect(answer.cost).toBe(best.cost);
      expect(answer.seconds).toBeCloseTo(best.seconds, 6);
      expect(costOf(design, countsOf(design, answer.plan))).toBe(answer.cost);
      expect(whatItProves(design, answer.plan)?.map(({ outcome }) => outcome)).toEqual(
        Array(6).fill('proves'),
      );
    },
  );

  test('readings that cost four at a time are weighed as four', () => {
    const base = stationWith(6.3, 0.5);
    const station = { ...base, left: { ...base.left, from: 'thrustLine' } } as const;
    const design = designFor(setUpOf({ stations: [station] }), 'rimHeadings');
    const bounds = boundsOf(design, { 'rim.RL': 2, 'rim.RR': 2, 'drop.FL': 2 });
    const { best } = countedThrough(design, bounds);
    const answer = fewest(design, bounds);
    expect(best).toBeDefined();
    expect(answer).toMatchObject({ outcome: 'found', cost: best?.cost });
    expect((answer.outcome === 'found' ? answer.plan.get('rim.RL') : 0) ?? 0).toBeGreaterThan(1);
  });

  test('one reading less than the fewest of the whole recipe proves nothing, wherever it is taken away', () => {
    const design = designOfTolerance(3.2, 0.11);
    const answer = fewest(design);
    if (answer.outcome !== 'found') throw new Error(JSON.stringify(answer));
    for (const [key, times] of answer.plan) {
      const fewer = new Map([...answer.plan, [key, times - 1]]);
      const proofs = whatItProves(design, fewer);
      expect(proofs === undefined || proofs.some(({ outcome }) => outcome !== 'proves'), key).toBe(true);
    }
  });

  test('under simple acceptance the barest plan will do', () => {
    const design = designOfTolerance(0.5, 0.01, 'simple');
    expect(fewest(design)).toMatchObject({ outcome: 'found', cost: 25 });
  });

  test('tighter tolerances never take fewer readings', () => {
    let before = 0;
    for (const mm of [6, 3.5, 3.3]) {
      const answer = fewest(designOfTolerance(mm, 0.2));
      const cost = answer.outcome === 'found' ? answer.cost : Number.POSITIVE_INFINITY;
      expect(cost).toBeGreaterThanOrEqual(before);
      before = cost;
    }
    expect(before).toBeGreaterThan(27);
  });
});

describe('when no number of readings does', () => {
  test('2 mm to the side by careful work: where the hubs are remains, and it is named', () => {
    const answer = fewest(designOfTolerance(2, 0.5));
    if (answer.outcome !== 'never') throw new Error(JSON.stringify(answer));
    expect(answer.target).toEqual({ station: 'centre', coordinate: 'left' });
    expect(answer.limits[0]?.name).toBe('hubDrops');
    expect(1.645 * answer.bestU).toBeGreaterThan(2 * 2);
    expect(answer.limits.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  });

  const only = (coordinate: 'ahead' | 'left' | 'up', mm: number) => {
    const station = stationWith(mm, 5);
    const free = (['ahead', 'left', 'up'] as const).filter((each) => each !== coordinate);
    return { ...station, free };
  };

  test('each shared error is named where it is what remains', () => {
    const named = (change: Partial<typeof EQUIPMENT>, coordinate: 'ahead' | 'left' | 'up', mm: number) => {
      const equipment = { ...EQUIPMENT, ...change };
      const answer = fewest(designFor(setUpOf({ stations: [only(coordinate, mm)], equipment })));
      return answer.outcome === 'never' ? answer.limits[0]?.name : answer.outcome;
    };
    const face = { ...EQUIPMENT.fixture, face: { ...EQUIPMENT.fixture.face, uMm: 3 } };
    expect(named({ fixture: face }, 'ahead', 3)).toBe('faceCentre');
    expect(named({ fixture: face }, 'up', 0.5)).toBe('heightTape');
    const sideArms = { left: { mm: 280, uMm: 6 }, right: { mm: 280, uMm: 6 } };
    expect(named({ sideArms }, 'left', 4)).toBe('sideArms');
  });

  test('a hook and a scale of a poor tape', () => {
    const instruments = [{ id: 't', kind: 'tape', accuracyClass: 'III', resolution: 1, hook: true }] as const;
    const equipment = { ...EQUIPMENT, instruments };
    const far = only('ahead', 2.5);
    const station = { ...far, ahead: { ...far.ahead, value: 9000 } };
    const answer = fewest(designFor(setUpOf({ stations: [station], equipment, instruments: { tape: 't' } })));
    expect(answer).toMatchObject({ outcome: 'never', target: { coordinate: 'ahead' } });
    const names = answer.outcome === 'never' ? answer.limits.slice(0, 3).map(({ name }) => name) : [];
    expect(names).toContain('tapeScale');
  });

  test('between what bounds allow and what no number does lies "too many"', () => {
    const design = designOfTolerance(3, 0.5);
    const once = fewest(design, boundsOf(design, {}));
    expect(once).toEqual({ outcome: 'tooMany', target: { station: 'centre', coordinate: 'left' } });
  });

  test('every outcome has a sentence without a sign', () => {
    const { laid } = designOfTolerance(3, 0.5);
    const all = [
      ...fewestSentences(laid, fewest(designOfTolerance(3.5, 0.12))),
      ...fewestSentences(laid, fewest(designOfTolerance(2, 0.5))),
      ...fewestSentences(laid, { outcome: 'tooMany', target: { station: 'centre', coordinate: 'left' } }),
      ...fewestSentences(laid, { outcome: 'blocked', readingIds: ['base.L'] }),
    ];
    expect(all.length).toBeGreaterThan(4);
    for (const sentence of all) expect(wordFaults(sentence)).toEqual([]);
    expect(all.join('\n')).toMatch(
      /No number of drops and repeats proves 3\.0 mm to the car's left or right\. Plumbing the hubs/,
    );
  });
});

test('a station that judges nothing needs the barest plan', () => {
  const free = ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const;
  const design = designFor(setUpOf({ stations: [{ ...CENTRE, free }] }));
  expect(fewest(design)).toMatchObject({ outcome: 'found', cost: 25 });
  expect(whatItProves(design, planWith(design))).toEqual([]);
});
