/**
 * Newton's way to the least-squares solution of some rows over some unknowns, for several trials side by side. The first
 * step uses a matrix factored once, at the solution of the real readings. Where distances turn much from trial to trial, the
 * second has the exact second derivatives of each lane's own distances (turningFactor.ts), and the steps after it use that
 * factor again; a step that is still long has its own. The gradient is always that of each trial's own layout: where it
 * arrives the gradient is zero, whatever matrix led there.
 */
import { at, indexAt, item } from '../../linalg/at.ts';
import type { Linearised } from '../solution.ts';
import { FirstCurve } from './firstCurve.ts';
import { LaneFactor } from './laneFactor.ts';
import { GroupedReadings } from './laneReadings.ts';
import type { LaneReading, LaneReadings } from './laneRows.ts';
import { LANES, type LaneState } from './laneState.ts';
import { PullAtSolution } from './pullAtSolution.ts';
import type { TurningFactor } from './turningFactor.ts';
import { turningFactor } from './turningFactor.ts';

/** As in iterate.ts: squared length of the last step in units of u. */
const ARRIVED_SQUARED = 1e-14;
/**
 * Or of one so short that its successor, as far as two steps can tell, would be shorter by as much again: then by this. A
 * step with turned distances says less of its successor, which was up to four times as long as told, than one without.
 */
const NEARLY_SQUARED = 1e-8;
const SUCCESSOR_SQUARED = 6e-15;
const TURNED_SUCCESSOR_SQUARED = 6e-16;
/** Squared length of a step after which the distances are turned anew. */
const LONG_SQUARED = 1e-4;
/** Steps before a trial is given up; three or four are usual. */
const MOST_STEPS = 30;

/** What a stage is made of. */
export interface StageParts {
  /** The readings that have rows in the stage. */
  readonly readings: readonly LaneReading[];
  /** Rows, and unknowns, of the linearised problem that belong to the stage. */
  readonly rows: readonly number[];
  readonly unknowns: readonly number[];
  readonly slotOfColumn: Int32Array;
  /** Whether a body's yaw, pitch or roll is among the unknowns. */
  readonly turns: boolean;
  /** What the rows of the real readings say, by row: the unknowns begin at their solution. */
  readonly solvedFor: Float64Array;
}

/** Some rows solved for some unknowns; all others stand where they are. */
export class LaneStage {
  private readonly readings: GroupedReadings;
  private readonly says: LaneReadings;
  /** Offsets of the unknowns in the state, in the order of the factor. */
  private readonly offsets: Int32Array;
  private readonly factor: LaneFactor;
  private readonly turning: TurningFactor | undefined;
  private readonly turns: boolean;
  private readonly first: PullAtSolution;
  private readonly curve: FirstCurve;
  /** What the rows say, straightened for the first step. */
  private readonly straight: Float64Array;
  private readonly step: Float64Array;
  private readonly pull: Float64Array;
  /** Squared length of the last step of each lane, and of the one before it. */
  private readonly squared = new Float64Array(LANES);
  private readonly before = new Float64Array(LANES);

  constructor(parts: StageParts, linearised: Linearised, observed: Float64Array) {
    const { readings, rows, unknowns, slotOfColumn } = parts;
    const weight = new Float64Array(linearised.weight.length);
    for (const r of rows) weight[r] = at(linearised.weight, r);
    this.readings = new GroupedReadings(readings);
    this.turns = parts.turns;
    this.says = { observed, weight };
    this.factor = new LaneFactor(linearised, rows, unknowns);
    const ordered = Array.from(this.factor.order, (k) => item(unknowns, k));
    this.offsets = Int32Array.from(ordered, (unknown) => indexAt(slotOfColumn, unknown) * LANES);
    this.turning = turningFactor(linearised, rows, this.factor, this.readings.distances, slotOfColumn);
    this.first = new PullAtSolution(linearised, rows, ordered, parts.solvedFor, slotOfColumn);
    this.curve = new FirstCurve(
      { linearised, rows, factor: this.factor, slotOfColumn, solvedFor: parts.solvedFor },
      this.readings.distances.all,
    );
    this.straight = new Float64Array(observed.length);
    this.step = new Float64Array(unknowns.length * LANES);
    this.pull = new Float64Array(unknowns.length * LANES);
  }

  /** Solves all lanes from where `state` stands. Answers the steps made, or -1 when a lane did not arrive. */
  solve(state: LaneState): number {
    let turned: TurningFactor | undefined;
    let anew = this.turning;
    for (let k = 0; k < MOST_STEPS; k++) {
      if (k === 0) this.firstPull(state);
      else {
        // Where no heading or lean is among the unknowns, bodies keep the rotation that the second step finds.
        state.update(k === 1 || this.turns);
        this.readPull(state, anew !== undefined);
        if (anew !== undefined) turned = anew.factorise(this.readings.distances.second) ? anew : undefined;
        anew = undefined;
      }
      this.takeStep(state.numbers, turned ?? this.factor, k === 0);
      if (this.arrived(k)) return k + 1;
      if (k > 0 && this.longest() > LONG_SQUARED) anew = this.turning;
    }
    return -1;
  }

  private firstPull(state: LaneState): void {
    this.straight.set(this.says.observed);
    this.curve.correct(this.straight);
    this.first.write(this.straight, state.numbers, this.pull);
  }

  /** The pull of all readings of the stage at the present layouts. */
  private readPull(state: LaneState, turning: boolean): void {
    this.readings.write(state, this.says, turning);
    const { offsets, pull } = this;
    for (let c = 0; c < offsets.length; c++) {
      const from = indexAt(offsets, c);
      for (let i = 0; i < LANES; i++) pull[c * LANES + i] = at(state.pull, from + i);
    }
  }

  private takeStep(numbers: Float64Array, factor: LaneFactor | TurningFactor, first: boolean): void {
    const { step, pull, offsets } = this;
    step.set(pull);
    factor.solve(step);
    this.before.set(this.squared);
    products(pull, step, this.squared);
    if (first) this.curve.settle(this.straight, step);
    for (let c = 0; c < offsets.length; c++) {
      const to = indexAt(offsets, c);
      for (let i = 0; i < LANES; i++) numbers[to + i] = at(numbers, to + i) + at(step, c * LANES + i);
    }
  }

  private longest(): number {
    let most = 0;
    for (let i = 0; i < LANES; i++) most = Math.max(most, at(this.squared, i));
    return most;
  }

  /** Whether every lane's last step was certain to be the last. */
  private arrived(k: number): boolean {
    const short = this.turning === undefined ? SUCCESSOR_SQUARED : TURNED_SUCCESSOR_SQUARED;
    for (let i = 0; i < LANES; i++) {
      const length = at(this.squared, i);
      const before = k > 0 ? at(this.before, i) : 0;
      const successor = before > 0 ? (length * length) / before : length;
      const last = length <= ARRIVED_SQUARED || (length <= NEARLY_SQUARED && successor <= short);
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
