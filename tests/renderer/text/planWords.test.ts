import { describe, expect, test } from 'vitest';
import { enoughOf, jobPlan } from '../../../core/job/jobPlan.ts';
import { placementInput } from '../../../core/job/solve.ts';
import type { PermittedDeviation } from '../../../core/placement/requirement.ts';
import { invariant } from '../../../core/result.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { placementView } from '../../../renderer/state/placementView.ts';
import { planKey } from '../../../renderer/state/planAhead.ts';
import { enoughWords, noPlanWords, planWords } from '../../../renderer/text/planWords.ts';
import { cameraOf, heldAfter, readingIndex } from '../demoHeld.ts';

const held = heldAfter(readingIndex('bar.sameL'));
const camera = cameraOf(held);
const input = placementInput(held.job, camera);
const { answer } = placementView(held.job, camera);
invariant(input.ok && answer.ok, 'solved');
const [first, ...rest] = input.value.stations;
invariant(first !== undefined, 'a station');

function wordsWith(permitted: PermittedDeviation | undefined) {
  invariant(input.ok && answer.ok && first !== undefined, 'solved');
  const { permitted: _own, ...left } = first.left;
  const station = { ...first, left: permitted === undefined ? left : { ...left, permitted } };
  const plan = jobPlan({ ...input.value, stations: [station] }, answer.value.vehicle);
  invariant(plan.ok, 'planned');
  return { plan: plan.value, words: planWords(plan.value) };
}
const limit = (mm: number): PermittedDeviation => ({ lower: -mm, upper: mm, stated: true });

describe('a plan in words', () => {
  test('everything can be proven: one row a coordinate, nothing open', () => {
    const { words } = wordsWith(limit(10));
    expect(words.head).toBe('These instruments can prove every limit.');
    expect(words.kind).toBe('proven');
    expect(words.rows.map((row) => row.coordinate)).toEqual(['ahead', 'left', 'up', 'yaw', 'pitch', 'roll']);
    expect(words.rows[1]?.note).toMatch(/^U \d\.\d mm, limit 10\.0 mm$/);
    expect(words.open).toEqual([]);
  });

  test('what cannot be proven is said first, with what would prove it', () => {
    const { words } = wordsWith(limit(2.9));
    expect(words.head).toMatch(/Side/);
    expect(words.kind).not.toBe('proven');
    expect(words.open).toHaveLength(2);
    expect(words.open[1]).toMatch(/best work, would prove 2\.9 mm/);
    const hopeless = wordsWith(limit(0.1)).words;
    expect(hopeless.head).toBe('These instruments cannot prove: Side.');
    expect(hopeless.kind).toBe('outside');
    expect(hopeless.open[1]).toMatch(/^Nothing this program knows/);
  });

  test('a coordinate without a limit has no row; a limit on one side has no amount', () => {
    expect(wordsWith(undefined).words.rows.map((row) => row.coordinate)).not.toContain('left');
    expect(wordsWith({ upper: 3, stated: true }).words.rows[1]?.note).toMatch(/limit 3\.0 mm/);
    expect(wordsWith({ upper: 0, stated: true }).words.rows[1]?.note).toMatch(/a limit on one side/);
  });

  test('says how many readings it takes, and which of them more than once', () => {
    const { plan } = wordsWith(limit(10));
    expect(enoughWords(plan.design.laid, enoughOf(plan) ?? null)[0]).toMatch(
      /^All of it with \d+ readings, about \d+ minutes\.$/,
    );
    const tight = wordsWith(limit(4)).plan;
    const lines = enoughWords(tight.design.laid, enoughOf(tight) ?? null);
    if (tight.proofs.some(({ proof }) => proof.outcome === 'moreWould'))
      expect(lines.join()).toMatch(/: \d times/);
    expect(enoughWords(plan.design.laid, null)).toEqual([]);
  });

  test('no signed number and no banned word in any of it', () => {
    for (const each of [limit(10), limit(2.9), limit(0.1)]) {
      const { plan, words } = wordsWith(each);
      const all = [words.head, words.car, ...words.open, ...words.rows.map((row) => row.note)];
      expect([...all, ...enoughWords(plan.design.laid, enoughOf(plan) ?? null)].flatMap(wordFaults)).toEqual(
        [],
      );
    }
    expect(noPlanWords({ code: 'planning/otherBody' })).toMatch(/bar fixture/);
  });
});

describe('a plan is counted once for what it depends on', () => {
  const { vehicle } = answer.value;

  test('another reading or a millimetre of wheelbase makes no new plan; another limit or work does', () => {
    const key = planKey(input.value, vehicle);
    expect(planKey({ ...input.value, readings: [] }, vehicle)).toBe(key);
    expect(planKey(input.value, undefined)).not.toBe(key);
    const equipment = { ...input.value.equipment, work: 'best' as const };
    expect(planKey({ ...input.value, equipment }, vehicle)).not.toBe(key);
    expect(planKey({ ...input.value, stations: [first, ...rest].slice(0, 1) }, vehicle)).not.toBe(key);
  });
});
