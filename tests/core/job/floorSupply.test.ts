import { describe, expect, test } from 'vitest';
import { assess } from '../../../core/job/assess.ts';
import { bayTroubles } from '../../../core/job/bayTroubles.ts';
import { usedPieces, workDay } from '../../../core/job/dueDates.ts';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import { floorSupply } from '../../../core/job/floorSupply.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import type { Room } from '../../../core/job/room.ts';
import { nextPlace, withPlace } from '../../../core/job/room.ts';
import { placementInput, solveJob } from '../../../core/job/solve.ts';
import type { TrueLayout } from '../../../core/rehearsal/trueBay.ts';
import { deviationsOf } from '../placement/answers.ts';
import { CENTRE, SQUARE } from '../placement/trueLayout.ts';
import { equipmentOf, Journal, procedureOf } from './madeJob.ts';
import { roomOf, surveyOf } from './surveyedRoom.ts';

const SLOPE = { x: 0.004, y: -0.003 };
const plane = (x: number, y: number): number => SLOPE.x * x + SLOPE.y * y;
const PARKED = { along: 1500, across: 2400 };
const CAR = {
  wheelbase: SQUARE.hubs.FL[0] - SQUARE.hubs.RL[0],
  track: SQUARE.hubs.FL[1] - SQUARE.hubs.FR[1],
  carWidth: 2000,
  frontOverhang: 850,
  rearOverhang: 700,
};

function field(journal: Journal, name: string, value: string | number | boolean): void {
  journal.add('fieldRecorded', { field: name, at: wholeJob, value, text: String(value) });
}

function park(journal: Journal): void {
  for (const [name, value] of Object.entries(CAR)) field(journal, `bay.${name}`, value);
  field(journal, 'bay.parkedAlong', PARKED.along);
  field(journal, 'bay.parkedAcross', PARKED.across);
  field(journal, 'bay.parkedNose', 'alongX');
}

/** A job whose floor heights come from a room's survey; everything else read without a fault. */
function surveyed(room: Room | null, layout: TrueLayout = SQUARE): Journal {
  const journal = new Journal();
  journal.open([CENTRE]);
  journal.add('floorChosen', { way: 'survey', bay: 'b1', room });
  park(journal);
  journal.read(layout, [CENTRE], (key) => !key.startsWith('floor.'));
  return journal;
}

const sensorOf = (journal: Journal): JobSensor => {
  const [sensor] = journal.job.sensors;
  if (sensor === undefined) throw new Error('no sensor');
  return sensor;
};
const supply = (journal: Journal) => {
  const input = placementInput(journal.job, sensorOf(journal));
  return floorSupply(journal.job, {
    station: input.ok ? input.value.stations[0] : undefined,
    equipment: equipmentOf(),
    singleStand: false,
  });
};

describe('heights from a survey', () => {
  const journal = surveyed(roomOf(surveyOf(plane)));

  test('are those of the floor where the wheels stand, whatever the level read', () => {
    const found = supply(journal);
    if (!found.ok) throw new Error(found.error.code);
    expect(found.value.map((each) => each.id)).toEqual([
      'floor.FL',
      'floor.FR',
      'floor.RL',
      'floor.RR',
      'floor.fixtureLeft',
      'floor.fixtureRight',
    ]);
    for (const { place, staffMm } of found.value) {
      expect(1200 - staffMm).toBeCloseTo(plane(place.xMm, place.yMm), 9);
    }
    const left = found.value[0];
    expect(left?.place).toMatchObject({ xMm: 1500 + CAR.wheelbase, yMm: 2400 + CAR.track / 2 });
  });

  test('a car that points the other way has its wheels at the other side of its axle', () => {
    const turned = surveyed(roomOf(surveyOf(plane)));
    field(turned, 'bay.parkedAlong', 7000);
    field(turned, 'bay.parkedNose', 'againstX');
    const found = supply(turned);
    const left = found.ok ? found.value[0] : undefined;
    expect(left?.place.xMm).toBeCloseTo(7000 - CAR.wheelbase, 6);
    expect(left?.place.yMm).toBeCloseTo(2400 - CAR.track / 2, 6);
  });

  test("their u lets no slope of the car be known better than the survey's level was", () => {
    const survey = { ...surveyOf(plane), uHeightMm: 1e-6, uTilt: 3e-4 };
    const found = supply(surveyed(roomOf(survey)));
    if (!found.ok) throw new Error(found.error.code);
    const u = found.value.slice(0, 4).map((each) => each.uMm);
    const front = Math.hypot(u[0] ?? 0, u[1] ?? 0) / 2;
    const rear = Math.hypot(u[2] ?? 0, u[3] ?? 0) / 2;
    expect(Math.hypot(front, rear) / CAR.wheelbase).toBeGreaterThanOrEqual(3e-4);
  });

  test('feed the solution: the car stands as it does when the same heights are read here', () => {
    const answer = solveJob(journal.job, sensorOf(journal));
    if (!answer.ok) throw new Error(answer.error.code);
    expect(answer.value.missing.filter((slot) => slot.id.startsWith('floor.'))).toEqual([]);
    const read = new Journal();
    read.open([CENTRE]);
    read.read({ ...SQUARE, floorSlope: [SLOPE.x, SLOPE.y] }, [CENTRE]);
    const here = solveJob(read.job, sensorOf(read));
    if (!here.ok) throw new Error(here.error.code);
    const [a, b] = [answer.value, here.value].map((each) => deviationsOf(each, 'centre'));
    expect(Object.keys(a ?? {}).length).toBeGreaterThan(0);
    expect(a?.up).toBeCloseTo(b?.up ?? Number.NaN, -1);
  });

  test('a height read here from another level plane is left out: all of the floor or none', () => {
    const mixed = surveyed(roomOf(surveyOf(plane)));
    mixed.read({ ...SQUARE, floorSlope: [0.5, 0] }, [CENTRE], (key) => key === 'floor.FL');
    const input = placementInput(mixed.job, sensorOf(mixed));
    const floors = input.ok ? input.value.readings.filter((each) => each.id === 'floor.FL') : [];
    expect(floors).toHaveLength(1);
    expect(floors[0]?.ref).toBe('survey:floor.FL');
  });
});

describe('a survey that cannot be used says why and gives nothing', () => {
  const good = surveyOf(plane);
  test.each([
    ['none', roomOf(null), 'bay/noSurvey'],
    ['expired', roomOf({ ...good, validUntil: '2026-11-24' }), 'bay/surveyExpired'],
    ['its last day still counts', roomOf({ ...good, validUntil: '2026-11-25' }), undefined],
    ['ground works since', roomOf(good, { groundWorks: ['2026-11-02'] }), 'bay/groundWorksSince'],
    ['ground works before it', roomOf(good, { groundWorks: ['2026-01-02'] }), undefined],
    ['not made yet', roomOf({ ...good, madeOn: '2026-12-01' }), 'bay/surveyNotYet'],
    ['under way', roomOf({ ...good, places: good.places.slice(1) }), 'bay/surveyUnderWay'],
    [
      'a place given up under a wheel',
      roomOf(
        withPlace(withPlace(good, { column: 1, row: 1, staffMm: null, text: '' }), {
          column: 1,
          row: 2,
          staffMm: null,
          text: '',
        }),
      ),
      'bay/surveyGap',
    ],
  ] as const)('%s', (_name, room, code) => {
    const journal = surveyed(room);
    const found = supply(journal);
    expect(found.ok ? undefined : found.error.code).toBe(code);
    const stops = assess(journal.job, {}).stops.map((each) => each.label);
    expect(stops.includes('stop.bay.survey')).toBe(code !== undefined);
    const input = placementInput(journal.job, sensorOf(journal));
    const floors = input.ok ? input.value.readings.filter((each) => each.id.startsWith('floor.')) : [];
    expect(floors.length > 0).toBe(code === undefined);
  });

  test('a car on turn plates, and one whose place is not known', () => {
    const plates = surveyed(roomOf(good));
    field(plates, 'bay.support', 'turnPlates');
    const found = supply(plates);
    expect(found.ok ? undefined : found.error.code).toBe('bay/surveyNotForSupport');
    const nowhere = new Journal();
    nowhere.open([CENTRE]);
    nowhere.add('floorChosen', { way: 'survey', bay: 'b1', room: roomOf(good) });
    const open = supply(nowhere);
    expect(open.ok ? undefined : open.error.code).toBe('bay/parkedUnknown');
  });

  test('a car parked beyond the surveyed floor: the wheel is named', () => {
    const journal = surveyed(roomOf(good));
    field(journal, 'bay.parkedAlong', 8000);
    const found = supply(journal);
    expect(found.ok ? undefined : found.error).toMatchObject({ code: 'bay/outsideSurvey', place: 'FL' });
  });

  test('the survey of the test itself is whole', () => {
    expect(nextPlace(good)).toBeUndefined();
  });
});

describe('troubles of the bay', () => {
  test('a support the procedure does not permit stops the sensor, the caution with it', () => {
    const journal = new Journal();
    journal.open([CENTRE]);
    journal.add('procedureChosen', {
      sensor: 'fc',
      procedure: { ...procedureOf([CENTRE]), bay: { supports: ['floor'] } },
    });
    field(journal, 'bay.support', 'stands');
    expect(bayTroubles(journal.job)).toMatchObject([
      { code: 'bay.support', sensor: 'fc', why: { caution: 'bay.caution.stands', permitted: ['floor'] } },
    ]);
    field(journal, 'bay.support', 'floor');
    expect(bayTroubles(journal.job)).toEqual([]);
  });

  test('a spot survey read on two days', () => {
    const journal = new Journal();
    journal.open([CENTRE]);
    journal.add('floorChosen', { way: 'spot', bay: 'b1', room: null });
    journal.read(SQUARE, [CENTRE], (key) => key === 'floor.FL');
    expect(bayTroubles(journal.job)).toEqual([]);
    journal.wait(24 * 3_600_000);
    journal.read(SQUARE, [CENTRE], (key) => key === 'floor.FR');
    expect(bayTroubles(journal.job)).toMatchObject([
      { code: 'bay.spotDay', why: { place: 'FL', readOn: '2026-11-25', day: '2026-11-26' } },
    ]);
  });

  test('light that is outside what the procedure asks for', () => {
    const journal = new Journal();
    journal.open([CENTRE]);
    const procedure = { ...procedureOf([CENTRE]), bay: { light: { leastUniformity: 0.7 } } };
    journal.add('procedureChosen', { sensor: 'fc', procedure });
    for (const [i, lux] of [500, 520, 480, 150, 510].entries()) field(journal, `bay.light${i + 1}`, lux);
    expect(bayTroubles(journal.job).map((each) => each.code)).toEqual(['bay.light']);
    field(journal, 'bay.light4', 490);
    expect(bayTroubles(journal.job)).toEqual([]);
  });
});

describe('due dates', () => {
  const withDue = (dueOn: string, certificate = 'X'): Journal => {
    const journal = new Journal();
    const made = equipmentOf();
    journal.open([CENTRE], {
      ...made,
      instruments: made.instruments.map((each) => ({ ...each, dueOn, certificate })),
    });
    return journal;
  };

  test('a piece is overdue from the day after its last', () => {
    const overdue = (dueOn: string) => usedPieces(withDue(dueOn).job).filter((piece) => piece.overdue);
    expect(overdue('2026-11-25')).toEqual([]);
    expect(overdue('2026-11-24').map((piece) => piece.id)).toEqual(['tape']);
  });

  test('an overdue piece is missed until a reason is given for it, and only it', () => {
    const journal = withDue('2026-11-24');
    const missing = () =>
      assess(journal.job, {}).missing.filter((each) => each.key.startsWith('bay.overdue'));
    expect(missing()).toMatchObject([{ stage: 'bay', key: 'bay.overdueReason@//tape' }]);
    expect(missing()[0]?.label).toContain('Tape');
    journal.add('fieldRecorded', {
      field: 'bay.overdueReason',
      at: { ...wholeJob, item: 'tape' },
      value: 'Compared with the rule today',
      text: 'Compared with the rule today',
    });
    expect(missing()).toEqual([]);
  });

  test('counts on the day of the last reading, not of the opening', () => {
    const journal = withDue('2026-11-25');
    journal.wait(24 * 3_600_000);
    journal.read(SQUARE, [CENTRE], (key) => key === 'floor.FL');
    expect(workDay(journal.job)).toBe('2026-11-26');
    expect(usedPieces(journal.job).some((piece) => piece.overdue)).toBe(true);
  });

  test('a piece without a certificate is told', () => {
    const told = usedPieces(withDue('2030-01-01', ' ').job).filter((piece) => piece.withoutCertificate);
    expect(told.map((piece) => piece.id)).toEqual(['tape']);
  });
});
