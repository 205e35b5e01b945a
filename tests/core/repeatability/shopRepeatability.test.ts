import { describe, expect, test } from 'vitest';
import { crossedAnova } from '../../../core/repeatability/crossedAnova.ts';
import {
  acrossPeople,
  pooledStudies,
  repeatabilityPart,
  shopRepeatability,
} from '../../../core/repeatability/shopRepeatability.ts';
import { crossedStudy } from '../../../core/repeatability/study.ts';
import { readingUncertainty } from '../../../core/uncertainty/readingUncertainty.ts';
import { drawsFrom } from '../../simulation/draws.ts';

const DEFAULT = { s: 0.4, dof: 20 };

/** A crossed study of people whose means spread by `people` and who repeat to `repeat`, over parts that spread by 5. */
function simulated(seed: number, size: readonly [number, number, number], people: number, repeat: number) {
  const draws = drawsFrom(seed);
  const [parts, persons, trials] = size;
  const ofPerson = Array.from({ length: persons }, () => people * draws.normal());
  const study = crossedStudy(
    Array.from({ length: parts }, () => {
      const part = 5 * draws.normal();
      return ofPerson.map((off) =>
        Array.from({ length: trials }, () => part + off + repeat * draws.normal()),
      );
    }),
  );
  if (!study.ok) throw new Error(study.error.code);
  return crossedAnova(study.value);
}

describe('pooling', () => {
  test('two studies weigh by their degrees of freedom', () => {
    const { s, dof } = pooledStudies([
      { s: 0.3, dof: 10 },
      { s: 0.6, dof: 30 },
    ]);
    expect(dof).toBe(40);
    expect(s).toBeCloseTo(Math.sqrt((10 * 0.09 + 30 * 0.36) / 40), 12);
    expect(pooledStudies([])).toEqual({ s: 0, dof: 0 });
    expect(() => pooledStudies([{ s: -1, dof: 3 }])).toThrow(/positive/);
  });

  test('below 20 degrees of freedom the default stands, from 20 on the studies', () => {
    expect(shopRepeatability([{ s: 0.3, dof: 19 }], DEFAULT)).toEqual({ ...DEFAULT, from: 'default' });
    expect(shopRepeatability([{ s: 0.3, dof: 20 }], DEFAULT)).toEqual({ s: 0.3, dof: 20, from: 'studies' });
    const two = shopRepeatability(
      [
        { s: 0.3, dof: 12 },
        { s: 0.3, dof: 12 },
      ],
      DEFAULT,
    );
    expect(two.from).toBe('studies');
    expect(two.s).toBeCloseTo(0.3, 12);
    expect(shopRepeatability([], DEFAULT).from).toBe('default');
  });

  test('readings that never differed say nothing of the spread below the step', () => {
    expect(shopRepeatability([{ s: 0, dof: 50 }], DEFAULT).from).toBe('default');
  });
});

describe('into the uncertainty of a reading', () => {
  test('its degrees of freedom arrive, and repeats lower it by the root of their number', () => {
    const shop = shopRepeatability([{ s: 0.36, dof: 40 }], DEFAULT);
    const once = readingUncertainty('base.L', 0, { repeatability: repeatabilityPart(shop, 1) });
    const four = readingUncertainty('base.L', 0, { repeatability: repeatabilityPart(shop, 4) });
    expect(once).toMatchObject({ u: 0.36, dof: 40 });
    expect(four.u).toBeCloseTo(0.18, 12);
    expect(() => repeatabilityPart(shop, 0)).toThrow(/reading/);
  });

  test('a study of 5 set-ups, 3 people, 3 trials is enough: 30 degrees of freedom or more, and the spread it was made with', () => {
    let squares = 0;
    const studies = 200;
    for (let seed = 1; seed <= studies; seed++) {
      const { pooledRepeatability } = simulated(seed, [5, 3, 3], 0.3, 0.5);
      expect(pooledRepeatability.dof).toBeGreaterThanOrEqual(30);
      squares += pooledRepeatability.s * pooledRepeatability.s;
      expect(shopRepeatability([pooledRepeatability], DEFAULT).from).toBe('studies');
    }
    // Relative standard deviation of the mean of 200 variances of 30 degrees of freedom: 1.8 %.
    expect(Math.abs(squares / studies / 0.25 - 1)).toBeLessThan(0.08);
  });
});

describe('when any of the people may read', () => {
  test('the people come in, with the few degrees of freedom that few people have', () => {
    const anova = simulated(4, [10, 3, 3], 1, 0.2);
    const across = acrossPeople(anova, 10, 3);
    expect(across.s).toBeCloseTo(anova.measuring.sigma, 12);
    expect(across.s).toBeGreaterThan(2 * anova.repeatability.sigma);
    expect(across.dof).toBeGreaterThan(1.9);
    expect(across.dof).toBeLessThan(4);
  });

  test('on average over many studies it is what people and readings spread together', () => {
    let squares = 0;
    const studies = 400;
    for (let seed = 1; seed <= studies; seed++) {
      const { s } = acrossPeople(simulated(seed, [6, 8, 3], 0.4, 0.3), 6, 3);
      squares += s * s;
    }
    expect(Math.abs(squares / studies / 0.25 - 1)).toBeLessThan(0.1);
  });

  test('people who do not differ add nothing, and keep the readings their degrees of freedom', () => {
    const same = Array.from({ length: 40 }, (_, seed) => simulated(seed + 1, [6, 3, 3], 0, 0.5)).find(
      ({ reproducibility, interaction }) => reproducibility.variance === 0 && interaction.variance === 0,
    );
    if (same === undefined) throw new Error('none of forty studies without a difference shows none');
    expect(acrossPeople(same, 6, 3)).toEqual(same.pooledRepeatability);
  });
});
