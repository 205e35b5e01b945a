import { describe, expect, test } from 'vitest';
import { radFromDeg } from '../../../core/units.ts';
import { centrelineFromHubs, lineFromRearAxle } from '../../../core/vehicle/datumLine.ts';
import { independentPlaces } from '../../../core/vehicle/knownPlaces.ts';
import { type SideMeans, sideProof, sideSentences } from '../../../core/vehicle/sideProof.ts';
import { say, wordFaults } from '../../../core/words/index.ts';

const at = (xMm: number, yMm: number) => ({ xMm, yMm, uXMm: 1.5, uYMm: 1 });
const HUBS = { FL: at(2600, 750), FR: at(2600, -750), RL: at(0, 750), RR: at(0, -750) };

function rearLine() {
  const found = lineFromRearAxle(independentPlaces(['RL', 'RR'], HUBS), 0);
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
}

const DEMAND = { aheadMm: 5000, toleranceMm: 10, otherUMm: 1 };
const MEANS: SideMeans = {
  rearMidpointUMm: Math.SQRT1_2,
  frontHubs: { frontMidpointUMm: Math.SQRT1_2, wheelbaseMm: 2600 },
  headings: { uRad: radFromDeg(0.03) },
  alignmentReport: { uRad: radFromDeg(0.01) },
};

describe('whether a line can prove a side position', () => {
  test('the rear axle alone, 5 m ahead: U is 14.4 mm against 10', () => {
    const proof = sideProof(rearLine(), DEMAND, MEANS);
    // 1.5 mm along at either hub over 1500 mm is 1.414 mrad, 7.07 mm at 5 m; origin 0.71; target 1.
    const u = Math.hypot((5000 * 1.5 * Math.SQRT2) / 1500, Math.SQRT1_2, 1);
    expect(proof.asFound.uMm).toBeCloseTo(u, 6);
    expect(proof.asFound.UMm).toBeCloseTo(2 * u, 3);
    expect(proof.asFound.canProve).toBe(false);
  });

  test('what would: front hubs, a report on top of them, headings; best first, by hand', () => {
    const { others } = sideProof(rearLine(), DEMAND, MEANS);
    const share = 5000 / 2600;
    const hubs = Math.SQRT1_2 * Math.hypot(1 - share, share);
    const expected = [
      ['frontHubs', Math.hypot(hubs, 1)],
      ['alignmentReport', Math.hypot(hubs, 5000 * radFromDeg(0.01), 1)],
      ['headings', Math.hypot(Math.SQRT1_2, 5000 * radFromDeg(0.03), 1)],
    ] as const;
    expect(others.map((o) => o.way)).toEqual(expected.map(([way]) => way));
    expected.forEach(([, u], i) => {
      expect(others[i]?.uMm).toBeCloseTo(u, 9);
      expect(others[i]?.canProve).toBe(true);
    });
  });

  test('the prediction for front hubs is what four drops then give', () => {
    const line = centrelineFromHubs(independentPlaces(['FL', 'FR', 'RL', 'RR'], HUBS));
    if (!line.ok) throw new Error(line.error.code);
    const predicted = sideProof(rearLine(), DEMAND, MEANS).others.find((o) => o.way === 'frontHubs');
    expect(sideProof(line.value, DEMAND, MEANS).asFound.uMm).toBeCloseTo(predicted?.uMm ?? 0, 6);
  });

  test('said plainly, first that it cannot, then what can', () => {
    const sentences = sideSentences(sideProof(rearLine(), DEMAND, MEANS)).map(({ key, values }) =>
      say(key, values),
    );
    expect(sentences[0]).toBe(
      'The rear axle alone cannot prove the side position 5000 mm ahead: U there is 14.4 mm against 10.0 mm.',
    );
    expect(sentences).toHaveLength(4);
    expect(sentences.flatMap((text) => wordFaults(text))).toEqual([]);
  });

  test('nothing at hand is good enough, or nothing is at hand', () => {
    const tight = { ...DEMAND, toleranceMm: 1.5 };
    for (const means of [MEANS, { rearMidpointUMm: 0.7 }]) {
      const keys = sideSentences(sideProof(rearLine(), tight, means)).map(({ key }) => key);
      expect(keys).toEqual(['datum.cannotProve.rearAxle', 'datum.nothingProves']);
    }
  });

  test('near by, or with room enough, it can; in inches too', () => {
    const sentences = sideSentences(sideProof(rearLine(), { ...DEMAND, toleranceMm: 25.4 }, MEANS), 'in');
    expect(sentences.map(({ key }) => key)).toEqual(['datum.canProve']);
    expect(sentences[0]?.values.tolerance).toBe('1.00 in');
    expect(sideProof(rearLine(), { ...DEMAND, aheadMm: 500 }, MEANS).asFound.canProve).toBe(true);
  });

  test('two u equal to the tolerance can just be judged', () => {
    const u = sideProof(rearLine(), DEMAND, MEANS).asFound.uMm;
    expect(sideProof(rearLine(), { ...DEMAND, toleranceMm: 2 * u }, MEANS).asFound.canProve).toBe(true);
    expect(sideProof(rearLine(), { ...DEMAND, toleranceMm: 2 * u - 1e-6 }, MEANS).asFound.canProve).toBe(
      false,
    );
  });
});
