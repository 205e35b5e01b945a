/**
 * A small job of each kind of body, from its events through the fold, the solver and the assessment: what is recorded comes
 * out as verdicts, and what is not recorded is asked for by name.
 */
import { describe, expect, test } from 'vitest';
import { assess } from '../../../core/job/assess.ts';
import type { Job } from '../../../core/job/job.ts';
import { solveAll } from '../../../core/job/solve.ts';
import type { BodyKind } from '../../../core/placement/bodies/readings.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import type { PlacementReading } from '../../../core/placement/placementReading.ts';
import { slotKey } from '../../../core/placement/recipe.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import type { Procedure } from '../../../core/procedure/schema.ts';
import {
  distance,
  type P3,
  plus,
  by as scaledBy,
  type TrueLayout,
  worldOf,
} from '../../../core/rehearsal/trueBay.ts';
import { templateOf } from '../../../core/words/index.ts';
import { deviationsOf, stationOf } from '../placement/answers.ts';
import { bodyInput } from '../placement/bodies/bodyLayout.ts';
import { CENTRE, EQUIPMENT, inputOf, SQUARE } from '../placement/trueLayout.ts';
import { equipmentOf, Journal, procedureOf } from './madeJob.ts';

const DEG = Math.PI / 180;

/** Opens a job of one sensor with a procedure of our own. */
function opened(procedure: Procedure, kind: Procedure['sensor'] = procedure.sensor): Journal {
  const journal = new Journal();
  journal.add('jobOpened', { reference: 'B', demo: true, bay: 'b1', decisionRule: 'guarded', follows: null });
  journal.add('sensorListed', { sensor: 'fc', kind, name: 'Sensor' });
  journal.add('sensorDisposed', { sensor: 'fc', disposition: 'staticHere', source: '' });
  journal.add('procedureChosen', { sensor: 'fc', procedure });
  journal.add('equipmentChosen', { sensor: 'fc', equipment: equipmentOf() });
  return journal;
}

function record(
  journal: Journal,
  reading: Pick<PlacementReading, 'id' | 'value' | 'purpose' | 'station' | 'direction'>,
): void {
  const { setUps } = journal.job;
  const isTilt = /pitch|roll|tilt|toe/i.test(reading.id);
  journal.add('readingRecorded', {
    reading: `r${journal.events.length}`,
    quantity: reading.id,
    sensor: 'fc',
    station: reading.station ?? null,
    value: reading.value,
    unit: isTilt ? 'rad' : 'mm',
    direction: reading.direction ?? null,
    text: String(reading.value).slice(0, 20),
    instrument: null,
    purpose: reading.purpose,
    carSetUp: setUps.car,
    fixtureSetUp: setUps.fixture,
  });
}

function answerOf(job: Job): PlacementAnswer {
  const answer = solveAll(job).fc;
  if (answer === undefined) throw new Error('the sensor could not be solved');
  return answer;
}

const assessed = (job: Job) => assess(job, solveAll(job));

const YAW_FREE: StationRequirement = { ...CENTRE, free: ['yaw'] };
const BESIDE: StationRequirement = { ...CENTRE, left: { ...CENTRE.left, value: 900 } };

const KINDS: readonly (readonly [BodyKind, Procedure['sensor'], StationRequirement, TrueLayout])[] = [
  ['bar', 'forwardCamera', CENTRE, SQUARE],
  ['singleStand', 'frontRadar', YAW_FREE, SQUARE],
  ['plate', 'frontRadar', CENTRE, SQUARE],
  ['corner', 'cornerRadar', BESIDE, { ...SQUARE, target: { ...SQUARE.target, left: 900 } }],
];

describe.each(KINDS)('%s', (body, sensor, station, layout) => {
  const made = procedureOf([station]);
  const procedure: Procedure = { ...made, sensor, target: { ...made.target, body } };
  const played = (target: TrueLayout['target'], leaveOut: readonly string[] = []): Journal => {
    const journal = opened(procedure);
    const input = bodyInput(body, { ...layout, target }, [station], { leaveOut });
    for (const reading of input.readings) record(journal, reading);
    return journal;
  };

  test('placed as it must be: every judged coordinate is proven and the assessment says so', () => {
    const { job } = played(layout.target);
    const answer = answerOf(job);
    expect(answer.missing).toEqual([]);
    expect(stationOf(answer).worst).toBe('proven');
    expect(assessed(job).placement).toBe('proven');
    expect(assessed(job).stops.map((each) => each.label)).not.toContain('stop.placement.outside');
  });

  test('40 mm off to the side and 30 mm up: found, outside, and told what it means down the road', () => {
    const { job } = played({ ...layout.target, left: layout.target.left + 40, up: layout.target.up + 30 });
    const found = deviationsOf(answerOf(job));
    expect(found.left).toBeCloseTo(40, 4);
    expect(found.up).toBeCloseTo(30, 4);
    const { placement, stops, largestAim } = assessed(job);
    expect(placement).toBe('outside');
    expect(stops.map((each) => each.label)).toContain('stop.placement.outside');
    expect(largestAim).toMatchObject({ sensor: 'fc', station: 'centre' });
    // A plate steers by its turn alone, and it is not turned; the others see 40 mm at about 3.2 m.
    const sideways = largestAim?.aim.sidewaysMetresAt50 ?? Number.NaN;
    if (body === 'plate') expect(sideways).toBeCloseTo(0, 4);
    else expect(Math.abs(sideways)).toBeGreaterThan(0.5);
  });

  test('without its height the fixture is open: the reading is missing by name', () => {
    const { job } = played(layout.target, ['target.height']);
    expect(answerOf(job).missing.map(slotKey)).toContain('target.height');
    const missing = assessed(job).missing.map((each) => each.label);
    expect(missing).toContain('reading.target.height');
    expect(missing).toContain('missing.placement');
  });
});

describe('a circle about the required point', () => {
  const made = procedureOf([CENTRE]);
  const procedure: Procedure = {
    ...made,
    stations: made.stations.map((each) => ({
      ...each,
      radial: { plane: 'aheadLeft', limit: '12 mm', stated: true },
    })),
  };
  const played = (ahead: number, left: number) => {
    const journal = opened(procedure);
    const { target } = SQUARE;
    const layout = {
      ...SQUARE,
      target: { ...target, ahead: target.ahead + ahead, left: target.left + left },
    };
    for (const reading of inputOf(layout, [CENTRE]).readings) record(journal, reading);
    return journal.job;
  };

  test('is judged with both coordinates together and counts in the assessment', () => {
    const near = answerOf(played(2, 2)).stations[0]?.radial;
    expect(near?.distanceMm).toBeCloseTo(Math.SQRT2 * 2, 3);
    expect(near?.verdict).toBe('proven');
    const far = played(20, 20);
    expect(answerOf(far).stations[0]?.radial?.verdict).toBe('outside');
    expect(assessed(far).placement).toBe('outside');
  });
});

/** Mats as they truly lie on the car's plane, and what tapes and a staff read of them. */
describe('floor mats', () => {
  const POINTS = [
    { id: 'A', xMm: 600, yMm: 500, uMm: 0.3 },
    { id: 'B', xMm: 600, yMm: -500, uMm: 0.3 },
    { id: 'C', xMm: -600, yMm: -500, uMm: 0.3 },
    { id: 'D', xMm: -600, yMm: 500, uMm: 0.3 },
  ] as const;
  const LAYOUT: TrueLayout = { ...SQUARE, carHeading: 20 * DEG, floorSlope: [0.005, -0.003] };
  const world = worldOf(LAYOUT, EQUIPMENT);
  const at = (id: string, ahead: number, left: number): StationRequirement => ({
    ...CENTRE,
    id,
    ahead: { ...CENTRE.ahead, value: ahead },
    left: { ...CENTRE.left, value: left },
    up: { ...CENTRE.up, value: 0 },
    yaw: { ...CENTRE.yaw, value: 0 },
    free: ['up', 'pitch', 'roll'],
  });
  const REQUIRED = [at('front', 4600, 0), at('beside', 1300, 2000)];
  const made = procedureOf(REQUIRED);
  const procedure: Procedure = {
    ...made,
    sensor: 'surroundCamera',
    target: { ...made.target, kind: 'mat' },
    stations: made.stations.map((each) => ({ ...each, mat: { points: [...POINTS], flatWithinMm: 3 } })),
  };
  type Truth = Readonly<
    Record<string, { readonly ahead: number; readonly left: number; readonly yaw: number }>
  >;
  const RIGHT: Truth = {
    front: { ahead: 4601, left: -1, yaw: 0.05 * DEG },
    beside: { ahead: 1299, left: 2001, yaw: 0 },
  };

  const placeOf = (truth: Truth, mat: string, point: string): P3 => {
    const lies = truth[mat];
    const marked = POINTS.find((each) => each.id === point);
    if (lies === undefined || marked === undefined) throw new Error(`no ${mat} ${point}`);
    const [c, s] = [Math.cos(lies.yaw), Math.sin(lies.yaw)];
    const ahead = lies.ahead + c * marked.xMm - s * marked.yMm;
    const left = lies.left + s * marked.xMm + c * marked.yMm;
    return plus(world.carOrigin, plus(scaledBy(world.carAxes.x, ahead), scaledBy(world.carAxes.y, left)));
  };
  const lengthReadOf = (truth: Truth, id: string, mat: string): number => {
    const [kind, sort, first = '', second = ''] = id.split('.');
    if (kind === 'floor') return 1432.1 - placeOf(truth, mat, first)[2];
    if (sort === 'wheel') {
      return distance(world.points[`mark.${first}`] ?? [0, 0, 0], placeOf(truth, mat, second));
    }
    return distance(placeOf(truth, mat, first), placeOf(truth, 'beside', second));
  };

  /** The car first, then whatever the answer asks for until it asks for nothing more, as the screen does. */
  const played = (truth: Truth, off: (key: string) => number = () => 0): Journal => {
    const journal = opened(procedure);
    const car = inputOf(LAYOUT, []).readings.filter(
      ({ id }) => !/^(bar|fixture|target|floor\.fixture)/.test(id),
    );
    for (const reading of car) record(journal, reading);
    for (let asked = 0; asked < 60; asked++) {
      const next = answerOf(journal.job).nextReading;
      if (next === undefined) return journal;
      const value = lengthReadOf(truth, next.id, next.station ?? '') + off(slotKey(next));
      record(journal, { ...next, value });
    }
    throw new Error('asked for ever');
  };

  test('follows what is asked to the end: found where they lie, proven, with each mat its own row', () => {
    const { job } = played(RIGHT);
    const answer = answerOf(job);
    expect(answer.stage).toBe('fixture');
    expect(answer.globalTest?.passed).toBe(true);
    for (const [id, truth] of Object.entries(RIGHT)) {
      const { target, worst } = stationOf(answer, id);
      expect(Math.hypot(target.aheadMm - truth.ahead, target.leftMm - truth.left), id).toBeLessThan(1e-4);
      expect(target.yawRad).toBeCloseTo(truth.yaw, 8);
      expect(worst).toBe('proven');
    }
    expect(answer.nextAction.wordKey).toBe('next.proven');
    expect(assessed(job).placement).toBe('proven');
  });

  test('one 40 mm off is outside and the next action is to lay that one again', () => {
    const { job } = played({ ...RIGHT, beside: { ahead: 1299, left: 2041, yaw: 0 } });
    const answer = answerOf(job);
    expect(stationOf(answer, 'front').worst).toBe('proven');
    expect(stationOf(answer, 'beside').worst).toBe('outside');
    expect(answer.nextAction).toEqual({ wordKey: 'next.layAgain', values: { mat: 'beside' } });
    expect(assessed(job).placement).toBe('outside');
  });

  test('a tape 60 mm wrong fails the global test, is named as it was recorded and stops the calibration', () => {
    const { job } = played(RIGHT, (key) => (key.startsWith('mat.wheel.FL.A') ? 60 : 0));
    const answer = answerOf(job);
    expect(answer.globalTest?.passed).toBe(false);
    expect(answer.suspects.flatMap((each) => each.readingIds).join(' ')).toMatch(/mat\.wheel\.FL\.A@/);
    expect(answer.nextAction.wordKey).toBe('next.readAgain');
    expect(assessed(job).stops.map((each) => each.label)).toContain('stop.readingsDisagree');
  });

  test('mats that were moved are read again: their tapes and heights leave, the car stays', () => {
    const journal = played(RIGHT);
    journal.add('bodyMoved', { body: 'fixture', setUp: 2, cause: 'moved', words: '' });
    const answer = answerOf(journal.job);
    expect(answer.stage).toBe('datum');
    expect(answer.missing.every(({ id }) => /^(mat|floor\.mat)\./.test(id))).toBe(true);
    expect(answer.missing.length).toBeGreaterThan(10);
  });

  test('what is missing has words, and no reading at all is no crash', () => {
    const { job } = opened(procedure);
    expect(answerOf(job).stage).toBe('nothing');
    for (const { label } of assessed(job).missing.filter((each) => each.label.startsWith('reading.'))) {
      expect(templateOf(label), label).toBeDefined();
    }
  });

  test('another datum than the rear axle is refused, not approximated', () => {
    const [first, ...rest] = procedure.stations;
    if (first === undefined) throw new Error('no station');
    const fromFront = {
      ...procedure,
      stations: [{ ...first, ahead: { ...first.ahead, from: 'frontAxle' as const } }, ...rest],
    };
    expect(solveAll(opened(fromFront).job).fc).toBeUndefined();
  });
});
