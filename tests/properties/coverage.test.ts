/**
 * The 95 % interval covers the truth 95 times in 100. Here 600 random jobs (seeds 1 to 600), with the limits that so few leave;
 * the full count of 20,000 is `npm run bench -- --only coverage`, whose kept result is held to 94.3 to 95.7 % below.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { COORDINATES } from '../../core/frames.ts';
import { COVERAGE_STUDY } from '../bench/coverage.ts';
import { coverageJob, coverageOf, measuredInput } from '../simulation/coverageJobs.ts';

const JOBS = 600;

describe(`${JOBS} random jobs of seeds 1 to ${JOBS}`, () => {
  const found = coverageOf(1, JOBS);
  // Binomial: five standard deviations of a share of 0.95 leave a false alarm of 1 in 300,000 for six coordinates.
  const margin = 5 * Math.sqrt((0.95 * 0.05) / JOBS);

  test.each(COORDINATES)('%s is covered as often as stated', (coordinate) => {
    expect(Math.abs(found.covered[coordinate] / JOBS - 0.95)).toBeLessThan(margin);
  });

  test.each(COORDINATES)('the error of %s has the spread it is said to have, and no bias', (coordinate) => {
    // Relative standard deviation of a spread 1 / root 1200; u of few degrees of freedom widens it by up to 5 %.
    expect(found.normalisedSpread[coordinate]).toBeGreaterThan(1 - 5 / Math.sqrt(2 * JOBS));
    expect(found.normalisedSpread[coordinate]).toBeLessThan(1.05 + 5 / Math.sqrt(2 * JOBS));
    expect(Math.abs(found.normalisedMean[coordinate])).toBeLessThan(5 / Math.sqrt(JOBS));
  });

  test('the global test fails in about 1 of 20', () => {
    expect(Math.abs(found.inconsistent / JOBS - 0.05)).toBeLessThan(5 * Math.sqrt((0.05 * 0.95) / JOBS));
  });
});

test('a job of a seed is always the same, and jobs differ', () => {
  const inputOf = (seed: number) => {
    const { job, draws } = coverageJob(seed);
    return measuredInput(job, draws);
  };
  expect(inputOf(5)).toEqual(inputOf(5));
  expect(inputOf(5)).not.toEqual(inputOf(6));
});

describe('the kept result of the full count', () => {
  const kept = JSON.parse(readFileSync(join('tests', 'results', 'coverage.json'), 'utf8')) as {
    readonly commit: string;
    readonly results: readonly {
      readonly jobs: number;
      readonly coordinates: readonly { readonly coordinate: string; readonly covered: number }[];
    }[];
  };
  const [result] = kept.results;

  test('is of 20,000 jobs', () => {
    expect(kept.commit).toMatch(/^[0-9a-f]{40}$/);
    expect(result?.jobs).toBe(COVERAGE_STUDY.jobs);
    expect(result?.coordinates.map(({ coordinate }) => coordinate)).toEqual([...COORDINATES]);
  });

  test.each(COORDINATES)('%s: between 94.3 and 95.7 %%', (coordinate) => {
    const covered = result?.coordinates.find((each) => each.coordinate === coordinate)?.covered ?? Number.NaN;
    expect(covered).toBeGreaterThanOrEqual(0.943);
    expect(covered).toBeLessThanOrEqual(0.957);
  });
});
