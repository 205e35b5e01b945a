/**
 * A simulated technician in a bay: how the car was measured, how a fixture is put up, how far a hand goes wrong, and what a
 * full proof set says: the bar ends dropped anew, four bar distances, height and tilts read, solved by `solvePlacement`. The
 * car was measured once: its drops, lines and tapes, with their errors, stay for all rounds, as do the tape's scale and the
 * floor readings. What is done between proof sets is in `guidedLooks.ts`, the way without the product in `classicalWay.ts`.
 */
import { COORDINATES, type Coordinate } from '../../core/frames.ts';
import type { WorkClass } from '../../core/placement/equipment.ts';
import type { PlacementAnswer } from '../../core/placement/placementAnswer.ts';
import type { PlacementInput } from '../../core/placement/placementInput.ts';
import type { PlacementReading } from '../../core/placement/placementReading.ts';
import type { DecisionRuleName, StationRequirement } from '../../core/placement/requirement.ts';
import { solvePlacement } from '../../core/placement/solvePlacement.ts';
import type { Pose6, TrueLayout } from '../../core/rehearsal/trueBay.ts';
import { CENTRE, EQUIPMENT, SQUARE } from '../core/placement/trueLayout.ts';
import { type Measuring, personIn, readBy, type SimulatedPerson } from './bayErrors.ts';
import type { Draws } from './draws.ts';

const DEG = Math.PI / 180;

/** How moves go wrong, one standard deviation each: a share of an amount that is told, and what a stand let go settles by. */
export const CLUMSINESS = { share: 0.05, mm: 2 } as const;
/** What is set without a reading in the quick first placement: sideways by sight along the car, height by the mast's own scale, bubbles. */
export const BY_EYE = { leftMm: 20, upMm: 10, tiltRad: 0.3 * DEG } as const;
/** Farthest from the required pose at the start. */
export const START = { mm: 300, rad: 5 * DEG } as const;
/** Proof sets after which a technician gives up. */
export const MOST_ROUNDS = 8;
/** Drops of each hub: two where the work is careful. */
export const DROPS: Readonly<Record<WorkClass, number>> = { typical: 1, careful: 2, best: 2 };

/** One kind of job of the study. */
export interface Cell {
  readonly toleranceMm: number;
  readonly rule: DecisionRuleName;
  readonly work: WorkClass;
}

/** The station: lengths within T either way, turns within half a degree. */
export function stationFor(toleranceMm: number): StationRequirement {
  const mm = { lower: -toleranceMm, upper: toleranceMm, stated: true };
  return {
    ...CENTRE,
    ahead: { ...CENTRE.ahead, permitted: mm },
    left: { ...CENTRE.left, permitted: mm },
    up: { ...CENTRE.up, permitted: mm },
  };
}

/** A measured car with a fixture somewhere before it. */
export interface Bay {
  readonly layout: TrueLayout;
  readonly person: SimulatedPerson;
  readonly measuring: Measuring;
  readonly carReadings: readonly PlacementReading[];
}

/** The car's readings and those of the floor, which are taken before the fixture comes. */
const OF_FIXTURE = /^(?:bar\.|target\.|fixture\.)/;

/** Draws a bay: an ordinary car on a floor of up to 0.5 %, and the person's lasting errors. */
export function bayFor(work: WorkClass, draws: Draws): Bay {
  const slope = (): number => draws.between(-0.005, 0.005);
  const layout: TrueLayout = {
    ...SQUARE,
    floorSlope: [slope(), slope()],
    beyondAhead: 1200,
    beyondBehind: 1200,
  };
  const measuring: Measuring = { equipment: { ...EQUIPMENT, work }, drops: DROPS[work], near: 'ahead' };
  const person = personIn(layout, measuring, draws);
  const carReadings = readBy(person, layout).filter(({ id }) => !OF_FIXTURE.test(id));
  return { layout, person, measuring, carReadings };
}

/** Found minus required of a true pose. Of a face that looks back at the car pitch and roll turn the other way. */
export function trueDeviation(pose: Pose6): Readonly<Record<Coordinate, number>> {
  const goal = SQUARE.target;
  return {
    ahead: pose.ahead - goal.ahead,
    left: pose.left - goal.left,
    up: pose.up - goal.up,
    yaw: pose.yaw - goal.yaw,
    pitch: goal.pitch - pose.pitch,
    roll: goal.roll - pose.roll,
  };
}

/** Whether the target truly stands within all its limits. */
export function trulyWithin(pose: Pose6, station: StationRequirement): boolean {
  const found = trueDeviation(pose);
  return COORDINATES.every((coordinate) => {
    const { lower = -Infinity, upper = Infinity } = station[coordinate].permitted ?? {};
    return found[coordinate] >= lower && found[coordinate] <= upper;
  });
}

/** Somewhere within reach of the required pose. */
export function startPose(draws: Draws): Pose6 {
  const { mm, rad } = START;
  const goal = SQUARE.target;
  return {
    ahead: goal.ahead + draws.between(-mm, mm),
    left: goal.left + draws.between(-mm, mm),
    up: goal.up + draws.between(-mm, mm),
    yaw: goal.yaw + draws.between(-rad, rad),
    pitch: draws.between(-rad, rad),
    roll: draws.between(-rad, rad),
  };
}

/** How much of an intended amount a hand makes of it. */
export function madeOf(amountMm: number, { normal }: Draws): number {
  return amountMm * (1 + CLUMSINESS.share * normal()) + CLUMSINESS.mm * normal();
}

/**
 * The quick first placement: two readings, the distances from the car's two points ahead to the bar ends on their own side;
 * their mean sets how far ahead, their difference the turn. The rest is set without a reading.
 */
export function quickPlacement(bay: Bay, start: Pose6, draws: Draws): Pose6 {
  const { layout, person } = bay;
  const goal = SQUARE.target;
  const half = bay.measuring.equipment.fixture.barLength.mm / 2;
  const point = { ahead: layout.hubs.FL[0] + layout.beyondAhead, left: layout.hubs.FL[1] + layout.armLeft };
  const gap = (pose: Pose6, side: 1 | -1): number => {
    // The bar ends of a face that looks at the car: along its left hand, which is the car's right.
    const turned = pose.yaw - Math.PI;
    const endAhead = pose.ahead + 80 - side * half * Math.sin(turned);
    const endLeft = pose.left + side * half * Math.cos(turned);
    return Math.hypot(endAhead - point.ahead, endLeft - side * point.left);
  };
  const read = (side: 1 | -1): number => {
    const length = gap(start, side);
    return length + person.tapeMm(length) - gap(goal, side);
  };
  const [left, right] = [read(1), read(-1)];
  const nearer = madeOf((left + right) / 2, draws);
  const turn = madeOf((right - left) / 2, draws) / half;
  return {
    ahead: start.ahead - nearer,
    left: goal.left + BY_EYE.leftMm * draws.normal(),
    up: goal.up + BY_EYE.upMm * draws.normal(),
    yaw: start.yaw - turn,
    pitch: BY_EYE.tiltRad * draws.normal(),
    roll: BY_EYE.tiltRad * draws.normal(),
  };
}

/** What it took: everything counted from the fixture as it was rolled in. */
export interface Effort {
  /** Two readings taken to guide the hands. */
  readonly looks: number;
  readonly moves: number;
  /** Single readings of the fixture, those of looks, proof sets and tapes held while moving. */
  readonly readings: number;
}

/** How one placement went. */
export interface Outcome extends Effort {
  /** Proof sets taken, or passes of the classical way; `undefined` when it was given up. */
  readonly rounds: number | undefined;
  readonly pose: Pose6;
  /** Whether the target truly stood within its limits at the end. */
  readonly within: boolean;
}

/** The same car with new marks, lines and readings. */
export function measuredAgain(bay: Bay, draws: Draws): Bay {
  // The equipment stays what it truly is.
  const { truly, arms } = bay.person;
  const person = { ...personIn(bay.layout, bay.measuring, draws), truly, arms };
  const carReadings = readBy(person, bay.layout).filter(({ id }) => !OF_FIXTURE.test(id));
  return { ...bay, person, carReadings };
}

/** A full proof set as it was answered, with the fixture's readings that the answer rests on. */
export interface ProofSet {
  readonly answer: PlacementAnswer;
  readonly fixtureReadings: readonly PlacementReading[];
  /** Readings taken for it, those taken again too. */
  readonly taken: number;
}

/** Readings again of one tape distance, as the screen asks for while the readings contradict each other. */
const MOST_REREADINGS = 2;

/** One full proof set and what it says, with the readings that the screen asks to be read again read again. */
export function proofSet(bay: Bay, cell: Cell, pose: Pose6): ProofSet {
  bay.person.dropAgain();
  const layout = { ...bay.layout, target: pose };
  const first = readBy(bay.person, layout).filter(({ id }) => OF_FIXTURE.test(id));
  let readings = [...bay.carReadings, ...first];
  for (let again = 0; ; again++) {
    const answer = solvePlacement(placementOf(bay, cell, readings));
    if (!answer.ok) throw new Error(`no answer: ${answer.error.code}`);
    const [suspect] = answer.value.suspects;
    const asked = suspect?.separatedBy ?? suspect?.readingIds[0];
    const isReading = readings.some(({ id }) => id === asked);
    if (answer.value.globalTest?.passed !== false || !isReading || again === MOST_REREADINGS) {
      const fixtureReadings = readings.filter(({ id }) => OF_FIXTURE.test(id));
      return { answer: answer.value, fixtureReadings, taken: first.length + again };
    }
    const fresh = readBy(bay.person, layout).filter(({ id }) => id === asked);
    readings = [...readings.filter(({ id }) => id !== asked), ...fresh];
  }
}

/** The input of the product for these readings. */
export function placementOf(bay: Bay, cell: Cell, readings: readonly PlacementReading[]): PlacementInput {
  return {
    readings,
    setUps: { car: 1, fixture: 1 },
    equipment: bay.measuring.equipment,
    stations: [stationFor(cell.toleranceMm)],
    decisionRule: cell.rule,
  };
}
