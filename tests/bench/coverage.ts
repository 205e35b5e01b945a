/**
 * `npm run bench -- --only coverage`: 20,000 random jobs, each measured by a simulated person and solved from its readings.
 * The 95 % interval of every coordinate should hold the truth 95 times in 100. Seeds 1000 to 20999.
 */
import { COORDINATES } from '../../core/frames.ts';
import { coverageOf } from '../simulation/coverageJobs.ts';
import { type Study, table } from './study.ts';

export const COVERAGE_STUDY = { seed: 1000, jobs: 20_000, least: 0.943, most: 0.957 } as const;

/** Runs the study; about two minutes on a quiet machine. */
export async function studyCoverage(): Promise<Study> {
  const { seed, jobs, least, most } = COVERAGE_STUDY;
  const found = coverageOf(seed, jobs);
  const shares = COORDINATES.map((coordinate) => ({
    coordinate,
    covered: found.covered[coordinate] / jobs,
    spreadOverU: found.normalisedSpread[coordinate],
    meanOverU: found.normalisedMean[coordinate],
  }));
  const percent = (share: number): string => `${(100 * share).toFixed(2)} %`;
  return {
    lines: [
      `${jobs} random jobs, seeds ${seed} to ${seed + jobs - 1}; how often the 95 % interval held the truth:`,
      ...table([
        ['coordinate', 'covered', 'spread / u', 'mean / u'],
        ...shares.map((s) => [
          s.coordinate,
          percent(s.covered),
          s.spreadOverU.toFixed(4),
          s.meanOverU.toFixed(4),
        ]),
      ]),
      `global test failed in ${percent(found.inconsistent / jobs)} of them`,
    ],
    results: [{ seed, jobs, level: 0.95, inconsistent: found.inconsistent, coordinates: shares }],
    aims: shares.map(({ coordinate, covered }) => ({
      what: `${coordinate}: between ${percent(least)} and ${percent(most)}`,
      met: covered >= least && covered <= most,
    })),
  };
}
