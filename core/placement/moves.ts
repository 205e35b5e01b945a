/**
 * From where the target is found to where it must be, as instructions to the person at the fixture. What moves about what
 * is in `kinematics/`; here the steps become moves with their words, what they change, and what must be read again.
 */
import type { Coordinate } from '../frames.ts';
import { rotate, rotationMatrix, yawPitchRoll } from '../geometry/rotation.ts';
import { subtract, type Vec3 } from '../geometry/vector.ts';
import { type Matrix, multiply, transpose } from '../linalg/matrix.ts';
import { type DecimalSign, formatLength, type LengthUnit } from '../units.ts';
import { PLACEMENT_WORDS, type PlacementWordKey } from '../words/placement.ts';
import { BODIES, type BodyKind } from './bodies/readings.ts';
import type { PlacementFixture } from './equipment.ts';
import type { StationFinding } from './finding.ts';
import type { PoseCovariance } from './found.ts';
import type { Move, MoveKind } from './instruction.ts';
import { beyondMm, turnsText } from './kinematics/amount.ts';
import type { JointPositions } from './kinematics/fixtureKinematics.ts';
import { keptBy } from './kinematics/kept.ts';
import { attitudeOf, type Stand, type StandGeometry, standFor, targetOf } from './kinematics/stand.ts';
import { mayStand } from './kinematics/standing.ts';
import { type OwnUncertainties, pivotFor, type Step, stepsTo } from './kinematics/steps.ts';
import { turnBetween } from './model.ts';
import type { ReadingSpec } from './recipe.ts';
import type { DecisionRuleName } from './requirement.ts';
import { retakeAfter } from './setups.ts';

/** What moves are computed from. `heightMm` is the target's height over the floor, which the mast's length follows. */
export interface MoveInput {
  readonly finding: Pick<StationFinding, 'required' | 'target' | 'covariance' | 'coordinates'>;
  readonly fixture: PlacementFixture;
  readonly heightMm: number;
  readonly recipe: readonly ReadingSpec[];
  /** What carries the target; absent: a bar fixture. */
  readonly body?: BodyKind;
  /** Where the adjusters stand; those not given count as in their middle. */
  readonly positions?: JointPositions;
  /** How the station is judged; guarded when absent. */
  readonly rule?: DecisionRuleName;
  /** What may be left standing, where it does not follow from a proof set's own verdicts (`mayStand`). */
  readonly standing?: OwnUncertainties;
}

/** Standard uncertainties of the found pose along and about the required face's own axes. */
export function ownUncertainties(covariance: PoseCovariance, required: Matrix): OwnUncertainties {
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

/** What one step changes in the target's six coordinates, after minus before. */
function effectOf(
  geometry: StandGeometry,
  before: Stand,
  after: Stand,
): Readonly<Record<Coordinate, number>> {
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

/** The sentence of a step with its turns, where there is one that names them. */
function wordsOf(step: Step): Pick<Move, 'wordKey' | 'values'> {
  const values = moveValues(step.kind, step.amountMm);
  if (step.key.endsWith('.pastEnd')) return { wordKey: step.key, values: {} };
  const withTurns = `${step.key}.turns`;
  return step.turns !== undefined && isWordKey(withTurns)
    ? { wordKey: withTurns, values: { ...values, turns: turnsText(step.turns) } }
    : { wordKey: step.key, values };
}

const isWordKey = (key: string): key is PlacementWordKey => Object.hasOwn(PLACEMENT_WORDS, key);

/**
 * The moves that bring a placed target from its found to its required pose. Empty when nothing is off by more than half of
 * U, or by less than can be set and seen: then moving gains nothing that could be read.
 */
export function movesTo(input: MoveInput): readonly Move[] {
  const { finding, fixture, heightMm, recipe, positions = {} } = input;
  const can = BODIES[input.body ?? 'bar'].moves;
  const required = rotationMatrix(finding.required);
  const turn = yawPitchRoll(multiply(transpose(required), rotationMatrix(finding.target)));
  const halfBarMm = fixture.barLength.mm / 2;
  const { pivot } = pivotFor(fixture.kinematics ?? {}, turn.yawRad, halfBarMm, positions);
  const geometry: StandGeometry = { required, fixture, pivot };
  const { aheadMm, leftMm, upMm } = finding.target;
  // The tape stands upright: the floor under the target is its height below it, however the stand leans.
  const floorUpMm = upMm - heightMm;
  const from = standFor(geometry, [aheadMm, leftMm, upMm], floorUpMm, turn);
  const goal: Vec3 = [finding.required.aheadMm, finding.required.leftMm, finding.required.upMm];
  const u =
    input.standing ??
    mayStand(ownUncertainties(finding.covariance, required), finding.coordinates, input.rule ?? 'guarded');
  const steps = stepsTo({
    geometry,
    from,
    goal,
    floorUpMm,
    u: can.includes('turn') ? u : { ...u, yaw: Number.POSITIVE_INFINITY },
    headingRad: finding.required.yawRad,
    positions,
  });
  let before = from;
  return steps.map((step): Move => {
    const predictedEffect = effectOf(geometry, before, step.after);
    before = step.after;
    const keeps = keptBy({
      kind: step.kind,
      kinematics: fixture.kinematics,
      pastEnd: step.beyondMm !== undefined,
      effect: predictedEffect,
      halfBarMm,
    });
    return {
      kind: step.kind,
      ...wordsOf(step),
      amountMm: step.amountMm,
      ...(step.turns === undefined ? {} : { turns: step.turns }),
      ...(step.beyondMm === undefined ? {} : { beyondMm: step.beyondMm }),
      predictedEffect,
      ...(keeps.length === 0 ? {} : { keeps }),
      thenRead: retakeAfter(recipe, { kind: 'moveDone', move: step.kind, keeps }),
    };
  });
}

/** A slide below this is set to the centre mark itself, mm. */
const SLIDE_ZERO_MM = 0.05;

/** Past the end of the slide the whole fixture is shifted by what is missing. */
function shiftBeyondSlide(finding: StationFinding, pastEndMm: number, recipe: readonly ReadingSpec[]): Move {
  const carLeft = finding.slide?.side === 'carLeft';
  return {
    kind: 'shift',
    wordKey: either(carLeft, 'move.shift.slideEnds.carLeft', 'move.shift.slideEnds.carRight'),
    values: moveValues('shift', pastEndMm),
    amountMm: pastEndMm,
    beyondMm: pastEndMm,
    predictedEffect: { ahead: 0, left: either(carLeft, 1, -1) * pastEndMm, up: 0, yaw: 0, pitch: 0, roll: 0 },
    thenRead: retakeAfter(recipe, { kind: 'moveDone', move: 'shift' }),
  };
}

/** The number to set on the slide for a station, which is all that is moved there. */
export function slideMove(
  finding: StationFinding,
  fixture: Pick<PlacementFixture, 'kinematics'> = {},
  recipe: readonly ReadingSpec[] = [],
): Move | undefined {
  const { slide, station } = finding;
  if (slide === undefined) return undefined;
  const pastEndMm = beyondMm(slide.setMm, fixture.kinematics?.slide);
  if (pastEndMm > SLIDE_ZERO_MM) return shiftBeyondSlide(finding, pastEndMm, recipe);
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
