/**
 * The design of a recipe at its nominal geometry: the matrix of all readings' partial derivatives, the gradients of what is
 * judged, and each reading's weight by how often it is taken. The matrix does not depend on the plan, only the weights do;
 * one factorisation then predicts any plan: var = g (A' W A)^-1 g'.
 */
import { prepare } from '../adjust/problem.ts';
import type { Estimates, Solution } from '../adjust/solution.ts';
import { solve } from '../adjust/solve.ts';
import { COORDINATES } from '../frames.ts';
import { addAt, at, indexAt, item } from '../linalg/at.ts';
import { deviations, type Slid, targetAtCentre, targetSlid } from '../placement/model.ts';
import { slideErrorId, slideHeightErrorId } from '../placement/names.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import { err, invariant, ok, type Result } from '../result.ts';
import { type LaidOut, modelOf, networkOf, valuesOf } from './network.ts';
import type { PlanningError, PlanTarget } from './types.ts';

/** Weight (1 / u^2) of every row, and the degrees of freedom behind its u, when all readings are taken equally often. */
export interface RowWeights {
  readonly weight: Float64Array;
  readonly dof: Float64Array;
}

/** A recipe's design; `weights` answers from a store of its own after the first time. */
export interface Design {
  readonly laid: LaidOut;
  /** Unknowns. */
  readonly n: number;
  readonly rowStart: Int32Array;
  readonly column: Int32Array;
  readonly coefficient: Float64Array;
  /** What each row came from. */
  readonly source: readonly string[];
  /** Index in `laid.slots` of the reading a row belongs to; -1 for what is known beforehand or set out. */
  readonly slotOfRow: Int32Array;
  /** Every coordinate of every station, in order. */
  readonly targets: readonly PlanTarget[];
  /** Derivatives of the targets by the unknowns, one row of n each. */
  readonly gradients: Float64Array;
  weights(count: number): RowWeights;
}

/** Builds the design; costs about as much as one adjustment. */
export function designOf(laid: LaidOut): Result<Design, PlanningError> {
  const network = networkOf(
    laid,
    valuesOf(laid, () => 1),
  );
  if (!network.ok) return network;
  const solved = solve(network.value);
  if (!solved.ok) return err({ code: 'planning/impossible', cause: solved.error.code });
  const solution = solved.value;
  const { rowStart, column, coefficient } = solution.linearised;
  const source = solution.rows.map((row) => row.source);
  const slotIndex = new Map(laid.slots.map(({ key }, i) => [key, i] as const));
  return ok({
    laid,
    n: solution.unknowns.length,
    rowStart,
    column,
    coefficient,
    source,
    slotOfRow: Int32Array.from(source, (name) => slotIndex.get(name.replace(/:height$/, '')) ?? -1),
    targets: laid.setUp.stations.flatMap((station) =>
      COORDINATES.map((coordinate) => ({ station: station.id, coordinate })),
    ),
    gradients: gradientsOf(solution, (estimates) => allDeviations(laid, estimates)),
    weights: weightStore(laid, source),
  });
}

/** The same network at other counts has the same rows in the same order; only u and dof change. */
function weightStore(laid: LaidOut, source: readonly string[]): Design['weights'] {
  const known = new Map<number, RowWeights>();
  return (count) => {
    const stored = known.get(count);
    if (stored !== undefined) return stored;
    const network = networkOf(
      laid,
      valuesOf(laid, () => count),
    );
    invariant(network.ok, 'a network that holds with one reading each holds with more');
    const problem = prepare(network.value);
    invariant(problem.ok, 'planned readings are well formed');
    const { observations } = problem.value;
    invariant(
      observations.length === source.length && observations.every((one, r) => one.source === source[r]),
      'repeats add no row',
    );
    const made = {
      weight: Float64Array.from(observations, ({ u }) => 1 / (u * u)),
      dof: Float64Array.from(observations, ({ dof }) => dof),
    };
    known.set(count, made);
    return made;
  };
}

function slidAt(laid: LaidOut, station: StationRequirement): Slid | undefined {
  const base = laid.setUp.stations[0];
  if (station.kind === 'reposition' || base === undefined) return undefined;
  const value = laid.layout.values.get(slideErrorId(station.id))?.value ?? 0;
  const heightMm = laid.layout.values.get(slideHeightErrorId(station.id))?.value;
  return {
    station: station.id,
    towardCarLeftMm: station.left.value >= base.left.value ? value : -value,
    ...(heightMm === undefined ? {} : { heightMm }),
  };
}

/** Six deviations of every station, as placement counts them. */
function allDeviations(laid: LaidOut, bare: Estimates): readonly number[] {
  const { frame, estimates } = modelOf(laid, bare);
  return laid.setUp.stations.flatMap((station) => {
    const slid = slidAt(laid, station);
    const pose =
      slid === undefined
        ? targetAtCentre(estimates, frame)
        : targetSlid(estimates, frame, laid.setUp.equipment.fixture, station.yaw.value, slid);
    return deviations(estimates, frame, pose, station);
  });
}

/** Difference steps as in core/adjust/derive.ts: truncation and rounding both below about 1e-9 of a derivative. */
const STEP = { mm: 1e-5, rad: 3e-5, ratio: 1e-6 };

/** Central differences of a function of the estimates over the unknowns it reads, one row of all unknowns per value. */
function gradientsOf(solution: Solution, fn: (estimates: Estimates) => readonly number[]): Float64Array {
  const { x, estimatesAt, reach } = solution.linearised;
  const n = solution.unknowns.length;
  const read = new Set<number>();
  const m = fn(estimatesAt(x, (unknown) => read.add(unknown))).length;
  const gradients = new Float64Array(m * n);
  const moved = Float64Array.from(x);
  const estimates = estimatesAt(moved);
  for (const unknown of read) {
    const unit = solution.unknowns[unknown]?.unit ?? 'mm';
    const step = unit === 'mm' ? STEP.mm * reach : STEP[unit];
    const middle = at(x, unknown);
    moved[unknown] = middle + step;
    const high = fn(estimates);
    moved[unknown] = middle - step;
    const low = fn(estimates);
    moved[unknown] = middle;
    for (let k = 0; k < m; k++) gradients[k * n + unknown] = (item(high, k) - item(low, k)) / (2 * step);
  }
  return gradients;
}

/** Row `r` of the design times a vector of unknowns that starts at `start`. */
export function rowTimes(design: Design, r: number, vector: Float64Array, start = 0): number {
  let sum = 0;
  for (let e = indexAt(design.rowStart, r); e < indexAt(design.rowStart, r + 1); e++) {
    sum += at(design.coefficient, e) * at(vector, start + indexAt(design.column, e));
  }
  return sum;
}

/** Adds `weight` times the row's products to a packed normal matrix. */
export function addRow(design: Design, r: number, weight: number, packed: Float64Array): void {
  const { rowStart, column, coefficient } = design;
  const first = indexAt(rowStart, r);
  for (let e = first; e < indexAt(rowStart, r + 1); e++) {
    const i = indexAt(column, e);
    const weighted = weight * at(coefficient, e);
    for (let f = first; f <= e; f++) {
      const j = indexAt(column, f);
      const where = i >= j ? (i * (i + 1)) / 2 + j : (j * (j + 1)) / 2 + i;
      addAt(packed, where, weighted * at(coefficient, f));
    }
  }
}
