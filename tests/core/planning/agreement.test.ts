/**
 * What is predicted is what will be found: placement solves perfect readings of a layout written from the definitions alone
 * (tests/core/placement/trueLayout.ts), planning knows the data sheet and the plan. u, dof, U and shares must be the same.
 */
import { describe, expect, test } from 'vitest';
import { COORDINATES } from '../../../core/frames.ts';
import type { PlacementEquipment, WorkClass } from '../../../core/placement/equipment.ts';
import type { PlacementInput } from '../../../core/placement/placementInput.ts';
import type { PlacementReading } from '../../../core/placement/placementReading.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import { planDesign, predict } from '../../../core/planning/predict.ts';
import { planOfReadings } from '../../../core/planning/rank.ts';
import { recipeById } from '../../../core/planning/recipes.ts';
import type { PlanSetUp, RecipeId } from '../../../core/planning/types.ts';
import type { TrueLayout } from '../../../core/rehearsal/trueBay.ts';
import { answerOf } from '../placement/answers.ts';
import { CENTRE, EQUIPMENT, inputOf, SLIDES, SQUARE } from '../placement/trueLayout.ts';
import { CAR } from './setUps.ts';

const DEG = Math.PI / 180;
const BEYOND = { beyondAheadMm: SQUARE.beyondAhead, beyondBehindMm: SQUARE.beyondBehind };

/** Readings repeated as often as `times` says. */
function repeated(
  readings: readonly PlacementReading[],
  times: Readonly<Record<string, number>>,
): readonly PlacementReading[] {
  return readings.flatMap((reading) =>
    Array.from({ length: times[reading.id] ?? 1 }, (_none, i) => ({
      ...reading,
      ref: `${reading.ref}/${i}`,
    })),
  );
}

function expectAgreement(
  layout: TrueLayout,
  setUp: PlanSetUp,
  options: {
    readonly times?: Readonly<Record<string, number>>;
    readonly leaveOut?: readonly string[];
    readonly recipe?: RecipeId;
    readonly near?: 'ahead' | 'behind';
  } = {},
): void {
  const read = inputOf(layout, setUp.stations, { equipment: setUp.equipment, ...options });
  const input: PlacementInput = { ...read, readings: repeated(read.readings, options.times ?? {}) };
  const answer = answerOf(input);
  const design = planDesign(
    { ...setUp, bodyFaceHeight: { mm: layout.face[2], uMm: 5 } },
    recipeById(options.recipe ?? 'default'),
  );
  if (!design.ok) throw new Error(JSON.stringify(design.error));
  const predicted = predict(design.value, planOfReadings(input.readings));
  if (!predicted.ok) throw new Error(JSON.stringify(predicted.error));
  expect(answer.stations).toHaveLength(setUp.stations.length);
  for (const found of answer.stations) {
    expect(found.basis).toBe('found');
    const station = predicted.value.find((each) => each.station === found.station);
    for (const coordinate of COORDINATES) {
      const solved = found.coordinates.find((each) => each.coordinate === coordinate);
      const planned = station?.coordinates.find((each) => each.coordinate === coordinate);
      if (solved === undefined || planned === undefined) throw new Error(`no ${coordinate}`);
      const name = `${found.station} ${coordinate}`;
      expect(planned.u / solved.u, `${name} u`).toBeCloseTo(1, 6);
      expect(planned.U / solved.U, `${name} U`).toBeCloseTo(1, 6);
      expect(planned.dof / solved.dof, `${name} dof`).toBeCloseTo(1, 4);
      expect(planned.shares[0]?.share).toBeCloseTo(solved.shares[0]?.share ?? Number.NaN, 5);
      for (const { readingId, share } of solved.shares) {
        if (share < 1e-4) continue;
        const mine = planned.shares.find((each) => each.readingId === readingId);
        expect(mine?.share ?? 0, `${name} ${readingId}`).toBeCloseTo(share, 5);
      }
    }
  }
}

const setUp = (stations: readonly StationRequirement[], work: WorkClass = 'careful'): PlanSetUp => ({
  car: CAR,
  equipment: { ...EQUIPMENT, work },
  stations,
  decisionRule: 'guarded',
  ...BEYOND,
});

describe('prediction against the solution of perfect readings', () => {
  test.each(['typical', 'careful', 'best'] as const)('%s work, each reading once', (work) => {
    expectAgreement(SQUARE, setUp([CENTRE], work));
  });

  test('several drops of each hub and repeats of tapes, heights and tilts', () => {
    const times = { 'drop.FL': 3, 'drop.FR': 2, 'drop.RL': 2, 'bar.diagLR': 3, 'base.R': 2, 'floor.FL': 2 };
    expectAgreement(SQUARE, setUp([CENTRE]), { times: { ...times, 'target.height': 2, 'fixture.pitch': 3 } });
  });

  test('without one diagonal, without one width and without one bar distance', () => {
    expectAgreement(SQUARE, setUp([CENTRE]), { leaveOut: ['diagonal.RL'], recipe: 'oneDiagonal' });
    expectAgreement(SQUARE, setUp([CENTRE]), { leaveOut: ['diagonal.LR'] });
    expectAgreement(SQUARE, setUp([CENTRE]), { leaveOut: ['width.ahead', 'bar.sameR'] });
  });

  test('slides to either side', () => {
    const slides = { west: { towardCarLeft: 550, sag: 0 }, east: { towardCarLeft: -550, sag: 0 } };
    expectAgreement({ ...SQUARE, slides }, setUp([CENTRE, ...SLIDES]), { times: { slide: 2 } });
  });

  test('every datum: body face, front axle, thrust line from an alignment report', () => {
    const face = { ...CENTRE, ahead: { ...CENTRE.ahead, value: 1500, from: 'bodyFace' } } as const;
    const front = { ...CENTRE, ahead: { ...CENTRE.ahead, value: 2350, from: 'frontAxle' } } as const;
    const thrust = {
      ...CENTRE,
      left: { ...CENTRE.left, from: 'thrustLine' },
      yaw: { ...CENTRE.yaw, from: 'thrustLine' },
    } as const;
    expectAgreement(SQUARE, setUp([face]));
    expectAgreement(SQUARE, setUp([front]));
    expectAgreement(SQUARE, setUp([thrust]));
  });

  test('a target that stands askew, aside and low, with a face off the middle of its bar', () => {
    const target = { ahead: 4700, left: 320, up: 900, yaw: 170 * DEG, pitch: 0, roll: 0 };
    const station: StationRequirement = {
      ...CENTRE,
      ahead: { ...CENTRE.ahead, value: target.ahead },
      left: { ...CENTRE.left, value: target.left },
      up: { ...CENTRE.up, value: target.up },
      yaw: { ...CENTRE.yaw, value: target.yaw },
    };
    const equipment: PlacementEquipment = {
      ...EQUIPMENT,
      fixture: {
        barLength: { mm: 1500, uMm: 0.4 },
        face: { outMm: 60, acrossMm: 120, upMm: -90, uMm: 0.4 },
      },
      sideArms: { left: { mm: 250, uMm: 0.2 }, right: { mm: 310, uMm: 0.4 } },
    };
    const layout = { ...SQUARE, target, armLeft: 250, armRight: 310 };
    expectAgreement(layout, { ...setUp([station]), equipment });
  });

  test('a target behind the car', () => {
    const target = { ahead: -3000, left: 0, up: 1100, yaw: 0, pitch: 0, roll: 0 };
    const station: StationRequirement = {
      ...CENTRE,
      place: 'behind',
      ahead: { ...CENTRE.ahead, value: -3000 },
      up: { ...CENTRE.up, value: 1100 },
      yaw: { ...CENTRE.yaw, value: 0 },
    };
    expectAgreement({ ...SQUARE, target }, setUp([station]), { near: 'behind' });
  });

  test('a certified class I tape with a hook is told from the default tape', () => {
    const instruments = [{ id: 't', kind: 'tape', accuracyClass: 'I', resolution: 0.5, hook: true }] as const;
    const equipment = { ...EQUIPMENT, instruments };
    const read = inputOf(SQUARE, [CENTRE], { equipment });
    const readings = read.readings.map((each) =>
      /^(base|ahead|behind|width|diagonal|bar|target)\./.test(each.id) || each.id === 'face'
        ? { ...each, instrument: 't' }
        : each,
    );
    const answer = answerOf({ ...read, readings });
    const design = planDesign(
      { ...setUp([CENTRE]), equipment, instruments: { tape: 't' } },
      recipeById('default'),
    );
    if (!design.ok) throw new Error(JSON.stringify(design.error));
    const predicted = predict(design.value, planOfReadings(readings));
    if (!predicted.ok) throw new Error(JSON.stringify(predicted.error));
    for (const [i, solved] of (answer.stations[0]?.coordinates ?? []).entries()) {
      expect((predicted.value[0]?.coordinates[i]?.U ?? 0) / solved.U).toBeCloseTo(1, 6);
    }
    const hook = predicted.value[0]?.coordinates[0]?.shares.find(
      ({ readingId }) => readingId === 'tape.hook',
    );
    expect(hook?.share ?? 0).toBeGreaterThan(0);
  });
});
