import { describe, expect, test } from 'vitest';
import { averageRange } from '../../../core/repeatability/averageRange.ts';
import { componentsOf } from '../../../core/repeatability/components.ts';
import { crossedAnova } from '../../../core/repeatability/crossedAnova.ts';
import { crossedStudy, type Study, type StudyReadings } from '../../../core/repeatability/study.ts';
import { randomFrom } from '../../../core/uncertainty/random.ts';
import { standardNormal } from '../../../core/uncertainty/sampler.ts';

function studyOf(readings: StudyReadings): Study {
  const result = crossedStudy(readings);
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  return result.value;
}

function problem(readings: StudyReadings): unknown {
  const result = crossedStudy(readings);
  return result.ok ? undefined : result.error;
}

describe('what is a crossed study', () => {
  const whole = [
    [
      [1, 2],
      [3, 4],
    ],
    [
      [5, 6],
      [7, 8],
    ],
  ];

  test('two of each will do', () => {
    expect(studyOf(whole)).toMatchObject({ parts: 2, people: 2, trials: 2 });
  });

  test('fewer are refused with their counts', () => {
    expect(problem([])).toEqual({ code: 'repeatability/tooFew', parts: 0, people: 0, trials: 0 });
    expect(problem([[[1, 2]], [[3, 4]]])).toEqual({
      code: 'repeatability/tooFew',
      parts: 2,
      people: 1,
      trials: 2,
    });
    expect(
      problem([
        [[1], [2]],
        [[3], [4]],
      ]),
    ).toMatchObject({ code: 'repeatability/tooFew', trials: 1 });
  });

  test('a missing or an extra reading is named by its place, and nothing is filled in', () => {
    expect(problem([whole[0] ?? [], [[5, 6], [7]]])).toEqual({
      code: 'repeatability/unequal',
      part: 1,
      person: 1,
    });
    expect(problem([whole[0] ?? [], [[5, 6]]])).toEqual({
      code: 'repeatability/unequal',
      part: 1,
      person: 1,
    });
    expect(
      problem([
        whole[0] ?? [],
        [
          [5, 6],
          [7, 8],
          [9, 1],
        ],
      ]),
    ).toEqual({
      code: 'repeatability/unequal',
      part: 1,
      person: 2,
    });
    expect(
      problem([
        whole[0] ?? [],
        [
          [5, 6],
          [7, Number.NaN],
        ],
      ]),
    ).toEqual({
      code: 'repeatability/notANumber',
      part: 1,
      person: 1,
      trial: 1,
    });
  });
});

describe('analysis of variance', () => {
  /** Readings made of known parts: what the analysis should find again. */
  function madeOf(
    sigma: { part: number; person: number; both: number; reading: number },
    seed: number,
  ): Study {
    const normal = standardNormal(randomFrom(seed));
    const [parts, people, trials] = [40, 20, 3];
    const ofPart = Array.from({ length: parts }, () => sigma.part * normal());
    const ofPerson = Array.from({ length: people }, () => sigma.person * normal());
    return studyOf(
      ofPart.map((part) =>
        ofPerson.map((person) => {
          const both = sigma.both * normal();
          return Array.from({ length: trials }, () => 1350 + part + person + both + sigma.reading * normal());
        }),
      ),
    );
  }

  test('finds again what made-up readings were made of', () => {
    const found = crossedAnova(madeOf({ part: 5, person: 2, both: 1, reading: 0.5 }, 11));
    // 40 parts and 20 people fix their own deviations to a tenth and a sixth.
    expect(Math.abs(found.parts.sigma / 5 - 1)).toBeLessThan(0.3);
    expect(Math.abs(found.reproducibility.sigma / 2 - 1)).toBeLessThan(0.45);
    expect(Math.abs(found.interaction.sigma - 1)).toBeLessThan(0.1);
    expect(Math.abs(found.repeatability.sigma - 0.5)).toBeLessThan(0.03);
    expect(found.interactionLine.p).toBeLessThan(1e-10);
    expect(found.pooledLine).toBeUndefined();
  });

  test('without an interaction, pooling is decided by p and nothing else', () => {
    const study = madeOf({ part: 5, person: 2, both: 0, reading: 0.5 }, 12);
    const { p } = crossedAnova(study).interactionLine;
    expect(crossedAnova(study, p - 1e-6).pooledLine).toBeDefined();
    expect(crossedAnova(study, p + 1e-6).pooledLine).toBeUndefined();
    expect(crossedAnova(study, p - 1e-6).pooledRepeatability.dof).toBe(40 * 20 * 2 + 39 * 19);
  });

  test('an offset common to all readings changes nothing, a factor scales the sigmas', () => {
    const readings = [
      [
        [0, 0.25],
        [0.5, 0.25],
      ],
      [
        [2, 2.25],
        [2.5, 2],
      ],
      [
        [1, 0.75],
        [1.5, 1.5],
      ],
    ];
    const moved = (f: (value: number) => number) =>
      crossedAnova(studyOf(readings.map((row) => row.map((cell) => cell.map(f)))));
    const plain = moved((v) => v);
    expect(moved((v) => v + 1024).measuring.sigma).toBeCloseTo(plain.measuring.sigma, 13);
    expect(moved((v) => 25.4 * v).parts.sigma).toBeCloseTo(25.4 * plain.parts.sigma, 11);
    expect(moved((v) => -v).categories).toBe(plain.categories);
  });

  test('readings that never differ: no spread anywhere, no division by nothing', () => {
    const cell = [7, 7];
    const found = crossedAnova(
      studyOf([
        [cell, cell],
        [cell, cell],
      ]),
    );
    expect(found.total.variance).toBe(0);
    expect(found.partLine.f).toBe(0);
    expect(found.measuring.ofTotal).toBe(0);
    expect(found.exactCategories).toBe(Number.POSITIVE_INFINITY);
  });

  test('people who agree exactly on parts that differ: a certain difference, p of 0', () => {
    const found = crossedAnova(
      studyOf([
        [
          [1, 1],
          [1, 1],
        ],
        [
          [2, 2],
          [2, 2],
        ],
      ]),
    );
    expect(found.partLine).toMatchObject({ f: Number.POSITIVE_INFINITY, p: 0 });
    expect(found.repeatability.sigma).toBe(0);
  });
});

describe('components', () => {
  test('variances below nothing are nothing; contributions sum to one, sigmas do not', () => {
    const found = componentsOf({ repeatability: 1, reproducibility: -0.5, interaction: -2, parts: 3 });
    expect(found.reproducibility.variance).toBe(0);
    expect(found.measuring.contribution + found.parts.contribution).toBeCloseTo(1, 14);
    expect(found.measuring.ofTotal + found.parts.ofTotal).toBeGreaterThan(1);
    expect(found.exactCategories).toBeCloseTo(1.41 * Math.sqrt(3), 12);
    expect(found.categories).toBe(2);
  });

  test('never fewer than one class', () => {
    expect(componentsOf({ repeatability: 1, reproducibility: 0, interaction: 0, parts: 0 }).categories).toBe(
      1,
    );
  });
});

describe('average and range', () => {
  test('people closer together than repeatability explains have no reproducibility of their own', () => {
    const result = averageRange(
      studyOf([
        [
          [0, 4],
          [4, 0],
        ],
        [
          [10, 14],
          [14, 10],
        ],
      ]),
    );
    expect(result.ok && result.value.reproducibility.variance).toBe(0);
    expect(result.ok && result.value.repeatability.sigma).toBeCloseTo(4 * 0.8862, 12);
    expect(result.ok && result.value.parts.sigma).toBeCloseTo(10 * Math.SQRT1_2, 12);
  });

  test('studies larger than the constants go are refused, not guessed', () => {
    const cell = [1, 2, 3, 4];
    const result = averageRange(
      studyOf([
        [cell, cell],
        [cell, cell],
      ]),
    );
    expect(result).toEqual({
      ok: false,
      error: { code: 'repeatability/noConstants', parts: 2, people: 2, trials: 4 },
    });
  });
});
