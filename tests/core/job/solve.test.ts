/** From recorded events to answers: one stand, several stands, and what belongs to which. */
import { describe, expect, test } from 'vitest';
import { placementNumbers } from '../../../core/certificate/numbers.ts';
import { assess } from '../../../core/job/assess.ts';
import type { Job, JobSensor } from '../../../core/job/job.ts';
import { placementEquipment, placementInput, solveAll, solveJob } from '../../../core/job/solve.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import { slotKey } from '../../../core/placement/recipe.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import { solvePlacement } from '../../../core/placement/solvePlacement.ts';
import type { TrueLayout } from '../../../core/rehearsal/trueBay.ts';
import { deviationsOf, stationOf } from '../placement/answers.ts';
import { bodyInput } from '../placement/bodies/bodyLayout.ts';
import { CENTRE, SLIDES, SQUARE } from '../placement/trueLayout.ts';
import { equipmentOf, Journal, ofStand } from './madeJob.ts';

const DEG = Math.PI / 180;
const sensorOf = (job: Job): JobSensor => {
  const [sensor] = job.sensors;
  if (sensor === undefined) throw new Error('no sensor');
  return sensor;
};
const solved = (journal: Journal): PlacementAnswer => {
  const answer = solveJob(journal.job, sensorOf(journal.job));
  if (!answer.ok) throw new Error(JSON.stringify(answer.error));
  return answer.value;
};

/** A second stand before the car's left half, nearer and lower, with a slide of its own. */
const CORNER: StationRequirement = {
  ...CENTRE,
  id: 'corner',
  ahead: { ...CENTRE.ahead, value: 4700 },
  left: { ...CENTRE.left, value: 900 },
  up: { ...CENTRE.up, value: 700 },
};
const CORNER_SLIDE: StationRequirement = {
  ...CORNER,
  id: 'cornerSlide',
  kind: 'slide',
  left: { ...CORNER.left, value: 1200 },
};
const THREE = [CENTRE, ...SLIDES, CORNER, CORNER_SLIDE] as const;

/** A sloping floor that goes on differently under the second stand. */
const SLOPE: TrueLayout = { ...SQUARE, floorSlope: [0.004, -0.003], carHeading: 10 * DEG };
const CENTRE_TRUE: TrueLayout = {
  ...SLOPE,
  target: { ...SQUARE.target, ahead: 5003, left: -2 },
  slides: { west: { towardCarLeft: 552, sag: 1 }, east: { towardCarLeft: -548, sag: 0.5 } },
};
const CORNER_TRUE: TrueLayout = {
  ...SLOPE,
  fixtureFloor: [-6, 0.006, 0.001],
  target: { ahead: 4698, left: 904, up: 701, yaw: 180.1 * DEG, pitch: 0.1 * DEG, roll: -0.05 * DEG },
  slides: { cornerSlide: { towardCarLeft: 296, sag: 0.8 } },
};

function started(): Journal {
  const journal = new Journal();
  journal.open(THREE);
  journal.read(CENTRE_TRUE, [CENTRE, ...SLIDES]);
  return journal;
}

function atCorner(journal = started()): Journal {
  journal.add('bodyMoved', {
    body: 'fixture',
    setUp: 2,
    cause: 'moved',
    words: '',
    stand: { sensor: 'fc', station: 'corner' },
  });
  return journal;
}

describe('one stand', () => {
  test('is solved as it was before several could be: the same numbers from the same input', () => {
    const journal = new Journal();
    journal.open([CENTRE, ...SLIDES]);
    journal.read(CENTRE_TRUE, [CENTRE, ...SLIDES]);
    const { job } = journal;
    const input = placementInput(job, sensorOf(job));
    if (!input.ok) throw new Error('no input');
    expect(input.value.setUps).toEqual({ car: 1, fixture: 1 });
    expect(solveJob(job, sensorOf(job))).toEqual(solvePlacement(input.value));
    expect(deviationsOf(solved(journal)).ahead).toBeCloseTo(3, 6);
  });
  test('without procedure or equipment says so', () => {
    const journal = new Journal();
    journal.open([CENTRE]);
    const sensor = sensorOf(journal.job);
    const code = (change: Partial<JobSensor>) => {
      const answer = solveJob(journal.job, { ...sensor, ...change });
      return answer.ok ? 'ok' : answer.error.code;
    };
    expect(code({ procedure: null })).toBe('solve/noProcedure');
    expect(code({ equipment: null })).toBe('solve/noEquipment');
  });
  test('takes the fixture with what is known of its moving parts', () => {
    const kinematics = { mast: { leastMm: 400, mostMm: 1900, stepMm: 1, perTurnMm: 6 } };
    const equipment = equipmentOf();
    const made = placementEquipment({ ...equipment, fixture: { ...equipment.fixture, kinematics } });
    expect(made.fixture.kinematics).toEqual(kinematics);
    expect(placementEquipment(equipment).fixture).not.toHaveProperty('kinematics');
  });
  test('a raise that kept the plan is recorded and solved without the distances again', () => {
    const journal = new Journal();
    journal.open([CENTRE]);
    journal.read(SQUARE, [CENTRE]);
    journal.add('bodyMoved', {
      body: 'fixture',
      setUp: 2,
      cause: 'moveDone',
      words: '',
      keeps: ['plan', 'slide'],
    });
    const raised = { ...SQUARE, target: { ...SQUARE.target, up: 1358 } };
    journal.read(raised, [CENTRE], (_key, spec) => spec.part === 'height' || spec.part === 'tilt');
    expect(solved(journal).missing).toEqual([]);
    expect(deviationsOf(solved(journal)).up).toBeCloseTo(8, 6);
  });
});

describe('several stands', () => {
  test('before the second is named, the first is solved and the second asked for under its name', () => {
    const answer = solved(started());
    expect(answer.stations.map((each) => each.station)).toEqual(['centre', 'west', 'east']);
    expect(answer.missing.map(slotKey)).toEqual(
      [
        'floor.fixtureLeft',
        'floor.fixtureRight',
        'bar.sameL',
        'bar.diagLR',
        'bar.sameR',
        'bar.diagRL',
        'target.height',
        'fixture.pitch',
        'fixture.roll',
      ]
        .map((id) => `${id}@corner`)
        .concat(['slide@cornerSlide', 'target.height@cornerSlide', 'bar.sameL@corner!control'])
        .filter((key) => !key.startsWith('floor.')),
    );
    expect(answer.nextAction).toEqual({
      wordKey: 'next.nextStand',
      values: { station: 'corner' },
      stand: 'corner',
    });
    expect(answer.nextReading).toBeUndefined();
  });
  test('put up at the second, the first keeps its proof and every reading of the second is asked for', () => {
    const answer = solved(atCorner());
    expect(answer.stations.map((each) => each.station)).toEqual(['centre', 'west', 'east']);
    expect(deviationsOf(answer).ahead).toBeCloseTo(3, 6);
    expect(slotKey(answer.nextReading ?? { id: '', purpose: 'proof' })).toBe('floor.fixtureLeft');
    expect(answer.missing.map(slotKey)).toContain('bar.sameL');
    expect(answer.moves).toEqual([]);
  });
  test('each is solved back to its true layout, slides of their own stand with it', () => {
    const journal = atCorner();
    journal.read(CORNER_TRUE, [CORNER, CORNER_SLIDE], ofStand);
    const answer = solved(journal);
    expect(answer.missing).toEqual([]);
    expect(answer.stations.map((each) => [each.station, each.basis])).toEqual([
      ['centre', 'found'],
      ['west', 'found'],
      ['east', 'found'],
      ['corner', 'found'],
      ['cornerSlide', 'found'],
    ]);
    const centre = deviationsOf(answer);
    expect([centre.ahead, centre.left].map((each) => each.toFixed(6))).toEqual(['3.000000', '-2.000000']);
    const corner = deviationsOf(answer, 'corner');
    expect(corner.ahead).toBeCloseTo(-2, 6);
    expect(corner.left).toBeCloseTo(4, 6);
    expect(corner.up).toBeCloseTo(1, 6);
    // A turn with a lean and a tilt beside it: small angles mix in the fifth decimal of a degree.
    expect(corner.yaw / DEG).toBeCloseTo(0.1, 4);
    expect(stationOf(answer, 'cornerSlide').slide?.side).toBe('carLeft');
    const ids = placementNumbers('fc', answer).map((each) => each.id);
    for (const station of ['centre', 'west', 'corner', 'cornerSlide'])
      expect(ids).toContain(`fc.${station}.left.U`);
    expect(answer.worst).toBe('proven');
  });
  test('a bump of the first stand before it was left takes its proof, whatever was proven before', () => {
    const journal = started();
    journal.add('bodyMoved', { body: 'fixture', setUp: 2, cause: 'moved', words: '' });
    journal.add('bodyMoved', {
      body: 'fixture',
      setUp: 3,
      cause: 'moved',
      words: '',
      stand: { sensor: 'fc', station: 'corner' },
    });
    journal.read(CORNER_TRUE, [CORNER, CORNER_SLIDE], ofStand);
    const answer = solved(journal);
    expect(answer.stations.map((each) => each.station)).toEqual(['corner', 'cornerSlide']);
    expect(answer.missing.map(slotKey)).toContain('bar.sameL@centre');
    expect(answer.nextAction).toEqual({
      wordKey: 'next.nextStand',
      values: { station: 'centre' },
      stand: 'centre',
    });
  });
  test('a car that moved takes both', () => {
    const journal = atCorner();
    journal.read(CORNER_TRUE, [CORNER, CORNER_SLIDE], ofStand);
    journal.add('bodyMoved', { body: 'car', setUp: 2, cause: 'moved', words: '' });
    expect(solved(journal).stations).toEqual([]);
    expect(solved(journal).stage).toBe('nothing');
  });
  test('back at the first its readings are taken anew', () => {
    const journal = atCorner();
    journal.read(CORNER_TRUE, [CORNER, CORNER_SLIDE], ofStand);
    journal.add('bodyMoved', {
      body: 'fixture',
      setUp: 3,
      cause: 'moved',
      words: '',
      stand: { sensor: 'fc', station: 'centre' },
    });
    expect(solved(journal).stations.map((each) => each.station)).toEqual(['corner', 'cornerSlide']);
    journal.read(CENTRE_TRUE, [CENTRE, ...SLIDES], ofStand);
    expect(solved(journal).missing).toEqual([]);
    expect(deviationsOf(solved(journal)).left).toBeCloseTo(-2, 6);
  });
  test('assessment and certificate take all stations: the worst decides, what lacks is listed', () => {
    const journal = atCorner();
    const far = { ...CORNER_TRUE, target: { ...CORNER_TRUE.target, left: 940 } };
    journal.read(far, [CORNER, CORNER_SLIDE], ofStand);
    const { job } = journal;
    const answers = solveAll(job);
    expect(answers.fc?.worst).toBe('outside');
    expect(answers.fc?.moves.map((move) => move.kind)).toContain('shift');
    expect(assess(job, answers).placement).toBe('outside');
    const open = started().job;
    const lacking = assess(open, solveAll(open)).missing.map((each) => each.key);
    expect(lacking).toContain('reading:bar.sameL@corner');
  });
  test('a second sensor that has the fixture leaves the first one its stand', () => {
    const journal = new Journal();
    journal.open([CENTRE]);
    journal.read(SQUARE, [CENTRE]);
    journal.add('bodyMoved', {
      body: 'fixture',
      setUp: 2,
      cause: 'moved',
      words: '',
      stand: { sensor: 'radar', station: 'plate' },
    });
    const answer = solved(journal);
    expect(answer.stations.map((each) => [each.station, each.worst])).toEqual([['centre', 'proven']]);
    expect(answer.nextAction.wordKey).toBe('next.proven');
    expect(answer.missing).toEqual([]);
  });
});

describe('what carries the target', () => {
  test('comes from the procedure: a single stand is asked for its own readings and solved from them', () => {
    const station: StationRequirement = { ...CENTRE, free: ['yaw'] };
    const journal = new Journal();
    journal.open([station]);
    const made = sensorOf(journal.job).procedure;
    if (made === null) throw new Error('no procedure');
    const procedure = { ...made, target: { ...made.target, body: 'singleStand' as const } };
    journal.add('procedureChosen', { sensor: 'fc', procedure });
    const { readings } = bodyInput('singleStand', { ...SQUARE, target: { ...SQUARE.target, left: 7 } }, [
      station,
    ]);
    const input = placementInput(journal.job, sensorOf(journal.job));
    expect(input.ok && input.value.body).toBe('singleStand');
    expect(solved(journal).missing.map(slotKey)).toContain('stand.fromL');
    const answer = solveJob(journal.job, sensorOf(journal.job), readings);
    expect(answer.ok && deviationsOf(answer.value).left).toBeCloseTo(7, 6);
    const lacking = assess(journal.job, solveAll(journal.job)).missing.find((each) =>
      each.key.includes('stand.fromL'),
    );
    expect(lacking?.stage).toBe('placement');
  });
});
