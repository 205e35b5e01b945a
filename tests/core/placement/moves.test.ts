/**
 * Moves given to a simulated person who only follows the words: a stand on castors with a mast, on a floor that slopes,
 * beside a car that stands on another slope. The words alone must bring the target home, and no move may undo another.
 */
import { describe, expect, test } from 'vitest';
import type { Move } from '../../../core/placement/instruction.ts';
import { moveValues } from '../../../core/placement/moves.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import {
  dotted,
  type P3,
  plus,
  by as scaledBy,
  type TrueLayout,
  turnedAxes,
  worldOf,
} from '../../../core/rehearsal/trueBay.ts';
import { answerOf, coordinateOf, stationOf } from './answers.ts';
import { CENTRE, EQUIPMENT, inputOf, SLIDES, SQUARE } from './trueLayout.ts';

const DEG = Math.PI / 180;

/** The stand as hands know it: where it stands, where it looks, how it leans against gravity, how far the mast is out. */
interface Hands {
  readonly x: number;
  readonly y: number;
  readonly heading: number;
  readonly pitch: number;
  readonly roll: number;
  readonly mast: number;
}

const LEVEL = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const;
const HALF_BAR = EQUIPMENT.fixture.barLength.mm / 2;

const CAR: TrueLayout = {
  ...SQUARE,
  carHeading: 20 * DEG,
  carAt: [300, -200],
  floorSlope: [0.006, -0.004],
  fixtureFloor: [2, -0.005, 0.003],
};

/** The layout with the stand where the hands have it. */
function layoutOf(hands: Hands): TrueLayout {
  const world = worldOf(CAR, EQUIPMENT);
  const axes = turnedAxes(LEVEL, hands.heading, hands.pitch, hands.roll);
  const { outMm, acrossMm } = EQUIPMENT.fixture.face;
  const base: P3 = [hands.x, hands.y, world.fixtureFloorZ(hands.x, hands.y)];
  const target = plus(
    base,
    plus(scaledBy(axes.x, outMm), plus(scaledBy(axes.y, acrossMm), scaledBy(axes.z, hands.mast))),
  );
  const [ahead, left, up] = world.toCar(target);
  const seen = (axis: P3): P3 => [
    dotted(world.carAxes.x, axis),
    dotted(world.carAxes.y, axis),
    dotted(world.carAxes.z, axis),
  ];
  const [x, y, z] = [seen(axes.x), seen(axes.y), seen(axes.z)];
  const attitude = { yaw: Math.atan2(x[1], x[0]), pitch: Math.asin(-x[2]), roll: Math.atan2(y[2], z[2]) };
  return { ...CAR, target: { ahead, left, up, ...attitude } };
}

/** Does what the words say, by the amount they say, and nothing else. */
function follow(hands: Hands, move: Move): Hands {
  const toward: P3 = [Math.cos(hands.heading), Math.sin(hands.heading), 0];
  const world = worldOf(CAR, EQUIPMENT);
  // The fixture's Y end is the car's left when it points there.
  const plusYIsCarLeft = dotted([-toward[1], toward[0], 0], world.carAxes.y) > 0 ? 1 : -1;
  const carLeft: P3 = [-toward[1] * plusYIsCarLeft, toward[0] * plusYIsCarLeft, 0];
  const walk = (along: P3, mm: number): Hands => ({
    ...hands,
    x: hands.x + along[0] * mm,
    y: hands.y + along[1] * mm,
  });
  const bar = Math.asin(move.amountMm / HALF_BAR);
  const top = Math.asin(move.amountMm / hands.mast);
  switch (move.wordKey) {
    case 'move.roll.toward':
      return walk(toward, move.amountMm);
    case 'move.roll.away':
      return walk(toward, -move.amountMm);
    case 'move.shift.carLeft':
      return walk(carLeft, move.amountMm);
    case 'move.shift.carRight':
      return walk(carLeft, -move.amountMm);
    case 'move.turn.carLeftEndToward':
      return { ...hands, heading: hands.heading - plusYIsCarLeft * bar };
    case 'move.turn.carLeftEndAway':
      return { ...hands, heading: hands.heading + plusYIsCarLeft * bar };
    case 'move.raise.up':
      return { ...hands, mast: hands.mast + move.amountMm };
    case 'move.raise.down':
      return { ...hands, mast: hands.mast - move.amountMm };
    case 'move.lean.toward':
      return { ...hands, pitch: hands.pitch + top };
    case 'move.lean.away':
      return { ...hands, pitch: hands.pitch - top };
    case 'move.level.carLeftUp':
      return { ...hands, roll: hands.roll + plusYIsCarLeft * bar };
    case 'move.level.carLeftDown':
      return { ...hands, roll: hands.roll - plusYIsCarLeft * bar };
    default:
      throw new Error(`hands cannot ${move.wordKey}`);
  }
}

interface Case {
  readonly name: string;
  readonly station: StationRequirement;
  readonly near: 'ahead' | 'behind';
}
const corner = (
  place: 'ahead' | 'behind',
  ahead: number,
  left: number,
  yawDeg: number,
): StationRequirement => ({
  ...CENTRE,
  place,
  ahead: { ...CENTRE.ahead, value: ahead },
  left: { ...CENTRE.left, value: left },
  yaw: { ...CENTRE.yaw, value: yawDeg * DEG },
});
const CASES: readonly Case[] = [
  { name: 'ahead', station: CENTRE, near: 'ahead' },
  { name: 'behind', station: corner('behind', -2600, 0, 0), near: 'behind' },
  { name: 'at the front-left corner', station: corner('ahead', 4900, 900, 210), near: 'ahead' },
  { name: 'at the rear-right corner', station: corner('behind', -2700, -900, 30), near: 'behind' },
];

/** Hands that have put the stand down badly: every one of the six is off. */
function putDown({ station }: Case): Hands {
  const world = worldOf(CAR, EQUIPMENT);
  const at = plus(
    world.carOrigin,
    plus(
      scaledBy(world.carAxes.x, station.ahead.value + 63),
      scaledBy(world.carAxes.y, station.left.value - 41),
    ),
  );
  return {
    x: at[0],
    y: at[1],
    heading: CAR.carHeading + station.yaw.value + 1.4 * DEG,
    pitch: 0.9 * DEG,
    roll: -0.7 * DEG,
    mast: station.up.value - 22,
  };
}

const solveAt = (hands: Hands, { station, near }: Case): PlacementAnswer =>
  answerOf(inputOf(layoutOf(hands), [station], { near }));

/** How far the base is walked by the rolls and shifts of some moves, mm. */
const walked = (moves: readonly Move[]): number =>
  moves.reduce((sum, move) => sum + (move.kind === 'roll' || move.kind === 'shift' ? move.amountMm : 0), 0);

/** The station with a limit so tight that it is never proven, so that moves are asked for as long as they help. */
const tight = (each: Case): Case => ({
  ...each,
  station: {
    ...each.station,
    ahead: { ...each.station.ahead, permitted: { lower: -0.1, upper: 0.1, stated: true } },
  },
});

describe.each(CASES)('a target $name', (usual) => {
  const it = tight(usual);

  test('comes home when all moves are made in their order, then read again: at most two rounds', () => {
    let hands = putDown(it);
    const rounds: number[] = [];
    for (let round = 0; round < 4; round++) {
      const { moves } = solveAt(hands, it);
      rounds.push(moves.length);
      if (moves.length === 0) break;
      hands = moves.reduce(follow, hands);
    }
    expect(rounds[0]).toBe(6);
    expect(rounds.length).toBeLessThanOrEqual(3);
    expect(rounds.at(-1)).toBe(0);
    const home = solveAt(hands, it);
    for (const { coordinate, deviation, u, permitted } of stationOf(home).coordinates) {
      // A deviation may stand within u, or within half of the room that the guard band leaves of its tolerance.
      const halfRoom = ((permitted?.upper ?? 0) - 1.645 * u) / 2;
      expect(Math.abs(deviation), coordinate).toBeLessThanOrEqual(Math.max(u, halfRoom) * 1.001);
    }
  });

  test('asks for one move less after each single move, and never again for one that was made', () => {
    let hands = putDown(it);
    const made = new Set<string>();
    let left = 7;
    for (let step = 0; step < 10; step++) {
      const { moves } = solveAt(hands, it);
      expect(moves.length).toBeLessThan(left);
      left = moves.length;
      const [move] = moves;
      if (move === undefined) break;
      expect(made.has(move.kind), `${move.kind} again after ${[...made].join(', ')}`).toBe(false);
      made.add(move.kind);
      hands = follow(hands, move);
    }
    const order = ['turn', 'roll', 'shift', 'raise', 'lean', 'level'];
    expect([...made]).toEqual(order.filter((kind) => made.has(kind)));
    // What lies well within its tolerance once the others are made may stand.
    expect(made.size).toBeGreaterThanOrEqual(5);
  });

  test('ends in the same place in whatever order the moves are made', () => {
    const { moves } = solveAt(putDown(it), it);
    const poseAfter = (order: readonly Move[]) => layoutOf(order.reduce(follow, putDown(it))).target;
    const [forth, reverse] = [poseAfter(moves), poseAfter([...moves].reverse())];
    // Walking before the turn instead of after it goes astray by the way times the sine of the turn, and no farther.
    expect(Math.hypot(forth.ahead - reverse.ahead, forth.left - reverse.left)).toBeLessThan(
      walked(moves) * Math.sin(1.4 * DEG) + 0.5,
    );
    expect(Math.abs(forth.up - reverse.up)).toBeLessThan(0.5);
  });

  test('predicts what its moves do', () => {
    const before = solveAt(putDown(it), it);
    const after = solveAt(before.moves.reduce(follow, putDown(it)), it);
    for (const coordinate of ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const) {
      const predicted = before.moves.reduce((sum, move) => sum + move.predictedEffect[coordinate], 0);
      const [was, is] = [coordinateOf(before, coordinate), coordinateOf(after, coordinate)];
      // The floor under the fixture falls otherwise than the car's plane, by up to 0.012: nobody can predict that.
      const floor = coordinate === 'up' ? 0.012 * walked(before.moves) : 0;
      expect(Math.abs(was.deviation + predicted - is.deviation), coordinate).toBeLessThan(is.u + floor);
    }
  });
});

describe('when no move is asked for', () => {
  const offBy = (ahead: number, permittedMm: number): PlacementAnswer => {
    const station: StationRequirement = {
      ...CENTRE,
      ahead: {
        value: 5000,
        from: 'rearAxle',
        permitted: { lower: -permittedMm, upper: permittedMm, stated: true },
      },
    };
    return answerOf(inputOf({ ...SQUARE, target: { ...SQUARE.target, ahead: 5000 + ahead } }, [station]));
  };
  const u = coordinateOf(offBy(0, 10), 'ahead').u;

  test('a station that is proven asks for none, however far inside it is off', () => {
    expect(offBy(6, 10).worst).toBe('proven');
    expect(offBy(6, 10).moves).toEqual([]);
  });
  test('below half of U none is asked for, above it is', () => {
    expect(offBy(0.95 * u, 0.5).moves).toEqual([]);
    expect(offBy(1.05 * u, 0.5).moves.map((move) => move.kind)).toEqual(['roll']);
  });
  test('what cannot be judged asks for a better reading, not for a move', () => {
    const answer = offBy(0.5 * u, 0.5 * u);
    expect(coordinateOf(answer, 'ahead').verdict).toBe('cannotBeJudged');
    expect(answer.moves).toEqual([]);
    expect(answer.nextAction.wordKey).toBe('next.betterReading');
  });
  test('a lean that is left standing is made good by the roll', () => {
    // 0.04 degrees is below one u of 0.05; at 1350 mm it carries the target 0.9 mm, which the base must give back.
    const lean = 0.04 * DEG;
    const layout = { ...SQUARE, target: { ...SQUARE.target, ahead: 5020, pitch: lean } };
    const station = {
      ...CENTRE,
      ahead: { ...CENTRE.ahead, permitted: { lower: -0.1, upper: 0.1, stated: true } },
    };
    const { moves } = answerOf(inputOf(layout, [station]));
    expect(moves.map((move) => move.kind)).toEqual(['roll']);
    expect(moves[0]?.amountMm).toBeCloseTo(20, 9);
  });
});

describe('slides', () => {
  const stations = [CENTRE, ...SLIDES];
  test('show the number to set and its side, and no arrow for the fixture', () => {
    const answer = answerOf(inputOf({ ...SQUARE, target: { ...SQUARE.target, left: 3 } }, stations));
    expect(answer.moves.map((move) => move.kind)).toEqual(['setSlide']);
    expect(answer.moves[0]).toMatchObject({ wordKey: 'move.slide.carLeft', values: { amount: '547.0 mm' } });
    expect(answer.moves[0]?.thenRead.map((slot) => `${slot.id}@${slot.station}`)).toEqual([
      'slide@west',
      'target.height@west',
    ]);
  });
  test('come one after the other, then the control', () => {
    const west = { west: { towardCarLeft: 550, sag: 0 } };
    const both = { ...west, east: { towardCarLeft: -550, sag: 0 } };
    const afterWest = answerOf(
      inputOf({ ...SQUARE, slides: west }, stations, { leaveOut: ['bar.sameL!control'] }),
    );
    expect(afterWest.moves[0]).toMatchObject({
      wordKey: 'move.slide.carRight',
      values: { amount: '550.0 mm' },
    });
    const afterBoth = answerOf(
      inputOf({ ...SQUARE, slides: both }, stations, { leaveOut: ['bar.sameL!control'] }),
    );
    expect(afterBoth.moves).toEqual([]);
    expect(afterBoth.nextReading).toEqual({ id: 'bar.sameL', purpose: 'control' });
    const done = answerOf(inputOf({ ...SQUARE, slides: both }, stations));
    expect(done.nextAction.wordKey).toBe('next.proven');
    expect(done.missing).toEqual([]);
  });
  test('wait until the bar stands where it must', () => {
    const answer = answerOf(inputOf({ ...SQUARE, target: { ...SQUARE.target, ahead: 5030 } }, stations));
    expect(answer.moves.map((move) => move.kind)).toEqual(['roll']);
  });
  test('that were set wrongly are to be set again', () => {
    const slides = { west: { towardCarLeft: 530, sag: 0 } };
    const answer = answerOf(inputOf({ ...SQUARE, slides }, stations));
    expect(coordinateOf(answer, 'left', 'west').verdict).toBe('outside');
    expect(answer.moves[0]).toMatchObject({ kind: 'setSlide', values: { amount: '550.0 mm' } });
    expect(answer.moves[0]?.predictedEffect.left).toBeCloseTo(20, 6);
  });
});

describe('amounts as a hand can make them', () => {
  test('tenths below 10 mm, whole millimetres above, a slide always in tenths', () => {
    expect(moveValues('roll', 9.94).amount).toBe('9.9 mm');
    expect(moveValues('roll', 9.96).amount).toBe('10 mm');
    expect(moveValues('shift', 123.4).amount).toBe('123 mm');
    expect(moveValues('setSlide', 547).amount).toBe('547.0 mm');
  });
  test("in a person's unit and decimal sign", () => {
    // Never less than two places of an inch: a tenth of an inch is 2.5 mm. 123.4 / 25.4 = 4.858.
    expect(moveValues('roll', 25.4, 'in').amount).toBe('1.00 in');
    expect(moveValues('roll', 123.4, 'in').amount).toBe('4.86 in');
    expect(moveValues('raise', 4.25, 'mm', ',').amount).toMatch(/^4,[23] mm$/);
  });
});
