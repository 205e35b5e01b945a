/**
 * Branch and bound over the counts of a plan. A box of counts is cut off when a tangent shows that nothing in it can prove
 * every goal, or when nothing in it could take less time than what is already found. Tangents hold everywhere, so that one
 * made for a box serves all that come after. A plan is only ever accepted by its own evaluation.
 */
import { item } from '../linalg/at.ts';
import { type Box, lowestWithin, rowsOfSlots, type Tangent, tangentAt } from './allocation.ts';
import type { Design } from './design.ts';
import { type Counts, evaluate } from './evaluate.ts';
import { type Goal, ratiosOf } from './goals.ts';

/** Bounds are trusted to this share of themselves: rounding must never cut off a plan that just proves. */
const ROUNDING = 1e-9;
/** How often a box is asked with a new tangent before it is split. */
const NEW_TANGENTS = 2;
/** Tangents kept; those that cut something off last stand in front. */
const KEPT = 30;

/** Readings that counts amount to. */
export function costOf(design: Design, counts: Counts): number {
  return design.laid.slots.reduce((sum, { cost }, i) => sum + cost * item(counts, i), 0);
}

/** Roughly how long counts take, seconds. */
export function secondsOf(design: Design, counts: Counts): number {
  return design.laid.slots.reduce((sum, { seconds }, i) => sum + seconds * item(counts, i), 0);
}

/** A tangent and what the goals allow of it. */
interface Cut {
  readonly tangent: Tangent;
  readonly allowed: number;
}

/** The quickest plan found so far. */
export interface Incumbent {
  readonly counts: Counts;
  readonly seconds: number;
}

/** One search; call `run` with rising costs and keep the object, which remembers its tangents. */
export class Search {
  best: Incumbent | undefined;
  private readonly design: Design;
  private readonly goals: readonly Goal[];
  private readonly indices: readonly number[];
  private readonly rows: readonly (readonly number[])[];
  private readonly most: Counts;
  private cost = 0;
  private cuts: Cut[] = [];
  private pull: readonly number[];

  /** No slot is ever taken more than `most`. */
  constructor(design: Design, goals: readonly Goal[], most: Counts) {
    this.most = most;
    this.design = design;
    this.goals = goals;
    this.indices = goals.map(({ index }) => index);
    this.rows = rowsOfSlots(design);
    this.pull = goals.map(({ mostVariance }) => 1 / mostVariance);
  }

  /** Searches a box for plans of at most this cost; `open` are the slots that may vary, the first to split in front. */
  run(cost: number, box: Box, open: readonly number[]): void {
    this.cost = cost;
    this.look(box, open);
  }

  private look(box: Box, open: readonly number[]): void {
    const budget = this.cost - costOf(this.design, box.least);
    if (budget < 0) return;
    if (this.best !== undefined && this.leastSeconds(box, open, budget) >= this.best.seconds) return;
    if (this.isCutOff(box, budget)) return;
    const [slot, ...rest] = open;
    if (slot === undefined || budget === 0) {
      this.offer(box.least);
      return;
    }
    for (let made = 0; made < NEW_TANGENTS; made++) {
      this.addCuts(this.guess(box, budget));
      if (this.isCutOff(box, budget)) return;
    }
    const cost = this.design.laid.slots[slot]?.cost ?? 1;
    const from = item(box.least, slot);
    const top = Math.min(item(box.most, slot), from + Math.floor(budget / cost));
    for (let count = top; count >= from; count--) {
      this.look({ least: box.least.with(slot, count), most: box.most.with(slot, count) }, rest);
    }
  }

  private isCutOff(box: Box, budget: number): boolean {
    const index = this.cuts.findIndex(({ tangent, allowed }) => {
      const { bound } = lowestWithin(tangent, box, budget);
      return bound > allowed * (1 + ROUNDING);
    });
    const cut = this.cuts[index];
    if (cut === undefined) return false;
    this.cuts = [cut, ...this.cuts.filter((each) => each !== cut)];
    return true;
  }

  /** A plan in the box to take the next tangent at: where the goals pull, seen from the box's richest plan. */
  private guess(box: Box, budget: number): Counts {
    const latest = this.cuts.find(({ tangent }) => tangent.mixed);
    if (latest === undefined) return box.most;
    return lowestWithin(latest.tangent, box, budget).counts;
  }

  /** Tangents at a plan: one for all goals together, and one for each that is not reached there. */
  private addCuts(counts: Counts): void {
    const { design, goals } = this;
    const evaluation = evaluate(design, counts, this.indices);
    if (evaluation === undefined) return;
    if (goals.every((goal, k) => goal.proven(evaluation, k))) this.offer(counts);
    const ratios = ratiosOf(goals, evaluation);
    const pulled = this.pull.map((p, k) => p * item(ratios, k) * item(ratios, k));
    const norm = pulled.reduce((sum, p, k) => sum + p * (goals[k]?.mostVariance ?? 0), 0);
    this.pull = pulled.map((p) => p / norm);
    const alone = goals.flatMap((goal, k) =>
      item(ratios, k) > 1 ? [goals.map((_, j) => (j === k ? 1 / goal.mostVariance : 0))] : [],
    );
    const made = [this.pull, ...alone].map((pull, i) => ({
      tangent: tangentAt(design, this.rows, this.most, counts, evaluation, pull, i === 0),
      allowed: pull.reduce((sum, p, k) => sum + p * (goals[k]?.mostVariance ?? 0), 0),
    }));
    this.cuts = [...made, ...this.cuts].slice(0, KEPT);
  }

  /** Takes a plan when it proves everything, costs no more than allowed and is quicker than what there is. */
  offer(counts: Counts): void {
    if (costOf(this.design, counts) > this.cost) return;
    const seconds = secondsOf(this.design, counts);
    if (this.best !== undefined && seconds >= this.best.seconds) return;
    const evaluation = evaluate(this.design, counts, this.indices);
    if (evaluation === undefined) return;
    if (this.goals.every((goal, k) => goal.proven(evaluation, k))) this.best = { counts, seconds };
  }

  /** No plan in the box takes less: nothing cheaper proves, so that the whole budget is spent, on the quickest readings. */
  private leastSeconds(box: Box, open: readonly number[], budget: number): number {
    const { slots } = this.design.laid;
    const ways = open
      .map((slot) => ({
        room: (item(box.most, slot) - item(box.least, slot)) * (slots[slot]?.cost ?? 1),
        pace: (slots[slot]?.seconds ?? 0) / (slots[slot]?.cost ?? 1),
      }))
      .sort((a, b) => a.pace - b.pace);
    let left = budget;
    let seconds = secondsOf(this.design, box.least);
    for (const { room, pace } of ways) {
      const spent = Math.min(left, room);
      seconds += spent * pace;
      left -= spent;
    }
    return left > 0 ? Number.POSITIVE_INFINITY : seconds;
  }
}
