/**
 * The same technician without the product, as it is commonly done (common practice, no source). A round is one pass: read the
 * two diagonals from the rear marks to the bar ends and turn until they should be equal; read how far the bar's centre
 * is from the car's centreline and shift; read the distance from the rear marks and roll; set the height by tape and the
 * bubbles. Each reading is taken right before its correction, with the same tape, drops and clumsiness as the other way.
 * What is by eye: how far to turn for a difference of diagonals (a quarter off, one standard deviation), and the centreline,
 * plumbed from the middle of the car's two ends. The pass ends the work when everything read in it was within half the
 * tolerance (the difference of diagonals as it shows at the bar ends) and nothing had to be moved. It starts from a quick
 * first placement by two readings, which is counted apart as one look; a pass has eight readings, which make four looks.
 *
 * `held` is a defter man: he turns until one diagonal reads the mean of both, and rolls and raises with the tape held until it
 * reads what it must, so that these moves are off by a tape reading and the stand's settling and not by a share of their way.
 * `Wide` stops as soon as everything read lies within the tolerance itself.
 */

import { defaultUncertainties } from '../../core/placement/defaults.ts';
import type { WorkClass } from '../../core/placement/equipment.ts';
import type { Pose6 } from '../../core/rehearsal/trueBay.ts';
import { SQUARE } from '../core/placement/trueLayout.ts';
import type { Draws } from './draws.ts';
import {
  type Bay,
  type Cell,
  CLUMSINESS,
  type Effort,
  madeOf,
  type Outcome,
  stationFor,
  trulyWithin,
} from './technician.ts';

/** By eye: share of a turn, and the middle of the car's front and rear end, mm; one standard deviation each. */
export const CLASSICAL = {
  turnShare: 0.25,
  middleMm: { typical: 3, careful: 2, best: 1.5 } satisfies Record<WorkClass, number>,
  /** The car's two ends ahead of the rear axle. */
  frontEndMm: 3500,
  rearEndMm: -900,
} as const;

/** How he works: whether the tape is held while he moves, and within which share of the tolerance all must read. */
export interface Habit {
  readonly held: boolean;
  readonly enough: number;
}

/** As it is commonly done; with the tape held; with either, content with the tolerance itself. */
export const HABITS = {
  byEye: { held: false, enough: 0.5 },
  held: { held: true, enough: 0.5 },
  byEyeWide: { held: false, enough: 1 },
  heldWide: { held: true, enough: 1 },
} as const satisfies Record<string, Habit>;

/** Readings of one pass: two diagonals, the centre, two distances, the height, two bubbles. */
const READINGS_A_PASS = 8;
/** The quick first placement. */
const FIRST_READINGS = 2;

/** Passes after which a technician gives up. */
export const MOST_PASSES = 30;

/** Where the bar ends hang over the floor, from above: car's left then car's right; the face stands 80 mm before the bar. */
function barEnds(pose: Pose6, half: number): readonly [readonly [number, number], readonly [number, number]] {
  const turned = pose.yaw - Math.PI;
  const end = (side: 1 | -1) =>
    [pose.ahead + 80 - side * half * Math.sin(turned), pose.left + side * half * Math.cos(turned)] as const;
  return [end(1), end(-1)];
}

/** Places the target the classical way until it looks right. */
export function placeClassically(
  bay: Bay,
  cell: Cell,
  from: Pose6,
  draws: Draws,
  habit: Habit = HABITS.byEye,
): Outcome {
  const { layout, person } = bay;
  const work = defaultUncertainties.byWork[cell.work];
  const station = stationFor(cell.toleranceMm);
  const half = bay.measuring.equipment.fixture.barLength.mm / 2;
  const { normal } = draws;
  const middle = CLASSICAL.middleMm[cell.work];
  const [frontOff, rearOff] = [middle * normal(), middle * normal()];
  const centrelineAt = (ahead: number): number => {
    const share = (ahead - CLASSICAL.rearEndMm) / (CLASSICAL.frontEndMm - CLASSICAL.rearEndMm);
    return rearOff + share * (frontOff - rearOff);
  };
  const mark = (side: 'L' | 'R'): readonly [number, number] => {
    const [ahead, left] = layout.hubs[`R${side}`];
    const [byAhead, byLeft] = person.errors.beside(`mark.R${side}`);
    return [ahead + byAhead, left + byLeft];
  };
  const marks = [mark('L'), mark('R')] as const;
  const bob = (): number => Math.hypot(work.plumbMm, work.markMm) * normal();
  const tape = (a: readonly [number, number], b: readonly [number, number]): number => {
    const length = Math.hypot(a[0] - b[0] + bob(), a[1] - b[1] + bob());
    return Math.round(length + person.tapeMm(length));
  };
  const goal = SQUARE.target;
  const enough = cell.toleranceMm * habit.enough;
  // What is left when a move ends where a tape of this length reads what it must.
  const stopped = (lengthMm: number): number =>
    person.tapeMm(lengthMm) + bob() + draws.between(-0.5, 0.5) + CLUMSINESS.mm * normal();
  let pose = from;
  let moves = 2;
  const effort = (passes: number): Effort => ({
    looks: 1 + (READINGS_A_PASS / 2) * passes,
    moves,
    readings: FIRST_READINGS + READINGS_A_PASS * passes,
  });
  for (let pass = 1; pass <= MOST_PASSES; pass++) {
    let still = true;
    const needs = (offMm: number): boolean => {
      if (Math.abs(offMm) <= enough) return false;
      still = false;
      moves += 1;
      return true;
    };
    const [left, right] = barEnds(pose, half);
    const difference = tape(marks[1], left) - tape(marks[0], right);
    // A turn carries one end ahead and the other back; a diagonal takes nine tenths of it.
    const diagonal = Math.hypot(left[0], left[1] - marks[1][1]);
    const endMm = (difference / 2) * (diagonal / left[0]);
    if (needs(endMm)) {
      const byEye = (): number => madeOf(endMm * (1 + CLASSICAL.turnShare * normal()), draws);
      const made = habit.held ? endMm + stopped(diagonal) : byEye();
      pose = { ...pose, yaw: pose.yaw + made / half };
    }
    const offCentre = Math.round(pose.left - centrelineAt(pose.ahead) + bob() + work.markMm * normal());
    if (needs(offCentre)) pose = { ...pose, left: pose.left - madeOf(offCentre, draws) };
    const [leftNow, rightNow] = barEnds(pose, half);
    const goalEnds = barEnds(goal, half);
    const apart = (ends: typeof goalEnds): number =>
      (Math.hypot(ends[0][0], ends[0][1] - layout.hubs.RL[1]) +
        Math.hypot(ends[1][0], ends[1][1] - layout.hubs.RR[1])) /
      2;
    const distance = (tape(marks[0], leftNow) + tape(marks[1], rightNow)) / 2 - apart(goalEnds);
    if (needs(distance)) {
      const made = habit.held ? distance + stopped(apart(goalEnds)) : madeOf(distance, draws);
      pose = { ...pose, ahead: pose.ahead - made };
    }
    const height = Math.round(pose.up - goal.up + Math.hypot(work.heightSetMm, work.tapeRepeatMm) * normal());
    if (needs(height)) {
      const made = habit.held ? height + CLUMSINESS.mm * normal() : madeOf(height, draws);
      pose = { ...pose, up: pose.up - made };
    }
    pose = { ...pose, ...bubbles(pose, draws, work.inclinometerRad, half) };
    if (still) return { rounds: pass, pose, within: trulyWithin(pose, station), ...effort(pass) };
  }
  return { rounds: undefined, pose, within: trulyWithin(pose, station), ...effort(MOST_PASSES) };
}

/** Sets the bubbles when they are out by more than a quarter of a degree. */
function bubbles(pose: Pose6, draws: Draws, u: number, half: number): Pick<Pose6, 'pitch' | 'roll'> {
  const set = (tilt: number): number => {
    const seen = tilt + u * draws.normal();
    return Math.abs(seen) > (0.25 * Math.PI) / 180 ? tilt - madeOf(seen * half, draws) / half : tilt;
  };
  return { pitch: set(pose.pitch), roll: set(pose.roll) };
}
