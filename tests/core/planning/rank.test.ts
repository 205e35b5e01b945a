/** The next most valuable reading, against solving every candidate with placement itself. */
import { describe, expect, test } from 'vitest';
import { predict } from '../../../core/planning/predict.ts';
import { planOfReadings, rankNext } from '../../../core/planning/rank.ts';
import { planOnce } from '../../../core/planning/recipes.ts';
import { nextSentence } from '../../../core/planning/sentences.ts';
import { trueReadings } from '../../../core/rehearsal/trueBay.ts';
import { answerOf, coordinateOf } from '../placement/answers.ts';
import { asReadings, CENTRE, inputOf, SQUARE } from '../placement/trueLayout.ts';
import { designFor, planWith, predictedOf, setUpOf, stationWith } from './setUps.ts';

const TIGHT = setUpOf({ stations: [stationWith(4, 0.5)] });

function ranked(design = designFor(TIGHT), plan = planWith(design)) {
  const ranking = rankNext(design, plan);
  if (ranking.state !== 'ranked') throw new Error(`nothing ranked: ${ranking.needed}`);
  return ranking;
}

describe('the next reading', () => {
  test('the tightest coordinate decides, and a front hub dropped again gains most', () => {
    const { deciding, candidates } = ranked();
    expect(deciding).toMatchObject({ station: 'centre', coordinate: 'left' });
    expect(candidates[0]).toMatchObject({ key: 'drop.FL', times: 2 });
    expect(candidates[1]?.key).toBe('drop.FR');
    expect(candidates[0]?.fall).toBeGreaterThan(3 * (candidates[4]?.fall ?? 0));
  });

  test('brute force: every candidate solved by placement from perfect readings gives the same u', () => {
    const layout = { ...SQUARE, beyondAhead: 1200, beyondBehind: 1200 };
    const read = inputOf(layout, [CENTRE]);
    const u = (readings = read.readings): number => coordinateOf(answerOf({ ...read, readings }), 'left').u;
    const { deciding, candidates } = ranked();
    expect(deciding.u / u()).toBeCloseTo(1, 6);
    const falls = candidates.map(({ key, uAfter, fall }) => {
      const again = read.readings.filter((each) => each.id === key && each.purpose === 'proof');
      expect(again).toHaveLength(1);
      const solved = u([...read.readings, ...again.map((each) => ({ ...each, ref: `${each.ref}/2` }))]);
      expect(uAfter / solved, key).toBeCloseTo(1, 6);
      return { key, fall, solvedFall: u() - solved };
    });
    expect(falls).toHaveLength(27);
    for (const [i, { solvedFall }] of falls.entries()) {
      expect(solvedFall).toBeGreaterThanOrEqual((falls[i + 1]?.solvedFall ?? 0) - 1e-7);
    }
  });

  test('brute force on the design: the order is that of predicting each anew, from any plan', () => {
    const design = designFor(TIGHT);
    const plan = planWith(design, { 'drop.FL': 4, 'drop.FR': 3, 'bar.diagLR': 2, 'diagonal.RL': 0 });
    const { deciding, candidates } = ranked(design, plan);
    const before = predictedOf(design, plan, deciding.coordinate).u;
    for (const { key, times, uAfter, UAfter, fall } of candidates) {
      expect(times).toBe((plan.get(key) ?? 0) + 1);
      const after = predictedOf(design, new Map([...plan, [key, times]]), deciding.coordinate);
      expect(uAfter).toBeCloseTo(after.u, 10);
      expect(UAfter).toBeCloseTo(after.U, 10);
      expect(fall).toBeCloseTo(before - after.u, 10);
    }
    expect(candidates.find(({ key }) => key === 'diagonal.RL')?.times).toBe(1);
  });

  test('what is read as often as anybody would take it is no candidate any more', () => {
    const design = designFor(TIGHT);
    const { candidates } = ranked(design, planWith(design, { 'drop.FL': 6 }));
    expect(candidates.map(({ key }) => key)).not.toContain('drop.FL');
    expect(candidates[0]?.key).toBe('drop.FR');
  });

  test('the coordinate that decides follows the tolerances', () => {
    const { permitted: _none, ...left } = CENTRE.left;
    const station = { ...stationWith(10, 0.15), left };
    expect(ranked(designFor(setUpOf({ stations: [station] }))).deciding.coordinate).toBe('yaw');
    const free = { ...stationWith(10, 0.12), free: ['yaw', 'roll', 'left', 'ahead', 'up'] } as const;
    const { deciding, candidates } = ranked(designFor(setUpOf({ stations: [free] })));
    expect(deciding.coordinate).toBe('pitch');
    expect(candidates[0]?.key).toBe('fixture.pitch');
  });

  test('under simple acceptance what is known worst against its tolerance decides', () => {
    const station = stationWith(4, 0.5);
    expect(
      ranked(designFor(setUpOf({ stations: [station], decisionRule: 'simple' }))).deciding.coordinate,
    ).toBe('left');
  });

  test('while something is open, the readings that are needed come first, in walking order', () => {
    const design = designFor(TIGHT);
    const numbers = trueReadings(SQUARE, TIGHT.equipment);
    const readings = asReadings(numbers, ['drop.RR', 'base.L', 'bar.sameL', 'bar.diagRL', 'target.height']);
    expect(rankNext(design, planOfReadings(readings))).toEqual({
      state: 'undetermined',
      needed: ['base.L', 'drop.RR', 'target.height', 'bar.sameL', 'bar.diagRL'],
    });
  });

  test('readings are counted by slot; controls and guides are no proof', () => {
    const once = asReadings(trueReadings(SQUARE, TIGHT.equipment));
    const plan = planOfReadings([...once, ...once.filter(({ id }) => id === 'drop.FL')]);
    expect(plan.get('drop.FL')).toBe(2);
    expect(plan.get('bar.sameL')).toBe(1);
    expect([...plan.keys()].some((key) => key.includes('!'))).toBe(false);
    const design = designFor(TIGHT);
    expect(predict(design, plan).ok).toBe(true);
    expect(planOnce(design.laid.slots).size).toBe(27);
  });

  test('the sentence names the reading and both U', () => {
    const ranking = ranked();
    const [first] = ranking.candidates;
    if (first === undefined) throw new Error('no candidate');
    expect(nextSentence(designFor(TIGHT).laid, ranking, first)).toMatch(
      /^drop of the car's left front hub: U falls from 4\.\d\d mm to 4\.\d\d mm$/,
    );
  });
});
