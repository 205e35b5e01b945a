/** What a plan proves at the best place, by each rule, and what it says in words. */
import { describe, expect, test } from 'vitest';
import type { PermittedDeviation } from '../../../core/placement/requirement.ts';
import { limitName, limitsOf } from '../../../core/planning/limits.ts';
import { aimOf, provable, whatItProves } from '../../../core/planning/proves.ts';
import { proofSentence } from '../../../core/planning/sentences.ts';
import { decide } from '../../../core/uncertainty/decision.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { CENTRE } from '../placement/trueLayout.ts';
import { designFor, planWith, predictedOf, setUpOf, stationWith } from './setUps.ts';

const either = (limit: number): PermittedDeviation => ({ lower: -limit, upper: limit, stated: true });

describe('the best place', () => {
  test('is no deviation for equal limits, the middle for unequal ones', () => {
    expect(aimOf(either(3))).toEqual({ deviation: 0, halfWidth: 3 });
    expect(aimOf({ lower: -2, upper: 10, stated: true })).toEqual({ deviation: 4, halfWidth: 6 });
    expect(aimOf({ lower: 0, upper: 20, stated: true })).toEqual({ deviation: 10, halfWidth: 10 });
  });

  test('with one limit is where the procedure wants it, and without end where that limit is no deviation itself', () => {
    expect(aimOf({ upper: 4, stated: true })).toEqual({ deviation: 0, halfWidth: 4 });
    expect(aimOf({ lower: -4, stated: true })).toEqual({ deviation: 0, halfWidth: 4 });
    expect(aimOf({ lower: 0, stated: true }).halfWidth).toBe(Number.POSITIVE_INFINITY);
    expect(provable({ u: 50, U: 100 }, { lower: 0, stated: true }, 'guarded').proven).toBe(true);
  });

  test('|d| + 1.645 u <= T for the guarded rule, |d| + U <= T for the whole U, |d| <= T for the simple one', () => {
    const three = { u: 1.8, U: 3.6 };
    expect(provable(three, either(3), 'guarded')).toEqual({ proven: true, room: 3 - 1.645 * 1.8 });
    expect(provable({ u: 1.83, U: 3.66 }, either(3), 'guarded').proven).toBe(false);
    expect(provable(three, either(3), 'fullU').proven).toBe(false);
    expect(provable(three, either(3), 'fullU').room).toBeCloseTo(-0.6, 12);
    expect(provable(three, either(3), 'simple')).toEqual({ proven: true, room: 3 });
  });

  test('the room is just what the verdict allows: on its edge proven turns', () => {
    for (const rule of ['guarded', 'fullU', 'simple'] as const) {
      const limits = { lower: -2, upper: 9 };
      const { room } = provable({ u: 1.1, U: 2.3 }, { ...limits, stated: true }, rule);
      for (const way of [-1, 1]) {
        const at = (off: number) => decide(3.5 + way * off, 1.1, limits, rule, 2.3).verdict;
        expect(at(room - 1e-6)).toBe('proven');
        expect(at(room + 1e-6)).not.toBe('proven');
      }
    }
  });
});

describe('what a plan proves', () => {
  const proofs = (toleranceMm: number, work: 'typical' | 'careful' | 'best' = 'careful', times = {}) => {
    const design = designFor(setUpOf({ stations: [stationWith(toleranceMm, 0.5)] }, work));
    return whatItProves(design, planWith(design, times)) ?? [];
  };
  const left = (...args: Parameters<typeof proofs>) =>
    proofs(...args).find(({ coordinate }) => coordinate === 'left');

  test('10 mm by typical work, with the room that is left', () => {
    const proof = left(10, 'typical');
    expect(proof?.outcome).toBe('proves');
    expect(proof?.room).toBeCloseTo(10 - 1.645 * (proof?.u ?? 0), 9);
  });

  test('3 mm to the side is beyond one reading of each by careful work, and within more of them', () => {
    const proof = left(3);
    expect(proof?.outcome).toBe('moreWould');
    expect(proof?.limit.name).toBe('hubDrops');
    expect(
      left(3, 'careful', {
        'drop.FL': 6,
        'drop.FR': 6,
        'drop.RL': 6,
        'drop.RR': 6,
        'bar.diagLR': 4,
        'bar.diagRL': 4,
      })?.outcome,
    ).toBe('proves');
  });

  test('3 mm to the side is beyond any number of readings by typical work: finding the hubs remains', () => {
    const proof = left(3, 'typical');
    expect(proof?.outcome).toBe('cannot');
    expect(proof?.limit.name).toBe('hubDrops');
    expect(1.645 * (proof?.bestU ?? 0)).toBeGreaterThan(2 * 3);
  });

  test('U at best is what a million of each reading would find', () => {
    const design = designFor();
    const many = Object.fromEntries(design.laid.slots.map(({ key }) => [key, 1e6]));
    expect(left(10)?.bestU).toBeCloseTo(predictedOf(design, planWith(design, many), 'left').U, 9);
    expect(left(10)?.bestU ?? 0).toBeLessThan(left(10)?.U ?? 0);
  });

  test('a coordinate without tolerance, or free, is left out', () => {
    const { permitted: _none, ...yaw } = CENTRE.yaw;
    const design = designFor(setUpOf({ stations: [{ ...CENTRE, yaw, free: ['up'] }] }));
    const named = whatItProves(design, planWith(design))?.map(({ coordinate }) => coordinate);
    expect(named).toEqual(['ahead', 'left', 'pitch', 'roll']);
  });

  test('a plan with a hole proves nothing and says so by its absence', () => {
    const design = designFor();
    expect(whatItProves(design, new Map())).toBeUndefined();
  });

  test('under simple acceptance everything can be proven, and the sentence says why', () => {
    const design = designFor(setUpOf({ stations: [stationWith(0.1, 0.001)], decisionRule: 'simple' }));
    const all = whatItProves(design, planWith(design)) ?? [];
    expect(all).toHaveLength(6);
    for (const proof of all) {
      expect(proof.outcome).toBe('proves');
      expect(proofSentence(proof)).toContain('takes nothing off');
    }
  });

  test('sentences name instrument, tolerance and U, and no sign', () => {
    const sentence = (proof: ReturnType<typeof left>) => (proof === undefined ? '' : proofSentence(proof));
    expect(sentence(left(3, 'typical'))).toMatch(
      /^Plumbing the hubs to their marks cannot prove 3\.0 mm to the car's left or right: U is 5\.\d mm at best, however often it is read\. Its part is \d+ %\.$/,
    );
    expect(sentence(left(3))).toMatch(
      /^These readings cannot prove 3\.0 mm to the car's left or right: U is 4\.\d mm\. More drops or repeats would: U is 3\.\d mm at best\./,
    );
    expect(sentence(left(10))).toMatch(
      /^Can be proven: 10\.0 mm to the car's left or right\. U is 4\.\d mm, and the target may stand 6\.\d mm off/,
    );
    for (const work of ['typical', 'careful', 'best'] as const) {
      for (const mm of [1, 3, 5, 10]) {
        for (const proof of proofs(mm, work)) expect(wordFaults(proofSentence(proof))).toEqual([]);
      }
    }
  });

  test('a one-sided limit at no deviation is told as one that can always be kept', () => {
    const station = { ...CENTRE, ahead: { ...CENTRE.ahead, permitted: { lower: 0, stated: true } } };
    const design = designFor(setUpOf({ stations: [station] }));
    const proof = whatItProves(design, planWith(design))?.[0];
    expect(proof?.outcome).toBe('proves');
    expect(proof && proofSentence(proof)).toContain('a limit on one side only');
  });
});

describe('what limits', () => {
  test('shares are summed by the thing behind them, the largest first', () => {
    expect(
      limitsOf([
        { readingId: 'fixture.face', share: 0.3 },
        { readingId: 'drop.FL', share: 0.25 },
        { readingId: 'drop.FR', share: 0.25 },
        { readingId: 'bar.diagLR', share: 0.2 },
      ]),
    ).toEqual([
      { name: 'hubDrops', share: 0.5 },
      { name: 'faceCentre', share: 0.3 },
      { name: 'tapes', share: 0.2 },
    ]);
  });

  test.each([
    ['tape.scale', 'tapeScale'],
    ['tape.hook', 'tapeHook'],
    ['sideArm.left', 'sideArms'],
    ['fixture.bar', 'barLength'],
    ['fixture.pitch', 'inclinometer'],
    ['floor.FL', 'level'],
    ['floor.beyond', 'floor'],
    ['target.height@west', 'heightTape'],
    ['slide.tilt', 'slide'],
    ['toe.RL', 'alignmentReport'],
    ['face', 'tapes'],
  ])('%s is told as %s', (readingId, name) => {
    expect(limitName(readingId)).toBe(name);
  });
});
