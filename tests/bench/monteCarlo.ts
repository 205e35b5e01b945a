/**
 * `npm run bench -- --only monteCarlo`: 100,000 trials of a whole placement, each drawn from the readings' distributions and
 * adjusted again (JCGM 101:2008, clause 7), beside a loop over the general solver on the same trials. The loop is run for a
 * few hundred trials and scaled up, which is said where it stands. CPU time of this process is given beside the clock's:
 * on a machine that does other things too only the former says what one core needs.
 */

import { solve } from '../../core/adjust/solve.ts';
import { LANES } from '../../core/adjust/trials/laneState.ts';
import { readingDraws } from '../../core/adjust/trials/readingDraws.ts';
import { deviationWriter } from '../../core/placement/deviationLanes.ts';
import { deviations, frameOf, targetAtCentre } from '../../core/placement/model.ts';
import { type PlacementTrials, placementTrials, simulatePlacement } from '../../core/placement/monteCarlo.ts';
import { randomFrom } from '../../core/uncertainty/random.ts';
import { inputOf, SQUARE } from '../core/placement/trueLayout.ts';
import { perturbedNetwork } from '../simulation/perturbedNetwork.ts';
import { median, rounded } from './compare.ts';
import { type Study, table } from './study.ts';

export const MONTE_CARLO = { trials: 100_000, seed: 20_261_125, runs: 7, loopTrials: 320 } as const;
const MOST_SECONDS = 1;
const MOST_DIFFERENCE = 1e-6;

const input = inputOf({
  ...SQUARE,
  floorSlope: [0.004, -0.006],
  target: { ...SQUARE.target, ahead: 5004, left: -6, yaw: SQUARE.target.yaw + 0.003 },
});

function readyTrials(): PlacementTrials {
  const ready = placementTrials(input, MONTE_CARLO.seed);
  if (!ready.ok) throw new Error(JSON.stringify(ready.error));
  return ready.value;
}

interface Timed {
  readonly seconds: number;
  readonly cpuSeconds: number;
}

function timed(run: () => void): Timed {
  const [begin, cpu] = [performance.now(), process.cpuUsage()];
  run();
  const used = process.cpuUsage(cpu);
  return { seconds: (performance.now() - begin) / 1e3, cpuSeconds: (used.user + used.system) / 1e6 };
}

/** The same trials both ways: how long the loop takes a trial, and by how much any deviation differs, mm and rad. */
function loopOverSolver({ solution, readjuster, station }: PlacementTrials) {
  const rows = solution.rows.map((row, r) => ({ row, dof: solution.linearised.dof[r] ?? 1e9, flat: false }));
  const draw = readingDraws(rows, randomFrom(MONTE_CARLO.seed));
  const write = deviationWriter(readjuster, station);
  const lanes = Array.from({ length: 6 }, () => new Float64Array(LANES));
  let cpuSeconds = 0;
  let trials = 0;
  let differenceMm = 0;
  let differenceRad = 0;
  for (; trials < MONTE_CARLO.loopTrials; trials += LANES) {
    draw(readjuster.observed);
    if (readjuster.readjust() < 0) throw new Error('a trial did not arrive');
    write(lanes, 0);
    for (let lane = 0; lane < LANES; lane++) {
      const observed = solution.rows.map((_, r) => readjuster.observed[r * LANES + lane] ?? Number.NaN);
      const network = perturbedNetwork(solution.network, solution.rows, observed);
      let six: readonly number[] = [];
      cpuSeconds += timed(() => {
        const solved = solve(network);
        if (!solved.ok) throw new Error(solved.error.code);
        const { estimates } = solved.value;
        const frame = frameOf(estimates);
        six = deviations(estimates, frame, targetAtCentre(estimates, frame), station);
      }).cpuSeconds;
      six.forEach((value, k) => {
        const off = Math.abs(value - (lanes[k]?.[lane] ?? Number.NaN));
        if (k < 3) differenceMm = Math.max(differenceMm, off);
        else differenceRad = Math.max(differenceRad, off);
      });
    }
  }
  return { perTrial: cpuSeconds / trials, trials, differenceMm, differenceRad };
}

/** Runs the study. */
export async function studyMonteCarlo(): Promise<Study> {
  const { trials, seed, runs } = MONTE_CARLO;
  const simulate = (options: { readonly trials?: number }) => {
    const simulated = simulatePlacement(input, { seed, ...options });
    if (!simulated.ok) throw new Error(JSON.stringify(simulated.error));
    return simulated.value;
  };
  for (let i = 0; i < 3; i++) simulate({ trials: trials / 5 });
  const times = Array.from({ length: runs }, () => timed(() => simulate({ trials })));
  const seconds = rounded(median(times.map((each) => each.seconds)));
  const cpuSeconds = rounded(median(times.map((each) => each.cpuSeconds)));
  const fastest = rounded(Math.min(...times.map((each) => each.cpuSeconds)));
  const loop = loopOverSolver(readyTrials());
  const loopSeconds = rounded(loop.perTrial * trials);
  const adaptive = simulate({});
  const line = (value: number, digits: number): string => value.toPrecision(digits);
  return {
    lines: [
      `${trials} trials of a placement: ${cpuSeconds} s of CPU (fastest ${fastest}), ${seconds} s by the clock, median of ${runs}`,
      `loop over the general solver: ${loop.trials} trials, scaled to ${trials}: ${loopSeconds} s of CPU, ` +
        `${(loopSeconds / cpuSeconds).toFixed(0)} times as long`,
      `the same ${loop.trials} trials both ways differ by at most ${line(loop.differenceMm, 2)} mm and ${line(loop.differenceRad, 2)} rad`,
      `adaptive (JCGM 101 7.9, two digits): ${adaptive.trials} trials, ${adaptive.stable ? 'stable' : 'not stable'}; ` +
        `seed ${seed}, ${adaptive.generator}`,
      ...table([
        ['coordinate', 'linear', 'u', 'U', 'simulated', 'u', 'interval', 'linear stands'],
        ...adaptive.coordinates.map((each) => [
          each.coordinate,
          line(each.linear.value, 4),
          line(each.linear.u, 4),
          line(each.linear.U, 4),
          line(each.simulated.value, 4),
          line(each.simulated.u, 4),
          `${line(each.simulated.symmetric.low, 4)} to ${line(each.simulated.symmetric.high, 4)}`,
          each.agreement.agrees ? 'yes' : 'no: replaced',
        ]),
      ]),
    ],
    results: [{ ...MONTE_CARLO, seconds, cpuSeconds, fastest, loop, loopSeconds, adaptive }],
    aims: [
      { what: `${trials} trials in under ${MOST_SECONDS} s of one core`, met: cpuSeconds < MOST_SECONDS },
      {
        what: `each trial as the general solver has it, to ${MOST_DIFFERENCE} mm`,
        met: loop.differenceMm < MOST_DIFFERENCE && loop.differenceRad < 1e-9,
      },
    ],
  };
}
