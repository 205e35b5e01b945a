import { expect, test } from 'vitest';
import { demoJob, FIRST } from './demoJob.ts';
import { floorDip, standAt } from './layout.ts';
import { answersAtShows, demoShop } from './solveDemo.ts';

/**
 * The whole way from typed texts to deviations against a layout whose truth is known and was computed apart from the
 * core: over many seeds U must cover the truth about as often as it says (95 %), and the global test must fail about
 * as rarely as it says (5 %). Errors are drawn with the sizes the defaults of careful work state.
 */
const SEEDS = 60;
const DEG = Math.PI / 180;

test(`U covers the truth in about 95 % of ${SEEDS} made-up first stands (seeds 1 to ${SEEDS})`, () => {
  const shop = demoShop();
  const truth = {
    ahead: FIRST.ahead,
    left: FIRST.left,
    up: FIRST.up,
    yaw: FIRST.yaw * DEG,
    pitch: FIRST.pitch * DEG,
    roll: FIRST.roll * DEG,
  };
  // A wave of this floor, the same for every seed: it is no error of reading and the mean has to know it.
  const dip = floorDip(standAt(FIRST));
  expect(Math.abs(dip)).toBeLessThan(1);
  const covered = { ahead: 0, left: 0, up: 0, yaw: 0, pitch: 0, roll: 0 };
  const meanMiss = { ahead: 0, left: 0, up: 0, yaw: 0, pitch: 0, roll: 0 };
  let failedTests = 0;
  for (let seed = 1; seed <= SEEDS; seed += 1) {
    const [first] = answersAtShows(demoJob(seed), shop, 1);
    if (first?.globalTest?.passed !== true) failedTests += 1;
    for (const finding of first?.stations[0]?.coordinates ?? []) {
      const miss = finding.deviation - truth[finding.coordinate];
      if (Math.abs(miss) <= finding.U) covered[finding.coordinate] += 1;
      const known = finding.coordinate === 'up' ? dip : 0;
      meanMiss[finding.coordinate] += (miss - known) / finding.u / SEEDS;
    }
  }
  // Binomial(60, 0.95): 51 or fewer has a probability of 0.2 %; all 60 is allowed.
  for (const count of Object.values(covered)) expect(count).toBeGreaterThanOrEqual(52);
  // The mean of 60 standardised misses has a standard deviation of 0.129: four of them are 0.52.
  for (const mean of Object.values(meanMiss)) expect(Math.abs(mean)).toBeLessThan(0.52);
  // Binomial(60, 0.05): more than 9 has a probability of 0.3 %.
  expect(failedTests).toBeLessThanOrEqual(9);
});
