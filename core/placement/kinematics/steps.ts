/**
 * From a stand as it is to the stand it must be, as an ordered list of steps: turn, roll, shift, raise, lean, level. Each
 * sets one of the stand's own joints to its final value. A step below one standard uncertainty (half of U), or below what
 * can be set and seen, is left out, and what then stays standing is counted in the others. Past the end of an adjuster the
 * step says what to do instead; it still leads to the same end.
 */
import { rotate, rotateBack, type YawPitchRoll } from '../../geometry/rotation.ts';
import { add, scaled, subtract, type Vec3 } from '../../geometry/vector.ts';
import type { PlacementWordKey } from '../../words/placement.ts';
import { endSign } from '../facing.ts';
import type { MoveKind } from '../instruction.ts';
import { beyondMm, settable, turnsFor } from './amount.ts';
import type { FixtureKinematics, JointPositions, TiltAdjuster, Travel } from './fixtureKinematics.ts';
import { CENTRE_PIVOT, type Stand, type StandGeometry, standFor } from './stand.ts';

/** Standard uncertainties of the found pose along and about the required face's own axes; mm and radians. */
export interface OwnUncertainties {
  readonly out: number;
  readonly across: number;
  readonly up: number;
  readonly roll: number;
  readonly pitch: number;
  readonly yaw: number;
}

/** One step: what it leads to, how it is said, and how far it is. */
export interface Step {
  readonly kind: MoveKind;
  readonly after: Stand;
  readonly key: PlacementWordKey;
  /** At the place that is moved, never negative. */
  readonly amountMm: number;
  /** Turns of the screw, where the fixture's data know it and the step is within its ends. */
  readonly turns?: number;
  /** How far the wanted position lies past the adjuster's end; absent within it. */
  readonly beyondMm?: number;
}

/** What steps are computed from. */
export interface StepsInput {
  readonly geometry: StandGeometry;
  readonly from: Stand;
  readonly goal: Vec3;
  readonly floorUpMm: number;
  readonly u: OwnUncertainties;
  /** Heading of the required face in the vehicle frame. */
  readonly headingRad: number;
  readonly positions: JointPositions;
}

const either = <T>(first: boolean, a: T, b: T): T => (first ? a : b);

/** The part of a turn that is left standing: all of it below one u, else what the step's rounding leaves. */
function leftStanding(errorRad: number, u: number, leverMm: number, travel: Travel | undefined): number {
  if (Math.abs(errorRad) <= u) return errorRad;
  const wantedMm = leverMm * Math.sin(errorRad);
  const setMm = settable(wantedMm, travel);
  if (setMm === wantedMm) return 0;
  return errorRad - Math.asin(Math.max(-1, Math.min(1, setMm / leverMm)));
}

/** Where a tilt is set: its screw's lever, or the place where a hand sees it. */
const leverOf = (tilt: TiltAdjuster | undefined, seenAtMm: number): number => tilt?.screwAtMm ?? seenAtMm;

/** The turns that will be left standing, each rounded and thresholded on its own. */
export function turnsLeft(
  found: YawPitchRoll,
  u: OwnUncertainties,
  kinematics: FixtureKinematics,
  halfBarMm: number,
  mastMm: number,
): YawPitchRoll {
  const { turn, lean, level } = kinematics;
  return {
    yawRad: leftStanding(found.yawRad, u.yaw, halfBarMm, turn),
    pitchRad: leftStanding(found.pitchRad, u.pitch, leverOf(lean, mastMm), lean),
    rollRad: leftStanding(found.rollRad, u.roll, leverOf(level, halfBarMm), level),
  };
}

/** The pivot of a turn: the adjuster's while it reaches, else the base's. */
export function pivotFor(
  kinematics: FixtureKinematics,
  yawErrorRad: number,
  halfBarMm: number,
  positions: JointPositions,
) {
  const { turn, basePivot } = kinematics;
  const endMm = (positions.turnMm ?? 0) - halfBarMm * Math.sin(yawErrorRad);
  const pastEndMm = beyondMm(endMm, turn);
  const pivot = turn === undefined || pastEndMm > 0 ? (basePivot ?? CENTRE_PIVOT) : turn.pivot;
  return { pivot, pastEndMm };
}

class StepList {
  readonly steps: Step[] = [];
  private stand: Stand;

  constructor(from: Stand) {
    this.stand = from;
  }

  get now(): Stand {
    return this.stand;
  }

  push(change: Partial<Stand>, step: Omit<Step, 'after' | 'turns' | 'beyondMm'>, more: StepExtras): void {
    this.stand = { ...this.stand, ...change };
    const past = more.pastEndMm ?? 0;
    this.steps.push({
      ...step,
      after: this.stand,
      ...(past > 0 ? { beyondMm: past } : {}),
      ...(more.turns === undefined || past > 0 ? {} : { turns: more.turns }),
    });
  }
}

interface StepExtras {
  readonly turns?: number | undefined;
  readonly pastEndMm?: number;
}

function turnStep(list: StepList, input: StepsInput, toYawRad: number): void {
  const { geometry, from, headingRad, positions } = input;
  const halfBarMm = geometry.fixture.barLength.mm / 2;
  const changeRad = toYawRad - from.turn.yawRad;
  if (changeRad === 0) return;
  // Turning by the change carries the bar's end at y by -change y out of the face, that is toward the car.
  const leftEndTowardMm = -changeRad * endSign(headingRad, 'carLeft') * halfBarMm;
  const amountMm = halfBarMm * Math.sin(Math.abs(changeRad));
  const { turn } = geometry.fixture.kinematics ?? {};
  const { pastEndMm } = pivotFor(geometry.fixture.kinematics ?? {}, -changeRad, halfBarMm, positions);
  const near = leftEndTowardMm > 0;
  const key =
    pastEndMm > 0
      ? either(near, 'move.turn.base.carLeftEndToward', 'move.turn.base.carLeftEndAway')
      : either(near, 'move.turn.carLeftEndToward', 'move.turn.carLeftEndAway');
  const turns = turnsFor(amountMm, turn);
  list.push(
    { turn: { ...list.now.turn, yawRad: toYawRad } },
    { kind: 'turn', key, amountMm },
    { turns, pastEndMm },
  );
}

function rollStep(list: StepList, input: StepsInput, outMm: number): void {
  const { geometry, positions } = input;
  const rail = geometry.fixture.kinematics?.roll;
  const pastEndMm = beyondMm((positions.rollMm ?? 0) + outMm, rail);
  const key =
    pastEndMm > 0
      ? either(outMm > 0, 'move.roll.base.toward', 'move.roll.base.away')
      : either(outMm > 0, 'move.roll.toward', 'move.roll.away');
  const along = scaled(rotate(geometry.required, [1, 0, 0]), outMm);
  list.push(
    { base: add(list.now.base, along) },
    { kind: 'roll', key, amountMm: Math.abs(outMm) },
    { turns: turnsFor(outMm, rail), pastEndMm },
  );
}

function shiftStep(list: StepList, input: StepsInput, acrossMm: number, upMm: number): void {
  const { geometry, headingRad, positions } = input;
  const rail = geometry.fixture.kinematics?.shift;
  const pastEndMm = beyondMm((positions.shiftMm ?? 0) + acrossMm, rail);
  const carLeft = acrossMm * endSign(headingRad, 'carLeft') > 0;
  const key =
    pastEndMm > 0
      ? either(carLeft, 'move.shift.base.carLeft', 'move.shift.base.carRight')
      : either(carLeft, 'move.shift.carLeft', 'move.shift.carRight');
  list.push(
    { base: add(list.now.base, rotate(geometry.required, [0, acrossMm, upMm])) },
    { kind: 'shift', key, amountMm: Math.abs(acrossMm) },
    { turns: turnsFor(acrossMm, rail), pastEndMm },
  );
}

function raiseStep(list: StepList, input: StepsInput, mastMm: number): void {
  const mast = input.geometry.fixture.kinematics?.mast;
  const changeMm = mastMm - list.now.mastMm;
  const pastEndMm = beyondMm(mastMm, mast);
  const key =
    pastEndMm > 0
      ? either(changeMm > 0, 'move.raise.pastTop', 'move.raise.pastBottom')
      : either(changeMm > 0, 'move.raise.up', 'move.raise.down');
  list.push(
    { mastMm },
    { kind: 'raise', key, amountMm: pastEndMm > 0 ? pastEndMm : Math.abs(changeMm) },
    { turns: turnsFor(changeMm, mast), pastEndMm },
  );
}

/** How a tilt is said and how far its screw goes. */
function tiltExtras(tilt: TiltAdjuster | undefined, changeRad: number, nowMm: number | undefined) {
  if (tilt === undefined) return { turns: undefined, pastEndMm: 0 };
  const screwMm = tilt.screwAtMm * Math.sin(changeRad);
  return { turns: turnsFor(screwMm, tilt), pastEndMm: beyondMm((nowMm ?? 0) + screwMm, tilt) };
}

function leanStep(list: StepList, input: StepsInput, toPitchRad: number): void {
  const changeRad = toPitchRad - list.now.turn.pitchRad;
  if (changeRad === 0) return;
  const { lean } = input.geometry.fixture.kinematics ?? {};
  const extras = tiltExtras(lean, changeRad, input.positions.leanMm);
  // Pitch leans the top out of the face, that is toward the car.
  const key =
    extras.pastEndMm > 0 ? 'move.lean.pastEnd' : either(changeRad > 0, 'move.lean.toward', 'move.lean.away');
  // Seen at the top of the mast as it was read, or at the screw of a head that tilts.
  const leverMm = lean?.where === 'head' ? lean.screwAtMm : input.from.mastMm;
  const amountMm = leverMm * Math.sin(Math.abs(changeRad));
  list.push(
    { turn: { ...list.now.turn, pitchRad: toPitchRad } },
    { kind: 'lean', key, amountMm: extras.pastEndMm > 0 ? extras.pastEndMm : amountMm },
    extras,
  );
}

function levelStep(list: StepList, input: StepsInput, toRollRad: number): void {
  const { geometry, headingRad } = input;
  const changeRad = toRollRad - list.now.turn.rollRad;
  if (changeRad === 0) return;
  const halfBarMm = geometry.fixture.barLength.mm / 2;
  const { level } = geometry.fixture.kinematics ?? {};
  const extras = tiltExtras(level, changeRad, input.positions.levelMm);
  // Roll lifts what lies along +Y.
  const up = changeRad * endSign(headingRad, 'carLeft') > 0;
  const key =
    extras.pastEndMm > 0
      ? 'move.level.pastEnd'
      : either(up, 'move.level.carLeftUp', 'move.level.carLeftDown');
  const amountMm = halfBarMm * Math.sin(Math.abs(changeRad));
  list.push(
    { turn: { ...list.now.turn, rollRad: toRollRad } },
    { kind: 'level', key, amountMm: extras.pastEndMm > 0 ? extras.pastEndMm : amountMm },
    extras,
  );
}

/** The steps worth making, in the order they are made. */
export function stepsTo(input: StepsInput): readonly Step[] {
  const { geometry, from, goal, floorUpMm, u } = input;
  const kinematics = geometry.fixture.kinematics ?? {};
  const left = turnsLeft(from.turn, u, kinematics, geometry.fixture.barLength.mm / 2, from.mastMm);
  const to = standFor(geometry, goal, floorUpMm, left);
  const travel = rotateBack(geometry.required, subtract(to.base, from.base));
  const list = new StepList(from);
  turnStep(list, input, left.yawRad);
  const outMm = settable(travel[0], kinematics.roll);
  if (outMm !== 0 && Math.abs(travel[0]) > u.out) rollStep(list, input, outMm);
  const acrossMm = settable(travel[1], kinematics.shift);
  if (acrossMm !== 0 && Math.abs(travel[1]) > u.across) shiftStep(list, input, acrossMm, travel[2]);
  const raisedMm = settable(to.mastMm - from.mastMm, kinematics.mast);
  if (raisedMm !== 0 && Math.abs(to.mastMm - from.mastMm) > u.up) {
    raiseStep(list, input, from.mastMm + raisedMm);
  }
  leanStep(list, input, left.pitchRad);
  levelStep(list, input, left.rollRad);
  return list.steps;
}
