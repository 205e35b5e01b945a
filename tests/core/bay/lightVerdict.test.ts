import { describe, expect, test } from 'vitest';
import { type LightFound, type LightLimits, lightFound } from '../../../core/bay/lightVerdict.ts';

const FIVE = [520, 480, 412, 600, 588] as const;

function judged(limits: LightLimits, lux: readonly number[] = FIVE, repeatability = 0.02): LightFound {
  const found = lightFound({ lux, meterClass: 'B', repeatability }, limits);
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
}

describe('the light at the target', () => {
  test('u of the mean: the class whole, the readings averaged', () => {
    const { mean } = judged({});
    // Class B: 10 % / sqrt 3 of 520; readings: 2 % each, root of squares over five.
    const own = (0.02 * Math.sqrt(520 ** 2 + 480 ** 2 + 412 ** 2 + 600 ** 2 + 588 ** 2)) / 5;
    expect(mean.value).toBe(520);
    expect(mean.u).toBeCloseTo(Math.hypot(30.0222, own), 3);
    expect(mean.decision).toBeUndefined();
  });

  test('the class drops out of the uniformity', () => {
    const { uniformity } = judged({ leastUniformity: 0.6 });
    expect(uniformity.value).toBeCloseTo(0.792307692, 9);
    // d(min / mean) / d(reading): (1 - 0.7923 / 5) / 520 for the darkest, -0.7923 / 5 / 520 for the others.
    const share = 0.792307692 / 5 / 520;
    const others = [520, 480, 600, 588].map((lux) => 0.02 * lux * share);
    expect(uniformity.u).toBeCloseTo(Math.hypot(0.02 * 412 * (1 / 520 - share), ...others), 9);
    expect(uniformity.u).toBeLessThan(0.016);
    expect(uniformity.decision?.verdict).toBe('proven');
    // A meter of the worst class says the same of the ratio.
    const worse = lightFound({ lux: FIVE, meterClass: 'C', repeatability: 0.02 }, { leastUniformity: 0.6 });
    expect(worse.ok && worse.value.uniformity.u).toBe(uniformity.u);
  });

  test('verdicts: 520 lx with u 30.5 is proven over 300, within over 500, beyond over 550, outside over 600', () => {
    const over = (leastMean: number) => judged({ leastMean }).mean.decision;
    expect(over(300)?.verdict).toBe('proven');
    expect(over(500)).toMatchObject({ verdict: 'notProven', wording: 'within' });
    expect(over(550)).toMatchObject({ verdict: 'notProven', wording: 'beyond' });
    expect(over(600)?.verdict).toBe('outside');
  });

  test('limits above: too bright on average, or at one place', () => {
    const { mean, highest, lowest } = judged({ mostMean: 700, mostHighest: 500, leastLowest: 200 });
    expect(mean.decision?.verdict).toBe('proven');
    expect(highest.value).toBe(600);
    expect(highest.decision?.verdict).toBe('outside');
    expect(lowest.decision?.verdict).toBe('proven');
  });

  test('five readings unless the procedure asks for another number', () => {
    const four = { lux: FIVE.slice(0, 4), meterClass: 'B', repeatability: 0.02 } as const;
    expect(lightFound(four, {})).toEqual({
      ok: false,
      error: { code: 'bay/tooFewLightReadings', count: 4, least: 5 },
    });
    expect(lightFound(four, { leastReadings: 4 }).ok).toBe(true);
    expect(lightFound({ ...four, lux: [] }, {})).toMatchObject({ error: { code: 'bay/noLightReadings' } });
    expect(lightFound({ ...four, lux: [1, 2, -3, 4, 5] }, {})).toMatchObject({
      error: { code: 'bay/badLightReading', index: 2 },
    });
  });

  test('in the dark nothing divides by nothing', () => {
    const { uniformity } = judged({ leastUniformity: 0.6 }, [0, 0, 0, 0, 0]);
    expect(uniformity).toMatchObject({ value: 0, u: 0 });
    expect(uniformity.decision?.verdict).toBe('outside');
  });

  test('more readings of the same light never raise u of the mean', () => {
    const us = [5, 6, 9, 20].map(
      (n) =>
        judged(
          {},
          Array.from({ length: n }, () => 500),
          0.05,
        ).mean.u,
    );
    us.slice(1).forEach((u, i) => {
      expect(u).toBeLessThan(us[i] ?? 0);
    });
  });
});
