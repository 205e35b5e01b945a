/**
 * Newton's way to the least-squares solution of some rows over some unknowns, for several trials side by side. The matrix
 * is factored once, at the solution of the real readings; the gradient is that of each trial's own layout, and each step
 * learns from those before it how the matrix has turned since (Broyden's method in its form for few steps: C. T. Kelley,
 * Iterative Methods for Linear and Nonlinear Equations, SIAM 1995, chapter 7). Where it arrives the gradient is zero,
 * whatever matrix led there.
 */
import { at, indexAt, item } from '../../linalg/at.ts';
import { invariant } from '../../result.ts';
import type { Linearised } from '../solution.ts';
import { LaneFactor } from './laneFactor.ts';
import type { LaneReadings, LaneRow } from './laneRows.ts';
import { LANES, type LaneState } from './laneState.ts';
import { PullAtSolution } from './pullAtSolution.ts';

/** As in iterate.ts: squared length of the last step in units of u, and of one whose successor is certain to be the last. */
const ARRIVED_SQUARED = 1e-14;
const NEARLY_SQUARED = 1e-8;
/** Steps before a trial is given up; four or five are usual. */
const MOST_STEPS = 20;

/** A step of all lanes, the pull that asked for it, which is the normal matrix times the step, and the product of both. */
interface Made {
  readonly step: Float64Array;
  readonly pull: Float64Array;
  readonly squared: Float64Array;
}

/** What a stage is made of. */
export interface StageParts {
  /** The readings that have rows in the stage. */
  readonly readings: readonly LaneRow[];
  /** Rows, and unknowns, of the linearised problem that belong to the stage. */
  readonly rows: readonly number[];
  readonly unknowns: readonly number[];
  readonly slotOfColumn: Int32Array;
  /** Whether a body's yaw, pitch or roll is among the unknowns. */
  readonly turns: boolean;
  /**
   * What the rows of the real readings say, by row, for a stage that begins at their solution: its first pull then needs no
   * geometry. Absent for one that begins where another stage has left the rest.
   */
  readonly solvedFor?: Float64Array;
}

/** Some rows solved for some unknowns; all others stand where they are. */
export class LaneStage {
  private readonly readings: readonly LaneRow[];
  private readonly says: LaneReadings;
  /** Offsets of the unknowns in the state, in the order of the factor. */
  private readonly offsets: Int32Array;
  private readonly factor: LaneFactor;
  private readonly turns: boolean;
  private readonly first: PullAtSolution | undefined;
  private readonly made: readonly Made[];
  private readonly share = new Float64Array(LANES);

  constructor(parts: StageParts, linearised: Linearised, observed: Float64Array) {
    const { readings, rows, unknowns, slotOfColumn } = parts;
    const weight = new Float64Array(linearised.weight.length);
    for (const r of rows) weight[r] = at(linearised.weight, r);
    this.readings = readings;
    this.turns = parts.turns;
    this.says = { observed, weight };
    this.factor = new LaneFactor(linearised, rows, unknowns);
    this.offsets = Int32Array.from(
      this.factor.order,
      (k) => indexAt(slotOfColumn, item(unknowns, k)) * LANES,
    );
    this.first =
      parts.solvedFor === undefined
        ? undefined
        : new PullAtSolution(
            linearised,
            rows,
            [...this.factor.order].map((k) => item(unknowns, k)),
            parts.solvedFor,
          );
    const size = unknowns.length * LANES;
    this.made = Array.from({ length: MOST_STEPS }, () => ({
      step: new Float64Array(size),
      pull: new Float64Array(size),
      squared: new Float64Array(LANES),
    }));
  }

  /** Solves all lanes from where `state` stands. Answers the steps made, or -1 when a lane did not arrive. */
  solve(state: LaneState): number {
    for (let k = 0; k < MOST_STEPS; k++) {
      const made = this.stepMade(k);
      if (k === 0 && this.first !== undefined) this.first.write(this.says.observed, made.pull);
      else {
        // Where no heading or lean is among the unknowns, bodies keep the rotation that the first step finds.
        state.update(k === 0 || this.turns);
        this.readPull(state, made.pull);
      }
      this.takeStep(state.numbers, k, made);
      if (this.arrived(k, made)) return k + 1;
    }
    return -1;
  }

  /** The pull of all readings of the stage at the present layouts. */
  private readPull(state: LaneState, into: Float64Array): void {
    for (const reading of this.readings) reading(state, this.says);
    state.gatherPulls();
    const { offsets } = this;
    for (let c = 0; c < offsets.length; c++) {
      const from = indexAt(offsets, c);
      for (let i = 0; i < LANES; i++) into[c * LANES + i] = at(state.pull, from + i);
    }
  }

  private takeStep(numbers: Float64Array, k: number, made: Made): void {
    const { step, pull, squared } = made;
    const { offsets } = this;
    step.set(pull);
    this.factor.solve(step);
    this.learn(k, made);
    products(pull, step, squared);
    for (let c = 0; c < offsets.length; c++) {
      const to = indexAt(offsets, c);
      for (let i = 0; i < LANES; i++) numbers[to + i] = at(numbers, to + i) + at(step, c * LANES + i);
    }
  }

  /** Broyden's rank-one corrections in the metric of the normal matrix. */
  private learn(k: number, made: Made): void {
    const { share } = this;
    for (let j = 0; j < k; j++) {
      this.shareOf(this.stepMade(j), made.step);
      if (j + 1 < k) addScaled(made, this.stepMade(j + 1), share);
      else stretch(made, share);
    }
  }

  /** Writes to `share` how much of an earlier step is in this one; nothing once a lane stands still. */
  private shareOf(before: Made, step: Float64Array): void {
    const { share } = this;
    products(before.pull, step, share);
    for (let i = 0; i < LANES; i++) {
      const squared = at(before.squared, i);
      const s = squared > 0 ? at(share, i) / squared : 0;
      // A step nearly as long as the one before it, the same way, has nothing to teach.
      share[i] = Math.abs(s) < 0.9 ? s : 0;
    }
  }

  private stepMade(k: number): Made {
    const made = this.made[k];
    invariant(made !== undefined, `step ${k} is one of ${MOST_STEPS}`);
    return made;
  }

  /** Whether every lane's last step was certain to be the last. */
  private arrived(k: number, made: Made): boolean {
    for (let i = 0; i < LANES; i++) {
      const length = at(made.squared, i);
      const before = k > 0 ? at(this.stepMade(k - 1).squared, i) : 0;
      const successor = before > 0 ? (length * length) / before : length;
      const last = length <= ARRIVED_SQUARED || (length <= NEARLY_SQUARED && successor <= ARRIVED_SQUARED);
      if (!last) return false;
    }
    return true;
  }
}

/** Sums of products of two sets of unknowns, lane by lane. */
function products(a: Float64Array, b: Float64Array, into: Float64Array): void {
  for (let lane = 0; lane < LANES; lane += 4) {
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    for (let c = lane; c < a.length; c += LANES) {
      s0 += at(a, c) * at(b, c);
      s1 += at(a, c + 1) * at(b, c + 1);
      s2 += at(a, c + 2) * at(b, c + 2);
      s3 += at(a, c + 3) * at(b, c + 3);
    }
    into[lane] = s0;
    into[lane + 1] = s1;
    into[lane + 2] = s2;
    into[lane + 3] = s3;
  }
}

/** Adds a share of an earlier step, and of its pull, lane by lane. */
function addScaled(to: Made, from: Made, share: Float64Array): void {
  for (let c = 0; c < to.step.length; c += LANES) {
    for (let i = 0; i < LANES; i++) {
      const s = at(share, i);
      to.step[c + i] = at(to.step, c + i) + s * at(from.step, c + i);
      to.pull[c + i] = at(to.pull, c + i) + s * at(from.pull, c + i);
    }
  }
}

/** Lengthens a step, and its pull, by 1 / (1 - share). */
function stretch({ step, pull }: Made, share: Float64Array): void {
  for (let i = 0; i < LANES; i++) share[i] = 1 / (1 - at(share, i));
  for (let c = 0; c < step.length; c += LANES) {
    for (let i = 0; i < LANES; i++) {
      step[c + i] = at(step, c + i) * at(share, i);
      pull[c + i] = at(pull, c + i) * at(share, i);
    }
  }
}
