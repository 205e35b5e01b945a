/**
 * From where the target is found to where it must be, as instructions to the person at the fixture.
 *
 * The fixture is described by six numbers that each have their own move: the floor point under the bar's centre (roll
 * along the face's normal, shift along the bar), the heading about that point (turn), the mast's length (raise), the lean
 * and the level of the mast about that floor point. Each move sets one of them to its final value, so none undoes another
 * and their order does not matter for the end; the lean that is still to come is already counted in the roll. A move
 * below one standard uncertainty of its coordinate (half of U) is not asked for, and what is then left standing is
 * counted in the others. Limits: the base is rigid and castors on a floor parallel to the car's plane; after the moves
 * everything is read again anyway.
 */
import type { Coordinate } from '../frames.ts';
import { rotate, rotateBack, rotationMatrix, type YawPitchRoll, yawPitchRoll } from '../geometry/rotation.ts';
import { add, scaled, subtract, type Vec3 } from '../geometry/vector.ts';
import { type Matrix, multiply, transpose } from '../linalg/matrix.ts';
import { type DecimalSign, formatLength, type LengthUnit } from '../units.ts';
import type { PlacementWordKey } from '../words/placement.ts';
import { endSign } from './facing.ts';
import { turnBetween } from './model.ts';
import type { ReadingSpec } from './recipe.ts';
import { retakeAfter } from './setups.ts';
import type { Move, MoveKind, PlacementFixture, PoseCovariance, StationFinding } from './types.ts';

/** What moves are computed from. `heightMm` is the target's height over the floor, which the mast's length follows. */
export interface MoveInput {
  readonly finding: StationFinding;
  readonly fixture: PlacementFixture;
  readonly heightMm: number;
  readonly recipe: readonly ReadingSpec[];
}

/** The fixture by the six numbers that are moved; turns are about the required face's own axes. */
interface Stand {
  readonly base: Vec3;
  readonly mastMm: number;
  readonly turn: YawPitchRoll;
}

interface Geometry {
  readonly required: Matrix;
  readonly fixture: PlacementFixture;
}

const attitudeOf = (geometry: Geometry, turn: YawPitchRoll): Matrix =>
  multiply(geometry.required, rotationMatrix(turn));

const reach = (fixture: PlacementFixture, mastMm: number): Vec3 => [
  fixture.face.outMm,
  fixture.face.acrossMm,
  mastMm,
];

const targetOf = (geometry: Geometry, stand: Stand): Vec3 =>
  add(stand.base, rotate(attitudeOf(geometry, stand.turn), reach(geometry.fixture, stand.mastMm)));

/** The stand that brings the target to `at` with this attitude, its base on the floor at height `floorUpMm`. */
function standFor(geometry: Geometry, at: Vec3, floorUpMm: number, turn: YawPitchRoll): Stand {
  const attitude = attitudeOf(geometry, turn);
  const offMast = rotate(attitude, reach(geometry.fixture, 0));
  const mastAxis = rotate(attitude, [0, 0, 1]);
  const mastMm = (at[2] - floorUpMm - offMast[2]) / mastAxis[2];
  return { base: subtract(at, add(offMast, scaled(mastAxis, mastMm))), mastMm, turn };
}

/** Standard uncertainties of the found pose along and about the required face's own axes. */
function ownUncertainties(covariance: PoseCovariance, required: Matrix) {
  const block = (order: readonly [number, number, number], axis: Vec3): number => {
    const own = rotate(required, axis);
    let variance = 0;
    order.forEach((i, a) => {
      order.forEach((j, b) => {
        variance += (own[a] ?? 0) * (own[b] ?? 0) * (covariance[i]?.[j] ?? 0);
      });
    });
    return Math.sqrt(Math.max(0, variance));
  };
  // Small turns as a vector: about X roll (5), about Y pitch (4), about Z yaw (3).
  return {
    out: block([0, 1, 2], [1, 0, 0]),
    across: block([0, 1, 2], [0, 1, 0]),
    up: block([0, 1, 2], [0, 0, 1]),
    roll: block([5, 4, 3], [1, 0, 0]),
    pitch: block([5, 4, 3], [0, 1, 0]),
    yaw: block([5, 4, 3], [0, 0, 1]),
  };
}

const kept = (error: number, u: number): number => (Math.abs(error) > u ? 0 : error);

interface Step {
  readonly kind: MoveKind;
  readonly after: Stand;
  readonly key: PlacementWordKey;
  readonly amountMm: number;
}

/**
 * The slots of a move's sentence in a person's unit. A slide is set to a tenth of a millimetre; a push is told to one
 * decimal below 10 mm and in whole millimetres above, which is what a hand can do.
 */
export function moveValues(
  kind: MoveKind,
  amountMm: number,
  unit: LengthUnit = 'mm',
  sign: DecimalSign = '.',
): { readonly amount: string } {
  const decimals = kind === 'setSlide' || amountMm < 9.95 ? 1 : 0;
  return { amount: formatLength(amountMm, decimals, unit, sign) };
}

const either = <T>(first: boolean, a: T, b: T): T => (first ? a : b);

/** The steps from one stand to the other that are worth making, in the order they are made. */
function stepsBetween(
  geometry: Geometry,
  from: Stand,
  to: Stand,
  u: ReturnType<typeof ownUncertainties>,
  headingRad: number,
): readonly Step[] {
  const halfBarMm = geometry.fixture.barLength.mm / 2;
  const leftEnd = endSign(headingRad, 'carLeft') * halfBarMm;
  const travel = rotateBack(geometry.required, subtract(to.base, from.base));
  const alongOut = scaled(rotate(geometry.required, [1, 0, 0]), travel[0]);
  const rest = subtract(subtract(to.base, from.base), alongOut);
  const steps: Step[] = [];
  let stand = from;
  const step = (kind: MoveKind, change: Partial<Stand>, key: PlacementWordKey, amountMm: number): void => {
    stand = { ...stand, ...change };
    steps.push({ kind, after: stand, key, amountMm });
  };
  const { turn } = from;
  if (turn.yawRad !== to.turn.yawRad) {
    // Turning by -yaw carries a point (0, y) of the bar by +yaw y out of the face, that is toward the car.
    const leftEndOutMm = turn.yawRad * leftEnd;
    const key = either(leftEndOutMm > 0, 'move.turn.carLeftEndToward', 'move.turn.carLeftEndAway');
    step(
      'turn',
      { turn: { ...stand.turn, yawRad: to.turn.yawRad } },
      key,
      halfBarMm * Math.sin(Math.abs(turn.yawRad)),
    );
  }
  if (Math.abs(travel[0]) > u.out) {
    const key = either(travel[0] > 0, 'move.roll.toward', 'move.roll.away');
    step('roll', { base: add(stand.base, alongOut) }, key, Math.abs(travel[0]));
  }
  if (Math.abs(travel[1]) > u.across) {
    const key = either(travel[1] * leftEnd > 0, 'move.shift.carLeft', 'move.shift.carRight');
    step('shift', { base: add(stand.base, rest) }, key, Math.abs(travel[1]));
  }
  if (Math.abs(to.mastMm - from.mastMm) > u.up) {
    const key = either(to.mastMm > from.mastMm, 'move.raise.up', 'move.raise.down');
    step('raise', { mastMm: to.mastMm }, key, Math.abs(to.mastMm - from.mastMm));
  }
  if (turn.pitchRad !== to.turn.pitchRad) {
    // Pitch leans the top out of the face; undoing it leans it away.
    const key = either(turn.pitchRad < 0, 'move.lean.toward', 'move.lean.away');
    const amountMm = from.mastMm * Math.sin(Math.abs(turn.pitchRad));
    step('lean', { turn: { ...stand.turn, pitchRad: to.turn.pitchRad } }, key, amountMm);
  }
  if (turn.rollRad !== to.turn.rollRad) {
    // Roll lifts what lies along +Y; undoing it lowers that end.
    const key = either(turn.rollRad * leftEnd < 0, 'move.level.carLeftUp', 'move.level.carLeftDown');
    const amountMm = halfBarMm * Math.sin(Math.abs(turn.rollRad));
    step('level', { turn: { ...stand.turn, rollRad: to.turn.rollRad } }, key, amountMm);
  }
  return steps;
}

/** What one step changes in the target's six coordinates, after minus before. */
function effectOf(geometry: Geometry, before: Stand, after: Stand): Readonly<Record<Coordinate, number>> {
  const moved = subtract(targetOf(geometry, after), targetOf(geometry, before));
  const turn = turnBetween(attitudeOf(geometry, before.turn), attitudeOf(geometry, after.turn));
  return {
    ahead: moved[0],
    left: moved[1],
    up: moved[2],
    yaw: turn.yawRad,
    pitch: turn.pitchRad,
    roll: turn.rollRad,
  };
}

/**
 * The moves that bring a placed target from its found to its required pose. Empty when nothing is off by more than half of
 * U: then moving gains nothing that could be read.
 */
export function movesTo({ finding, fixture, heightMm, recipe }: MoveInput): readonly Move[] {
  const required = rotationMatrix(finding.required);
  const geometry: Geometry = { required, fixture };
  const foundTurn = yawPitchRoll(multiply(transpose(required), rotationMatrix(finding.target)));
  const { aheadMm, leftMm, upMm } = finding.target;
  const attitude = attitudeOf(geometry, foundTurn);
  const base = subtract([aheadMm, leftMm, upMm], rotate(attitude, reach(fixture, heightMm)));
  const from: Stand = { base, mastMm: heightMm, turn: foundTurn };
  const u = ownUncertainties(finding.covariance, required);
  const turn: YawPitchRoll = {
    yawRad: kept(foundTurn.yawRad, u.yaw),
    pitchRad: kept(foundTurn.pitchRad, u.pitch),
    rollRad: kept(foundTurn.rollRad, u.roll),
  };
  const goal: Vec3 = [finding.required.aheadMm, finding.required.leftMm, finding.required.upMm];
  const to = standFor(geometry, goal, base[2], turn);
  let before = from;
  return stepsBetween(geometry, from, to, u, finding.required.yawRad).map((step): Move => {
    const predictedEffect = effectOf(geometry, before, step.after);
    before = step.after;
    return {
      kind: step.kind,
      wordKey: step.key,
      values: moveValues(step.kind, step.amountMm),
      amountMm: step.amountMm,
      predictedEffect,
      thenRead: retakeAfter(recipe, { kind: 'moveDone', move: step.kind }),
    };
  });
}

/** A slide below this is set to the centre mark itself, mm. */
const SLIDE_ZERO_MM = 0.05;

/** The number to set on the slide for a station, which is all that is moved there. */
export function slideMove(finding: StationFinding): Move | undefined {
  const { slide, station } = finding;
  if (slide === undefined) return undefined;
  const atCentre = slide.setMm < SLIDE_ZERO_MM;
  const side = either(slide.side === 'carLeft', 'move.slide.carLeft', 'move.slide.carRight');
  const along = finding.coordinates.find((each) => each.coordinate === 'left')?.deviation ?? 0;
  return {
    kind: 'setSlide',
    wordKey: atCentre ? 'move.slide.centre' : side,
    values: atCentre ? {} : moveValues('setSlide', slide.setMm),
    amountMm: slide.setMm,
    predictedEffect: {
      ahead: 0,
      left: finding.basis === 'found' ? -along : 0,
      up: 0,
      yaw: 0,
      pitch: 0,
      roll: 0,
    },
    thenRead: [
      { id: 'slide', station, purpose: 'proof' },
      { id: 'target.height', station, purpose: 'proof' },
    ],
  };
}

/** True when the target's own coordinate on the slide is off by more than half of U and may be set again. */
export function slideIsOff(finding: StationFinding): boolean {
  const sideways = finding.coordinates.find((each) => each.coordinate === 'left');
  return sideways !== undefined && Math.abs(sideways.deviation) > sideways.u;
}
