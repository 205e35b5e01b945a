/** A simulated placement against the linear answer and against the general chain from readings to deviations. */
import { describe, expect, test } from 'vitest';
import { solve } from '../../../core/adjust/solve.ts';
import { LANES } from '../../../core/adjust/trials/laneState.ts';
import { readingDraws } from '../../../core/adjust/trials/readingDraws.ts';
import { deviationWriter } from '../../../core/placement/deviationLanes.ts';
import { deviations, frameOf, targetAtCentre } from '../../../core/placement/model.ts';
import { placementTrials, simulatePlacement } from '../../../core/placement/monteCarlo.ts';
import type { PlacementInput } from '../../../core/placement/placementInput.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import type { TrueLayout } from '../../../core/rehearsal/trueBay.ts';
import { normalProbability } from '../../../core/uncertainty/coverage.ts';
import { randomFrom } from '../../../core/uncertainty/random.ts';
import { perturbedNetwork } from '../../simulation/perturbedNetwork.ts';
import { answerOf, coordinateOf } from './answers.ts';
import { CENTRE, inputOf, SLIDES, SQUARE } from './trueLayout.ts';

const LAYOUT: TrueLayout = {
  ...SQUARE,
  carHeading: 0.4,
  floorSlope: [0.005, -0.004],
  toeLeft: 0.002,
  toeRight: -0.001,
  target: {
    ...SQUARE.target,
    ahead: 5008,
    left: -7,
    yaw: SQUARE.target.yaw + 0.01,
    pitch: 0.006,
    roll: -0.004,
  },
};

const FROM_FACE: StationRequirement = {
  ...CENTRE,
  ahead: { ...CENTRE.ahead, value: 1500, from: 'bodyFace' },
};
const FROM_FRONT: StationRequirement = {
  ...CENTRE,
  ahead: { ...CENTRE.ahead, value: 2350, from: 'frontAxle' },
};
const FROM_THRUST: StationRequirement = {
  ...CENTRE,
  left: { ...CENTRE.left, from: 'thrustLine' },
  yaw: { ...CENTRE.yaw, from: 'thrustLine' },
};
const TURNED: StationRequirement = {
  ...CENTRE,
  pitch: { ...CENTRE.pitch, value: 0.02 },
  roll: { ...CENTRE.roll, value: -0.01 },
};

function ready(input: PlacementInput, seed: number) {
  const made = placementTrials(input, seed);
  if (!made.ok) throw new Error(JSON.stringify(made.error));
  return made.value;
}

function simulatedOf(input: PlacementInput, options: Parameters<typeof simulatePlacement>[1]) {
  const made = simulatePlacement(input, options);
  if (!made.ok) throw new Error(JSON.stringify(made.error));
  return made.value;
}

describe('deviations on lanes are those of the model', () => {
  test.each([
    ['rear axle', CENTRE],
    ['body face', FROM_FACE],
    ['front axle', FROM_FRONT],
    ['thrust line', FROM_THRUST],
    ['a leaning face', TURNED],
  ] as const)('from the %s, to 1e-6 mm in every lane', (_name, station) => {
    const { solution, readjuster } = ready(inputOf(LAYOUT, [station]), 1);
    const rows = solution.rows.map((row) => ({ row, dof: Number.POSITIVE_INFINITY, flat: false }));
    readingDraws(rows, randomFrom(11))(readjuster.observed);
    expect(readjuster.readjust()).toBeGreaterThan(0);
    const lanes = Array.from({ length: 6 }, () => new Float64Array(LANES));
    deviationWriter(readjuster, station)(lanes, 0);
    for (let lane = 0; lane < LANES; lane++) {
      const observed = solution.rows.map((_, r) => readjuster.observed[r * LANES + lane] ?? Number.NaN);
      const one = solve(perturbedNetwork(solution.network, solution.rows, observed));
      if (!one.ok) throw new Error(one.error.code);
      const { estimates } = one.value;
      const frame = frameOf(estimates);
      const six = deviations(estimates, frame, targetAtCentre(estimates, frame), station);
      six.forEach((value, k) => {
        expect(Math.abs((lanes[k]?.[lane] ?? Number.NaN) - value), `${k}`).toBeLessThan(k < 3 ? 1e-6 : 1e-9);
      });
    }
  });
});

/** Few, because a test's loader slows these loops thirtyfold; the bench runs 100,000. */
const TRIALS = 2000;

describe('a simulated placement', () => {
  const input = inputOf(LAYOUT);
  const simulated = simulatedOf(input, { seed: 7, trials: TRIALS });

  test('says what it took to make it, and makes the same again', () => {
    expect(simulated).toMatchObject({ station: 'centre', trials: TRIALS, seed: 7, level: 0.9545 });
    expect(simulated.generator).toContain('ziggurat');
    expect(simulatedOf(input, { seed: 7, trials: TRIALS })).toEqual(simulated);
    expect(simulatedOf(input, { seed: 8, trials: TRIALS }).coordinates).not.toEqual(simulated.coordinates);
  });

  test('its linear side is the answer to the readings', () => {
    const answer = answerOf(input);
    for (const { coordinate, linear } of simulated.coordinates) {
      const found = coordinateOf(answer, coordinate);
      expect(Math.abs(linear.value - found.deviation)).toBeLessThan(1e-6);
      expect(linear.u / found.u).toBeCloseTo(1, 6);
      expect(linear.U / found.U).toBeCloseTo(1, 6);
    }
  });

  test('value and u agree with the linear ones within what so few trials leave open', () => {
    for (const { coordinate, linear, simulated: s } of simulated.coordinates) {
      // Relative standard deviation of u: 1 / root 4000; a t of 20 degrees of freedom is 5 % wider than its scale.
      const t = Math.sqrt(linear.dof / (linear.dof - 2));
      expect(Math.abs(s.value - linear.value), coordinate).toBeLessThan(
        (4 * linear.u) / Math.sqrt(TRIALS) + 0.02 * linear.u,
      );
      expect(s.u / (linear.u * t), coordinate).toBeGreaterThan(0.94);
      expect(s.u / (linear.u * t), coordinate).toBeLessThan(1.06);
    }
  });

  test('the share of trials that conform is the probability of conformity', () => {
    for (const { coordinate, linear, conforming } of simulated.coordinates) {
      const { permitted } = CENTRE[coordinate];
      const [low, high] = [permitted?.lower ?? Number.NaN, permitted?.upper ?? Number.NaN];
      const { value, u } = linear;
      const p = normalProbability((high - value) / u) - normalProbability((low - value) / u);
      expect(Math.abs((conforming ?? Number.NaN) - p), coordinate).toBeLessThan(0.03);
    }
  });

  test('states the linear interval where both agree, the simulated one where not', () => {
    for (const { agreement, stated, linear, simulated: s } of simulated.coordinates) {
      expect(stated.basis).toBe(agreement.agrees ? 'linear' : 'simulated');
      const low = agreement.agrees ? linear.value - linear.U : s.symmetric.low;
      expect(stated.interval.low).toBe(low);
    }
  });

  test('says why it cannot be made', () => {
    const code = (one: PlacementInput): string | undefined => {
      const made = simulatePlacement(one, { seed: 1, trials: 100 });
      return made.ok ? undefined : made.error.code;
    };
    expect(code({ ...input, stations: [] })).toBe('placement/firstStationSlides');
    expect(code({ ...input, stations: [...SLIDES] })).toBe('placement/firstStationSlides');
    expect(code({ ...input, readings: input.readings.filter(({ id }) => id !== 'target.height') })).toBe(
      'placement/undetermined',
    );
  });
});
