/** Ordered moves against a stand of steel that is moved part by part as the words say. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { poseInVehicle } from '../../../../core/frames.ts';
import type { PlacementFixture } from '../../../../core/placement/equipment.ts';
import type { StationFinding } from '../../../../core/placement/finding.ts';
import type { Move } from '../../../../core/placement/instruction.ts';
import type { FixtureKinematics } from '../../../../core/placement/kinematics/fixtureKinematics.ts';
import { movesTo, slideMove } from '../../../../core/placement/moves.ts';
import type { P3 } from '../../../../core/rehearsal/trueBay.ts';
import { say, wordFaults } from '../../../../core/words/index.ts';
import { anglesOf, place, pushed, type Steel, turnedAbout } from './stands.ts';

const DEG = Math.PI / 180;
const HALF_BAR = 1000;
const FACE = { outMm: 80, acrossMm: 15, upMm: 150, uMm: 0.5 };
const fixtureWith = (kinematics?: FixtureKinematics): PlacementFixture => ({
  barLength: { mm: 2 * HALF_BAR, uMm: 0.3 },
  face: FACE,
  ...(kinematics === undefined ? {} : { kinematics }),
});

/** Free hands: nothing is rounded and nothing ends. */
const FREE = { leastMm: -1e6, mostMm: 1e6, stepMm: 0 } as const;
/** Feet 700 mm apart whose tilt lines run beside the centre, and a base that is wound about one far corner of it. */
const FEET: FixtureKinematics = {
  turn: { ...FREE, pivot: { outMm: -420, acrossMm: 260 } },
  roll: FREE,
  shift: FREE,
  mast: FREE,
  lean: { ...FREE, where: 'feet', axisMm: 310, screwAtMm: 620 },
  level: { ...FREE, where: 'feet', axisMm: -340, screwAtMm: 680 },
};
const HEAD: FixtureKinematics = {
  turn: { ...FREE, pivot: { outMm: -60, acrossMm: 0 }, perTurnMm: 4 },
  roll: FREE,
  shift: FREE,
  mast: FREE,
  lean: { ...FREE, where: 'head', axisMm: 0, screwAtMm: 120, perTurnMm: 1.5 },
  level: { ...FREE, where: 'head', axisMm: 0, screwAtMm: 200 },
};

const REQUIRED = { ahead: 5000, left: 0, up: 1350, yaw: Math.PI };
const EXACT = 1e-9;
const covariance = (u: number): number[][] =>
  [0, 1, 2, 3, 4, 5].map((i) => [0, 1, 2, 3, 4, 5].map((j) => (i === j ? u * u : 0)));

function findingOf(
  at: P3,
  angles: ReturnType<typeof anglesOf>,
  requiredYaw: number,
  u = EXACT,
): StationFinding {
  return {
    station: 'centre',
    kind: 'reposition',
    basis: 'found',
    required: poseInVehicle({
      aheadMm: REQUIRED.ahead,
      leftMm: REQUIRED.left,
      upMm: REQUIRED.up,
      yawRad: requiredYaw,
      pitchRad: 0,
      rollRad: 0,
    }),
    target: poseInVehicle({
      aheadMm: at[0],
      leftMm: at[1],
      upMm: at[2],
      yawRad: angles.yaw,
      pitchRad: angles.pitch,
      rollRad: angles.roll,
    }),
    covariance: covariance(u),
    coordinates: [],
    worst: 'outside',
  };
}

/** Does to the steel what a move says, by its amount; the side of the bar's car's-left end follows from the heading. */
function follow(steel: Steel, move: Move, fixture: PlacementFixture, leanLever: number): Steel {
  const k = fixture.kinematics ?? {};
  const leftEnd = Math.cos(steel.heading) > 0 ? 1 : -1;
  const bar = Math.asin(move.amountMm / HALF_BAR);
  const top = Math.asin(move.amountMm / leanLever);
  const key = move.wordKey.replace(/\.turns$/, '');
  const pivot = key.startsWith('move.turn.base.') ? k.basePivot : (k.turn?.pivot ?? k.basePivot);
  const at = pivot ?? { outMm: 0, acrossMm: 0 };
  switch (key.replace('.base', '')) {
    case 'move.turn.carLeftEndToward':
      return turnedAbout(steel, at, -leftEnd * bar);
    case 'move.turn.carLeftEndAway':
      return turnedAbout(steel, at, leftEnd * bar);
    case 'move.roll.toward':
      return pushed(steel, move.amountMm, 0);
    case 'move.roll.away':
      return pushed(steel, -move.amountMm, 0);
    case 'move.shift.carLeft':
      return pushed(steel, 0, leftEnd * move.amountMm);
    case 'move.shift.carRight':
      return pushed(steel, 0, -leftEnd * move.amountMm);
    case 'move.raise.up':
      return { ...steel, mast: steel.mast + move.amountMm };
    case 'move.raise.down':
      return { ...steel, mast: steel.mast - move.amountMm };
    case 'move.lean.toward':
      return { ...steel, lean: steel.lean + top };
    case 'move.lean.away':
      return { ...steel, lean: steel.lean - top };
    case 'move.level.carLeftUp':
      return { ...steel, level: steel.level + leftEnd * bar };
    case 'move.level.carLeftDown':
      return { ...steel, level: steel.level - leftEnd * bar };
    default:
      throw new Error(`steel cannot ${move.wordKey}`);
  }
}

interface Start {
  readonly yaw: number;
  readonly off: readonly [number, number, number];
  readonly turn: readonly [number, number, number];
}
const OFF = fc.double({ min: -173, max: 173, noNaN: true });
const TURN = fc.double({ min: -5 * DEG, max: 5 * DEG, noNaN: true });
/** Up to 300 mm in space (173 mm along each axis) and 5 degrees about each. */
const START: fc.Arbitrary<Start> = fc.record({
  yaw: fc.constantFrom(Math.PI, Math.PI, 0, 210 * DEG, 150 * DEG, 30 * DEG),
  off: fc.tuple(OFF, OFF, OFF),
  turn: fc.tuple(TURN, TURN, TURN),
});

/** A stand put down so that its target is that far off: first built at the required place, then disturbed. */
function putDown(start: Start): Steel {
  return {
    centreOnFloor: [REQUIRED.ahead + start.off[0], REQUIRED.left + start.off[1], 0],
    heading: start.yaw + start.turn[0],
    lean: start.turn[1],
    level: start.turn[2],
    mast: REQUIRED.up + start.off[2],
  };
}

function movesFor(steel: Steel, fixture: PlacementFixture, requiredYaw: number, u = EXACT): readonly Move[] {
  const placed = place(steel, fixture);
  const finding = findingOf(placed.target, anglesOf(placed), requiredYaw, u);
  return movesTo({ finding, fixture, heightMm: placed.target[2], recipe: [] });
}

const MASTS = {
  'without data': { fixture: fixtureWith(), everyStep: 0.5 },
  'with feet and a pivot': { fixture: fixtureWith(FEET), everyStep: 0 },
  'with a tilting head and a turn adjuster': { fixture: fixtureWith(HEAD), everyStep: 0 },
} as const;

/** Where a lean is seen: at the screw of a head that tilts, else at the top of the mast as it stood at first. */
function leanLeverOf(steel: Steel, fixture: PlacementFixture): number {
  const lean = fixture.kinematics?.lean;
  return lean?.where === 'head' ? lean.screwAtMm : steel.mast;
}

describe.each(Object.entries(MASTS))('a stand %s', (_name, { fixture, everyStep }) => {
  test('moves in their order bring the target home from up to 300 mm and 5 degrees', () => {
    fc.assert(
      fc.property(START, (start) => {
        const begun = putDown(start);
        const lever = leanLeverOf(begun, fixture);
        const end = movesFor(begun, fixture, start.yaw).reduce(
          (steel, move) => follow(steel, move, fixture, lever),
          begun,
        );
        const placed = place(end, fixture);
        const angles = anglesOf(placed);
        // A joint below what is seen stays; three of them and the tilts at 1.5 m of mast make the sum.
        const lengthMm = 1e-6 + 4 * everyStep;
        const turnRad = 1e-8 + everyStep / 900;
        expect(Math.abs(placed.target[0] - REQUIRED.ahead)).toBeLessThan(lengthMm);
        expect(Math.abs(placed.target[1] - REQUIRED.left)).toBeLessThan(lengthMm);
        expect(Math.abs(placed.target[2] - REQUIRED.up)).toBeLessThan(lengthMm);
        expect(Math.abs(Math.sin(angles.yaw - start.yaw))).toBeLessThan(turnRad);
        expect(Math.abs(angles.pitch)).toBeLessThan(turnRad);
        expect(Math.abs(angles.roll)).toBeLessThan(turnRad);
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });

  test('the predicted effects add up to the way home, and each is what the steel does', () => {
    fc.assert(
      fc.property(START, (start) => {
        let steel = putDown(start);
        const lever = leanLeverOf(steel, fixture);
        for (const move of movesFor(steel, fixture, start.yaw)) {
          const before = place(steel, fixture);
          steel = follow(steel, move, fixture, lever);
          const after = place(steel, fixture);
          const walked = after.target.map((x, i) => x - (before.target[i] ?? 0));
          // Without data a turn below what is seen stays, and the walk goes along the face as it stands.
          const near = 1e-6 + everyStep * 0.5;
          expect(Math.abs((walked[0] ?? 0) - move.predictedEffect.ahead)).toBeLessThan(near);
          expect(Math.abs((walked[1] ?? 0) - move.predictedEffect.left)).toBeLessThan(near);
          expect(Math.abs((walked[2] ?? 0) - move.predictedEffect.up)).toBeLessThan(near);
        }
      }),
      { seed: 20261126, numRuns: 200 },
    );
  });

  test('no move undoes another: after each, what is left is asked for once and nothing twice', () => {
    fc.assert(
      fc.property(START, (start) => {
        let steel = putDown(start);
        const lever = leanLeverOf(steel, fixture);
        const planned = movesFor(steel, fixture, start.yaw);
        const kinds = planned.map((move) => move.kind);
        expect([...kinds].sort((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b))).toEqual(kinds);
        expect(new Set(kinds).size).toBe(kinds.length);
        for (const move of planned) steel = follow(steel, move, fixture, lever);
        const again = movesFor(steel, fixture, start.yaw, everyStep === 0 ? 1e-6 : 2);
        expect(again.map((move) => move.kind)).toEqual([]);
      }),
      { seed: 20261127, numRuns: 200 },
    );
  });
});

const ORDER: readonly string[] = ['turn', 'roll', 'shift', 'raise', 'lean', 'level'];

describe('the pivot', () => {
  test('a turn about a castor 420 mm behind carries the target, and the walk takes it off: hand-worked', () => {
    // The fixture faces the car from ahead and is turned by 2 degrees too far left, everything else is right.
    const steel: Steel = {
      centreOnFloor: [5080, 15, 0],
      heading: Math.PI + 2 * DEG,
      lean: 0,
      level: 0,
      mast: 1350,
    };
    const fixture = fixtureWith({ basePivot: { outMm: -420, acrossMm: 0 } });
    const [turn, ...rest] = movesFor(steel, fixture, Math.PI);
    expect(turn?.wordKey).toBe('move.turn.carLeftEndAway');
    expect(turn?.amountMm).toBeCloseTo(1000 * Math.sin(2 * DEG), 9);
    // The target sits 500 mm before the castor and 15 mm aside: turned right by 2 degrees about it.
    const r: P3 = [500, 15, 0];
    const [c, s] = [Math.cos(2 * DEG), Math.sin(2 * DEG)];
    // In the car's frame a point (out, across) of a face at heading 180 degrees is (-out, -across).
    const was = [-(c * r[0] - s * r[1]), -(s * r[0] + c * r[1])] as const;
    const is = [-r[0], -r[1]] as const;
    expect(turn?.predictedEffect.ahead).toBeCloseTo(is[0] - was[0], 9);
    expect(turn?.predictedEffect.left).toBeCloseTo(is[1] - was[1], 9);
    // The bar's centre stood right and swung 420 mm times the sine aside; along the face 0.26 mm, which no hand sets.
    expect(rest.map((move) => [move.kind, move.amountMm.toFixed(3)])).toEqual([['shift', '14.658']]);
  });
});

describe('amounts in turns of the adjuster', () => {
  const near = (mm: number): Steel => ({
    centreOnFloor: [5080, 15, 0],
    heading: Math.PI + Math.asin(mm / HALF_BAR),
    lean: 0,
    level: 0,
    mast: 1350,
  });
  const adjuster = {
    leastMm: -40,
    mostMm: 40,
    stepMm: 0.5,
    perTurnMm: 4,
    pivot: { outMm: 0, acrossMm: 0 },
  };
  test('6 mm at the bar end with 4 mm a turn are 1 1/2 turns', () => {
    const [turn] = movesFor(near(6), fixtureWith({ turn: adjuster }), Math.PI);
    expect(turn?.turns).toBeCloseTo(1.5, 6);
    expect(say(turn?.wordKey ?? 'next.proven', turn?.values)).toBe(
      "Turn: car's-left end 6.0 mm away from the car, 1 1/2 turns",
    );
  });
  test('are rounded to the step, and below half a step nothing is asked for', () => {
    const coarse = fixtureWith({ turn: { ...adjuster, stepMm: 2 } });
    expect(movesFor(near(6.7), coarse, Math.PI)[0]?.amountMm).toBeCloseTo(6, 9);
    expect(movesFor(near(7.2), coarse, Math.PI)[0]?.amountMm).toBeCloseTo(8, 9);
    expect(movesFor(near(0.9), coarse, Math.PI).some((move) => move.kind === 'turn')).toBe(false);
  });
  test('past the end the base is turned instead, and its pivot counts', () => {
    const fixture = fixtureWith({ turn: adjuster, basePivot: { outMm: -300, acrossMm: 0 } });
    const [turn] = movesFor(near(52), fixture, Math.PI);
    expect(turn?.wordKey).toBe('move.turn.base.carLeftEndAway');
    expect(turn?.beyondMm).toBeCloseTo(12, 9);
    expect(turn?.turns).toBeUndefined();
    expect(turn?.amountMm).toBeCloseTo(52, 9);
    // 300 + 80 mm before the pivot and 15 mm aside: mostly sideways by 380 mm times the turn.
    expect(turn?.predictedEffect.left).toBeCloseTo(380 * 0.052, 0);
    const position = { turnMm: -20 };
    const placed = place(near(-30), fixture);
    const finding = findingOf(placed.target, anglesOf(placed), Math.PI);
    const from = (positions: typeof position) =>
      movesTo({ finding, fixture, heightMm: 1350, recipe: [], positions })[0];
    expect(from({ turnMm: 0 })?.beyondMm).toBeUndefined();
    expect(from({ turnMm: 15 })?.beyondMm).toBeCloseTo(5, 9);
    expect(from(position)?.beyondMm).toBeUndefined();
  });
});

describe('the ends of mast, rail, feet and slide', () => {
  const level: Steel = { centreOnFloor: [5080, 15, 0], heading: Math.PI, lean: 0, level: 0, mast: 1350 };
  test('a mast that ends at 1320 mm is 30 mm short of 1350, and blocks are asked for', () => {
    const fixture = fixtureWith({ mast: { leastMm: 400, mostMm: 1320, stepMm: 1 } });
    const [raise] = movesFor({ ...level, mast: 1300 }, fixture, Math.PI);
    expect(raise).toMatchObject({
      kind: 'raise',
      wordKey: 'move.raise.pastTop',
      values: { amount: '30 mm' },
    });
    expect(raise?.beyondMm).toBeCloseTo(30, 9);
    expect(raise?.predictedEffect.up).toBeCloseTo(50, 9);
    const low = fixtureWith({ mast: { leastMm: 1400, mostMm: 1900, stepMm: 1 } });
    expect(movesFor({ ...level, mast: 1450 }, low, Math.PI)[0]).toMatchObject({
      wordKey: 'move.raise.pastBottom',
      values: { amount: '50 mm' },
    });
  });
  test('a crank of 6 mm a turn: 45 mm up are 7 1/2 turns', () => {
    const fixture = fixtureWith({ mast: { leastMm: 400, mostMm: 1900, stepMm: 1, perTurnMm: 6 } });
    const [raise] = movesFor({ ...level, mast: 1305 }, fixture, Math.PI);
    expect(raise?.values).toEqual({ amount: '45 mm', turns: '7 1/2 turns' });
  });
  test('a rail that ends asks for the base', () => {
    const fixture = fixtureWith({ shift: { leastMm: -25, mostMm: 25, stepMm: 0.5 } });
    const off: Steel = { ...level, centreOnFloor: [5080, -25, 0] };
    expect(movesFor(off, fixture, Math.PI)[0]).toMatchObject({
      wordKey: 'move.shift.base.carLeft',
      amountMm: 40,
      beyondMm: 15,
    });
  });
  test('feet that end say so without an amount', () => {
    const fixture = fixtureWith({
      level: {
        leastMm: -8,
        mostMm: 8,
        stepMm: 0.2,
        where: 'feet',
        axisMm: 0,
        screwAtMm: 400,
        perTurnMm: 1.5,
      },
    });
    const [steep] = movesFor({ ...level, level: 2 * DEG }, fixture, Math.PI).filter(
      (m) => m.kind === 'level',
    );
    // 400 mm times the sine of 2 degrees is 13.96 mm of foot, rounded to 14.0: 6.0 mm too much.
    expect(steep).toMatchObject({ wordKey: 'move.level.pastEnd', values: {} });
    expect(steep?.beyondMm).toBeCloseTo(6, 6);
    const [gentle] = movesFor({ ...level, level: 1 * DEG }, fixture, Math.PI).filter(
      (m) => m.kind === 'level',
    );
    // 6.98 mm of foot, rounded to 7.0, at 1.5 mm a turn.
    expect(gentle?.turns).toBeCloseTo(7 / 1.5, 6);
    expect(gentle?.values.turns).toBe('4 3/4 turns');
  });
  test('a slide that ends shifts the fixture by what is missing', () => {
    const finding: StationFinding = {
      ...findingOf([5000, 0, 1350], { yaw: Math.PI, pitch: 0, roll: 0 }, Math.PI),
      kind: 'slide',
      basis: 'expected',
      slide: { side: 'carRight', setMm: 612 },
    };
    const kinematics = { slide: { leastMm: -600, mostMm: 600, stepMm: 0.1 } };
    expect(slideMove(finding, { kinematics })).toMatchObject({
      kind: 'shift',
      wordKey: 'move.shift.slideEnds.carRight',
      amountMm: 12,
      predictedEffect: { left: -12 },
    });
    expect(slideMove(finding, {})?.kind).toBe('setSlide');
  });
});

describe('below what can be read or seen', () => {
  test('a u of 2 mm asks for nothing that is off by less', () => {
    const steel: Steel = {
      centreOnFloor: [5081.5, 16.5, 0],
      heading: Math.PI,
      lean: 0,
      level: 0,
      mast: 1351.5,
    };
    expect(movesFor(steel, fixtureWith(), Math.PI, 2)).toEqual([]);
    expect(movesFor(steel, fixtureWith(), Math.PI, 1).map((move) => move.kind)).toEqual([
      'roll',
      'shift',
      'raise',
    ]);
  });
  test('without data half a millimetre is what a hand can set, however sure the reading', () => {
    const steel: Steel = { centreOnFloor: [5080.4, 15, 0], heading: Math.PI, lean: 0, level: 0, mast: 1350 };
    expect(movesFor(steel, fixtureWith(), Math.PI)).toEqual([]);
    const farther = { ...steel, centreOnFloor: [5080.6, 15, 0] as const };
    expect(movesFor(farther, fixtureWith(), Math.PI).map((move) => move.kind)).toEqual(['roll']);
  });
  test('every sentence passes the rule of words', () => {
    for (const kinematics of [undefined, FEET, HEAD]) {
      const steel = putDown({ yaw: Math.PI, off: [60, -40, 30], turn: [0.02, 0.01, -0.02] });
      for (const move of movesFor(steel, fixtureWith(kinematics), Math.PI)) {
        expect(wordFaults(say(move.wordKey, move.values))).toEqual([]);
      }
    }
  });
});
