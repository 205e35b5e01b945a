/** One problem at its current values: rows of partials, residuals and the weighted sum of squares. */
import { at, indexAt } from '../linalg/at.ts';
import { Block } from '../linalg/block.ts';
import type { Problem } from './problem.ts';
import { Rows } from './rows.ts';
import { State } from './state.ts';
import { type SparseRows, Whitening } from './whitening.ts';

/** Bytes that a row or an unknown needs on the way to a solution, about. */
const BYTES_EACH = 256;

/** The working state of a solution. */
export class Linearisation {
  readonly problem: Problem;
  /** Memory for everything that is made once for a solution. */
  readonly block: Block;
  readonly state: State;
  readonly rows: Rows;
  /** 1 / u^2; 0 for exact rows. */
  readonly weights: Float64Array;
  /** Observed minus computed. */
  readonly residuals: Float64Array;
  readonly exact: readonly number[];
  private whitening: Whitening | undefined;
  /** Whether a reading, or a coordinate given beforehand, knows which way is up. */
  readonly feelsGravity: boolean;
  /** At least three plan coordinates or headings are given, as many as a layout in plan needs to lie still. */
  readonly mayBeHeld: boolean;
  private readonly observed: Float64Array;

  constructor(problem: Problem) {
    const count = problem.observations.length;
    this.problem = problem;
    const block = new Block(BYTES_EACH * (count + problem.layout.slots.length));
    this.block = block;
    this.state = new State(problem.layout, block);
    this.rows = new Rows(count, this.state, block);
    this.weights = block.floats(count);
    this.residuals = block.floats(count);
    this.observed = block.floats(count);
    const exact: number[] = [];
    problem.observations.forEach((one, i) => {
      this.observed[i] = one.observed;
      if (one.exact === true) exact.push(i);
      else this.weights[i] = 1 / (one.u * one.u);
    });
    this.exact = exact;
    let given = 0;
    for (const { of, component, prior } of problem.layout.slots) {
      if (prior.state !== 'free' && of !== 'shared' && of !== 'bodyPoint' && component !== 'z') given++;
    }
    this.mayBeHeld = given >= 3;
    this.feelsGravity =
      problem.bound.some((reading) => reading.feelsGravity) ||
      problem.layout.slots.some(
        ({ of, prior }) => prior.state !== 'free' && (of === 'point' || of === 'body'),
      );
  }

  /** Computes rows and residuals at `state.values`; answers the weighted sum of squared residuals. */
  evaluate(): number {
    const { problem, state, rows, residuals, weights, observed } = this;
    state.update();
    rows.begin();
    for (const reading of problem.bound) reading.write(state, rows);
    for (const slot of problem.known) {
      rows.row(at(state.values, slot));
      rows.slot(slot, 1);
    }
    rows.end();
    for (let i = 0; i < residuals.length; i++) residuals[i] = at(observed, i) - at(rows.computed, i);
    if (problem.groups.length > 0) {
      this.whitening ??= new Whitening(problem.groups, rows, weights);
      this.whitening.update(rows, residuals);
    }
    return this.squares();
  }

  /** The weighted sum of squared residuals as they stand. */
  squares(): number {
    const { weights, residuals } = this.white;
    let squares = 0;
    for (let i = 0; i < residuals.length; i++) {
      const v = at(residuals, i);
      squares += at(weights, i) * v * v;
    }
    return squares;
  }

  /** The rows the normal equations are made of: whitened where readings are correlated, else as the models wrote them. */
  get white(): {
    readonly rows: SparseRows;
    readonly weights: Float64Array;
    readonly residuals: Float64Array;
  } {
    return this.whitening ?? this;
  }

  /** Squared length of a step in units of the readings' uncertainties: what it changes in all readings together. */
  stepSquared(step: Float64Array): number {
    const { rows, weights } = this.white;
    const { start, columns, partials } = rows;
    let total = 0;
    for (let r = 0; r < weights.length; r++) {
      let change = 0;
      const end = indexAt(start, r + 1);
      for (let e = indexAt(start, r); e < end; e++) {
        change += at(partials, e) * at(step, indexAt(columns, e));
      }
      total += at(weights, r) * change * change;
    }
    return total;
  }

  /** Adds a step to the unknowns' values; a steep body is turned by its part of the step. */
  apply(step: Float64Array): void {
    const { state } = this;
    const { slotOfColumn, columns, bodies } = this.problem.layout;
    for (const [b, { slot }] of bodies.entries()) {
      if (state.steep[b] !== 1) continue;
      const by = (k: number): number => at(step, indexAt(columns, slot + k));
      state.turnBody(b, [by(5), by(4), by(3)]);
    }
    for (let c = 0; c < step.length; c++) {
      const slot = indexAt(slotOfColumn, c);
      if (!state.isTurn(slot)) state.values[slot] = at(state.values, slot) + at(step, c);
    }
  }
}
