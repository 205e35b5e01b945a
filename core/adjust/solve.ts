/**
 * The adjuster: weighted nonlinear least squares of a network in space. The covariance is a priori, from the stated
 * uncertainties alone; a failed global test is reported, it never inflates (or, worse, deflates) the uncertainties.
 */
import { at, indexAt } from '../linalg/at.ts';
import { err, invariant, ok, type Result } from '../result.ts';
import type { Covariance } from './covariance.ts';
import { globalTest, rowResults } from './diagnostics.ts';
import type { AdjustError } from './errors.ts';
import { attitudesOf, estimatesOf } from './estimates.ts';
import { arrivalFailure, beyondLinear, contradictedSide, contradiction, startFailure } from './failures.ts';
import { freeMotions, type Gauge } from './gauge.ts';
import { type Arrival, DEFAULT_ITERATIONS, iterate } from './iterate.ts';
import { Linearisation } from './linearise.ts';
import type { Network } from './network.ts';
import { prepare } from './problem.ts';
import { suspect } from './snooping.ts';
import type {
  Linearised,
  SlotComponent,
  Solution,
  SolveOptions,
  Unknown,
  UnknownComponent,
} from './solution.ts';
import { startValues } from './start/start.ts';

/**
 * Solves a network. Expected failures (missing readings, contradictory constraints, an undeclared side ...) come back
 * typed, with ids and a cure; see errors.ts.
 */
export function solve(network: Network, options: SolveOptions = {}): Result<Solution, AdjustError> {
  const problem = prepare(network);
  if (!problem.ok) return problem;
  const lin = new Linearisation(problem.value);
  const start = startValues(problem.value, options.start, lin.state.values);
  if (!start.ok) return err(startFailure(lin, start.error));
  lin.state.chooseUnknowns();
  const arrival = iterate(lin, options.maxIterations ?? DEFAULT_ITERATIONS);
  if (!arrival.ok) return err(arrivalFailure(lin, arrival.error));
  const { covariance, condition } = arrival.value.normal.covariance();
  const failure =
    contradiction(lin) ?? contradictedSide(lin) ?? beyondLinear(lin, arrival.value.gauge, covariance);
  return failure === undefined ? ok(solution(lin, arrival.value, covariance, condition)) : err(failure);
}

function solution(lin: Linearisation, arrival: Arrival, covariance: Covariance, condition: number): Solution {
  const { layout, network, observations } = lin.problem;
  const n = layout.slotOfColumn.length;
  const rows = rowResults(lin, covariance);
  const chiSquare = lin.squares();
  const weighted = observations.length - lin.exact.length;
  const held = arrival.normal.constraintsHeld() + arrival.gauge.freedoms.length;
  const test = globalTest(chiSquare, weighted + held - n);
  const linearised = linearisedOf(lin, arrival.gauge);
  return {
    network,
    estimates: linearised.estimatesAt(linearised.x),
    unknowns: unknowns(lin, covariance),
    get covariance() {
      return covariance.full();
    },
    rows,
    globalTest: test,
    suspicions: suspect(lin, covariance, rows, test),
    gauge: arrival.gauge.freedoms,
    iterations: arrival.iterations,
    stopReason: arrival.stopReason,
    condition,
    linearised,
  };
}

function unknowns({ problem: { layout }, state }: Linearisation, covariance: Covariance): Unknown[] {
  return Array.from(layout.slotOfColumn, (s, i) => {
    const slot = layout.slots[s];
    invariant(slot !== undefined, 'every unknown has a slot');
    const turn = state.isTurn(s) ? TURN_OF[slot.component] : undefined;
    const component = turn ?? slot.component;
    const value = turn === undefined ? at(state.values, s) : 0;
    const u = Math.sqrt(Math.max(0, covariance.variance(i)));
    return {
      id: turn === undefined ? slot.id : `${slot.owner}/${turn}`,
      owner: slot.owner,
      of: slot.of,
      component,
      unit: slot.unit,
      value,
      u,
    };
  });
}

/** The turn whose unknown stands in the slot of each angle of a steep body. */
const TURN_OF: Readonly<Partial<Record<SlotComponent, UnknownComponent>>> = {
  yaw: 'turnZ',
  pitch: 'turnY',
  roll: 'turnX',
};

function linearisedOf({ problem, white, state, block }: Linearisation, gauge: Gauge): Linearised {
  const { layout, observations, groups } = problem;
  const { rows, weights } = white;
  const used = indexAt(rows.start, observations.length);
  const dof = block.floats(observations.length);
  observations.forEach((one, i) => {
    dof[i] = one.dof;
  });
  const x = block.floats(layout.slotOfColumn.length);
  layout.slotOfColumn.forEach((slot, i) => {
    x[i] = state.isTurn(slot) ? 0 : at(state.values, slot);
  });
  const attitudes = attitudesOf(state);
  return {
    rowStart: rows.start,
    column: rows.columns.subarray(0, used),
    coefficient: rows.partials.subarray(0, used),
    weight: weights,
    dof,
    groups,
    x,
    reach: state.reach(),
    freeMotions: freeMotions(state, gauge),
    estimatesAt: (values, onRead) => estimatesOf(layout, values, attitudes, onRead),
  };
}
