/**
 * A placement simulated: whole distributions of all readings carried through the whole adjustment (JCGM 101:2008, clause
 * 7), each trial solved again from its own readings. It checks the linear answer, and replaces it where they disagree
 * (clause 8). Lengths in mm, angles in radians.
 */

import type { Solution } from '../adjust/solution.ts';
import { solve } from '../adjust/solve.ts';
import { LANES } from '../adjust/trials/laneState.ts';
import { readingDraws } from '../adjust/trials/readingDraws.ts';
import { type NoLanes, type Readjuster, readjuster } from '../adjust/trials/readjust.ts';
import { COORDINATES, type Coordinate } from '../frames.ts';
import { err, ok, type Result } from '../result.ts';
import { type AdaptiveRun, runAdaptively, type TrialSource } from '../uncertainty/adaptive.ts';
import { type Agreement, linearAgrees } from '../uncertainty/agreement.ts';
import { COVERAGE, coverageFactor } from '../uncertainty/coverage.ts';
import { type Interval, type Summary, summarise } from '../uncertainty/coverageInterval.ts';
import { randomFrom } from '../uncertainty/random.ts';
import { ZIGGURAT_GENERATOR } from '../uncertainty/ziggurat.ts';
import { deviationWriter } from './deviationLanes.ts';
import type { CoordinateFinding } from './finding.ts';
import { placementNetwork } from './network.ts';
import type { PlacementError } from './placementError.ts';
import type { PlacementInput } from './placementInput.ts';
import { type SlotValues, slotValues } from './readings.ts';
import { defaultRecipe } from './recipe.ts';
import type { StationRequirement } from './requirement.ts';
import { heldReadings } from './setups.ts';
import { stationFinding } from './stations.ts';

/** One coordinate of the placed station, linear and simulated. */
export interface SimulatedCoordinate {
  readonly coordinate: Coordinate;
  readonly linear: Pick<CoordinateFinding, 'u' | 'dof' | 'k' | 'U'> & { readonly value: number };
  readonly simulated: Summary;
  readonly agreement: Agreement;
  /** What to state: the linear answer where the two agree, else the simulated one. */
  readonly stated: {
    readonly basis: 'linear' | 'simulated';
    readonly value: number;
    readonly interval: Interval;
  };
  /** Share of the trials within the permitted deviation: its probability of conformity; absent without one. */
  readonly conforming?: number;
}

/** A simulated placement, with all that is needed to have it again. */
export interface SimulatedPlacement {
  readonly station: string;
  readonly coordinates: readonly SimulatedCoordinate[];
  readonly level: number;
  readonly trials: number;
  readonly seed: number;
  readonly generator: string;
  /** Of an adaptive run: whether all figures settled before the trials ran out; absent for a fixed number. */
  readonly stable?: boolean;
}

/** Why a placement cannot be simulated. */
export type PlacementSimulationError =
  | PlacementError
  | NoLanes
  /** So far off that it has no layout, with the readings' stated u: they contradict each other. */
  | { readonly code: 'placement/trialLost' };

/** How many trials: a number, or until `digits` significant digits of u are stable (JCGM 101 7.9), 2 when absent. */
export interface SimulationOptions {
  /** Whole, 32 bits. */
  readonly seed: number;
  readonly trials?: number;
  readonly digits?: number;
  readonly mostTrials?: number;
  readonly level?: number;
}

/** The most trials of an adaptive run unless told otherwise. */
const MOST_TRIALS = 2e6;

/** A placement ready to be simulated. */
export interface PlacementTrials {
  readonly solution: Solution;
  readonly readjuster: Readjuster;
  readonly station: StationRequirement;
  readonly values: SlotValues;
  /** Fills the six deviations of the next trials. */
  readonly source: TrialSource;
}

/** Values without those that nothing of the placed station depends on: a body face or toes nobody measures from. */
function needed(values: SlotValues, station: StationRequirement): SlotValues {
  const wantsFace = station.ahead.from === 'bodyFace';
  const wantsToes = station.left.from === 'thrustLine' || station.yaw.from === 'thrustLine';
  return new Map(
    [...values].filter(([key]) => (wantsFace || key !== 'face') && (wantsToes || !key.startsWith('toe.'))),
  );
}

/** Known by their limits alone: the class of a tape says no more of its scale and its hook. */
const KNOWN_BY_LIMITS = /^tape:.*:(?:scale|hook)$/;

/** Solves the readings once and makes ready to solve them again. The station is the first, which the fixture is placed for. */
export function placementTrials(
  input: PlacementInput,
  seed: number,
): Result<PlacementTrials, PlacementSimulationError> {
  const [station] = input.stations;
  if (station === undefined || station.kind === 'slide') return err({ code: 'placement/firstStationSlides' });
  const recipe = defaultRecipe({ stations: input.stations });
  const values = needed(slotValues(heldReadings(recipe, input), input), station);
  const built = placementNetwork({ ...input, stations: [station] }, values);
  if (!built.ok) return built;
  if (built.value.fixtureProblem !== undefined) return err(built.value.fixtureProblem);
  const { network } = built.value;
  const solved = solve(network);
  if (!solved.ok) return err({ code: 'placement/unsolvable', cause: solved.error.code });
  const solution = solved.value;
  const trials = readjuster(network, solution);
  if (!trials.ok) return trials;
  const rows = solution.rows.map((row, r) => ({
    row,
    dof: solution.linearised.dof[r] ?? Number.POSITIVE_INFINITY,
    flat: row.kind === 'shared' && KNOWN_BY_LIMITS.test(row.source),
  }));
  const draw = readingDraws(rows, randomFrom(seed));
  const write = deviationWriter(trials.value, station);
  return ok({
    solution,
    readjuster: trials.value,
    station,
    values,
    source: sourceOf(trials.value, draw, write),
  });
}

function sourceOf(
  trials: Readjuster,
  draw: (observed: Float64Array) => void,
  write: ReturnType<typeof deviationWriter>,
): TrialSource {
  const spare = COORDINATES.map(() => new Float64Array(LANES));
  const next = (): boolean => {
    draw(trials.observed);
    return trials.readjust() >= 0;
  };
  return (into) => {
    const length = into[0]?.length ?? 0;
    let done = 0;
    for (; done + LANES <= length; done += LANES) {
      if (!next()) return false;
      write(into, done);
    }
    if (done === length) return true;
    if (!next()) return false;
    write(spare, 0);
    into.forEach((results, k) => {
      results.set(spare[k]?.subarray(0, length - done) ?? [], done);
    });
    return true;
  };
}

/** Simulates the placed station of an input. Its slides are left out: they follow from the same bar. */
export function simulatePlacement(
  input: PlacementInput,
  options: SimulationOptions,
): Result<SimulatedPlacement, PlacementSimulationError> {
  const ready = placementTrials(input, options.seed);
  if (!ready.ok) return ready;
  const { level = COVERAGE, digits = 2, mostTrials = MOST_TRIALS, trials, seed } = options;
  const { solution, values, station, source } = ready.value;
  const results = COORDINATES.length;
  const run =
    trials === undefined
      ? runAdaptively(results, source, { level, digits, mostTrials })
      : runFixed(results, source, trials, level);
  if (run === undefined) return err({ code: 'placement/trialLost' });
  const linear = stationFinding(solution, { ...input, stations: [station] }, values, station, true);
  const coordinates = linear.coordinates.flatMap((finding, k) => {
    const [summary, sorted] = [run.summaries[k], run.sorted[k]];
    return summary === undefined || sorted === undefined
      ? []
      : [simulated(finding, summary, sorted, level, digits)];
  });
  const told = {
    station: station.id,
    coordinates,
    level,
    trials: run.trials,
    seed,
    generator: ZIGGURAT_GENERATOR,
  };
  return ok(trials === undefined ? { ...told, stable: run.stable } : told);
}

type Run = Pick<AdaptiveRun, 'summaries' | 'sorted' | 'trials' | 'stable'>;

function runFixed(results: number, source: TrialSource, trials: number, level: number): Run | undefined {
  const sorted = Array.from({ length: results }, () => new Float64Array(trials));
  if (!source(sorted)) return undefined;
  return { summaries: sorted.map((all) => summarise(all, level)), sorted, trials, stable: false };
}

function simulated(
  { coordinate, deviation: value, u, dof, permitted }: CoordinateFinding,
  summary: Summary,
  sorted: Float64Array,
  level: number,
  digits: number,
): SimulatedCoordinate {
  const k = coverageFactor(dof, level);
  const linear = { value, u, dof, k, U: k * u };
  const agreement = linearAgrees(linear, { symmetric: summary.symmetric }, digits);
  const stated = agreement.agrees
    ? ({ basis: 'linear', value, interval: { low: value - k * u, high: value + k * u } } as const)
    : ({ basis: 'simulated', value: summary.value, interval: summary.symmetric } as const);
  const bare = { coordinate, linear, simulated: summary, agreement, stated };
  return permitted === undefined ? bare : { ...bare, conforming: shareWithin(sorted, permitted) };
}

/** Share of sorted results within limits, both ends counted. */
function shareWithin(sorted: Float64Array, { lower, upper }: { lower?: number; upper?: number }): number {
  const inside = sorted.reduce(
    (count, value) => (value >= (lower ?? value) && value <= (upper ?? value) ? count + 1 : count),
    0,
  );
  return inside / sorted.length;
}
