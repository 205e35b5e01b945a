/**
 * The placement of one sensor of a job, from what is recorded: the adapter between the journal's readings and the
 * solver. The same for window, service, command line and certificate check.
 */
import { aimSourceOf } from '../placement/consequence.ts';
import type { InstrumentKind, PlacementEquipment } from '../placement/equipment.ts';
import type { PlacementAnswer } from '../placement/placementAnswer.ts';
import type { PlacementError } from '../placement/placementError.ts';
import type { PlacementInput } from '../placement/placementInput.ts';
import type { PlacementReading, ReadingSlot, TiltDirection } from '../placement/placementReading.ts';
import { defaultRecipe } from '../placement/recipe.ts';
import { solvePlacement } from '../placement/solvePlacement.ts';
import { joinStands, type StandAnswer } from '../placement/stands.ts';
import { type ProcedureFault, resolveProcedure } from '../procedure/resolve.ts';
import { err, invariant, ok, type Result } from '../result.ts';
import { radFromDeg } from '../units.ts';
import type { Answers } from './assess.ts';
import type { Equipment, Instrument } from './equipment.ts';
import { atItem, fieldKey } from './fieldKey.ts';
import { floorSupply, suppliedReadings, takesSurvey } from './floorSupply.ts';
import type { Job, JobSensor, RecordedReading } from './job.ts';
import { studiedTape } from './repeatability.ts';
import { laysMats, solveMatStations } from './solveMats.ts';
import { mayBelong, type Stand, standsOf } from './stands.ts';

/** Whether a sensor sees its target or measures it by echo. */
const KIND_OF_SENSOR = {
  forwardCamera: 'camera',
  surroundCamera: 'camera',
  frontRadar: 'radar',
  cornerRadar: 'radar',
} as const;

/** Why a sensor's placement cannot be solved. */
export type SolveError =
  | PlacementError
  | { readonly code: 'solve/noProcedure' }
  | { readonly code: 'solve/noEquipment' }
  | { readonly code: 'solve/procedureFaults'; readonly faults: readonly ProcedureFault[] };

/** Standard uncertainty of the typed height of the body face's plumb point, mm (common practice, no source). */
const BODY_FACE_HEIGHT_U_MM = 5;

const DIRECTIONS: readonly TiltDirection[] = [
  'towardCar',
  'awayFromCar',
  'carLeftLow',
  'carRightLow',
  'toeIn',
  'toeOut',
];

function directionOf(text: string | null): TiltDirection | undefined {
  return DIRECTIONS.find((each) => each === text);
}

/** A recorded reading as the solver takes it; struck ones are left out before. */
export function placementReading(reading: RecordedReading): PlacementReading {
  const direction = directionOf(reading.direction);
  return {
    ref: reading.reading,
    id: reading.quantity,
    purpose: reading.purpose,
    value: reading.value,
    carSetUp: reading.carSetUp,
    fixtureSetUp: reading.fixtureSetUp,
    ...(reading.station === null ? {} : { station: reading.station }),
    ...(direction === undefined ? {} : { direction }),
    ...(reading.instrument === null ? {} : { instrument: reading.instrument }),
  };
}

function instrumentKind(kind: Instrument['kind']): InstrumentKind | undefined {
  switch (kind) {
    case 'tape':
    case 'plumbBob':
    case 'level':
    case 'inclinometer':
    case 'rule':
      return kind;
    case 'luxMeter':
    case 'other':
      return undefined;
  }
}

/** The shop's equipment as the solver takes it: an inclinometer's step comes in degrees and leaves in radians. */
export function placementEquipment(equipment: Equipment): PlacementEquipment {
  const { fixture, sideArms, instruments, work } = equipment;
  const tapeRepeat = studiedTape(equipment.repeatability, work);
  const arm = (side: 'left' | 'right') => {
    const found = sideArms.find((each) => each.side === side);
    return { mm: found?.lengthMm ?? 0, uMm: found?.uMm ?? 1 };
  };
  return {
    work,
    fixture: {
      barLength: { mm: fixture.barLengthMm, uMm: fixture.barLengthUMm },
      face: {
        outMm: fixture.faceAheadMm,
        acrossMm: 0,
        upMm: fixture.faceAboveBarMm,
        uMm: fixture.faceUMm,
      },
      ...(fixture.kinematics === undefined ? {} : { kinematics: fixture.kinematics }),
    },
    sideArms: { left: arm('left'), right: arm('right') },
    instruments: instruments.flatMap((each) => {
      const kind = instrumentKind(each.kind);
      if (kind === undefined) return [];
      return [
        {
          id: each.id,
          kind,
          resolution: kind === 'inclinometer' ? radFromDeg(each.resolution) : each.resolution,
          hook: each.startsAt === 'hook',
          ...(each.accuracyClass === null ? {} : { accuracyClass: each.accuracyClass }),
        },
      ];
    }),
    ...(tapeRepeat === undefined ? {} : { tapeRepeat }),
  };
}

function measuredInputs(job: Job, sensor: JobSensor): ReadonlyMap<string, number> {
  const values = new Map<string, number>();
  for (const input of sensor.procedure?.inputs ?? []) {
    const value = job.fields[fieldKey('datum.input', atItem(sensor.sensor, input.name))]?.value;
    if (typeof value === 'number') values.set(input.name, value);
  }
  return values;
}

/** Readings of the whole job and of this sensor that may belong to a stand, without the struck ones. */
function readingsOf(job: Job, sensor: JobSensor, stand: Stand): readonly PlacementReading[] {
  return job.readings
    .filter((each) => each.struck === null && (each.sensor === null || each.sensor === sensor.sensor))
    .filter((each) => mayBelong(job, stand, each))
    .map(placementReading);
}

/**
 * The readings with the heights that the bay's survey gives in place of the staff's. All of them or none: what was read here
 * counts from another level plane than the survey, so one of each would tilt the floor. A survey that does not serve leaves
 * the floor open.
 */
function withSurvey(
  job: Job,
  sensor: JobSensor,
  stand: Stand,
  readings: readonly PlacementReading[],
): readonly PlacementReading[] {
  if (!takesSurvey(job) || sensor.equipment === null) return readings;
  const supplied = floorSupply(job, {
    station: stand.stations[0],
    equipment: sensor.equipment,
    singleStand: sensor.procedure?.target.body === 'singleStand',
  });
  const others = readings.filter((each) => !each.id.startsWith('floor.'));
  return supplied.ok ? [...others, ...suppliedReadings(supplied.value, stand.setUps)] : others;
}

interface StandInput {
  readonly stand: Stand;
  readonly input: PlacementInput;
}

/** What the solver takes for each stand of a sensor, in the procedure's order. `extra` goes to the stand of now. */
function standInputs(
  job: Job,
  sensor: JobSensor,
  extra: readonly PlacementReading[],
): Result<readonly [StandInput, ...StandInput[]], SolveError> {
  if (sensor.procedure === null) return err({ code: 'solve/noProcedure' });
  if (sensor.equipment === null) return err({ code: 'solve/noEquipment' });
  const { equipment, procedure } = sensor;
  const { body } = procedure.target;
  const resolved = resolveProcedure(procedure, measuredInputs(job, sensor));
  if (!resolved.ok) return err({ code: 'solve/procedureFaults', faults: resolved.error });
  const faceHeight = job.fields['datum.faceHeight']?.value;
  const [first, ...rest] = standsOf(job, sensor.sensor, resolved.value.stations).map((stand) => ({
    stand,
    input: {
      readings: withSurvey(job, sensor, stand, [
        ...readingsOf(job, sensor, stand),
        ...(stand.isNow ? extra : []),
      ]),
      setUps: stand.setUps,
      equipment: placementEquipment(equipment),
      stations: stand.stations,
      ...(body === undefined ? {} : { body }),
      decisionRule: job.decisionRule,
      ...(typeof faceHeight === 'number'
        ? { bodyFaceHeight: { mm: faceHeight, uMm: BODY_FACE_HEIGHT_U_MM } }
        : {}),
      ...(resolved.value.sensor === undefined ? {} : { sensor: resolved.value.sensor }),
      aimSource: aimSourceOf(KIND_OF_SENSOR[procedure.sensor], body),
    },
  }));
  invariant(first !== undefined, 'a procedure has at least one station');
  return ok([first, ...rest]);
}

/**
 * What the solver takes for one sensor, at the stand the fixture is at now (the first, where it is at none of this sensor's).
 * `extra` are readings that are typed and not yet recorded: the window's preview.
 */
export function placementInput(
  job: Job,
  sensor: JobSensor,
  extra: readonly PlacementReading[] = [],
): Result<PlacementInput, SolveError> {
  const inputs = standInputs(job, sensor, extra);
  if (!inputs.ok) return inputs;
  const now = inputs.value.find((each) => each.stand.isNow) ?? inputs.value[0];
  return ok(now.input);
}

/** Mats lie all at once: every station in one input, in the set-ups of now. */
function matsInput(
  job: Job,
  stands: readonly [StandInput, ...StandInput[]],
  extra: readonly PlacementReading[],
): PlacementInput {
  const [{ stand, input }] = stands;
  return {
    ...input,
    readings: stand.isNow ? input.readings : [...input.readings, ...extra],
    setUps: { car: job.setUps.car, fixture: job.setUps.fixture },
    stations: stands.flatMap((each) => each.input.stations),
  };
}

/**
 * Solves one sensor's placement from the record, and from `extra` where the window previews what is typed: each stand by
 * itself, all stations in one answer.
 */
export function solveJob(
  job: Job,
  sensor: JobSensor,
  extra: readonly PlacementReading[] = [],
): Result<PlacementAnswer, SolveError> {
  const inputs = standInputs(job, sensor, extra);
  if (!inputs.ok) return inputs;
  if (sensor.procedure !== null && laysMats(sensor.procedure)) {
    return solveMatStations(sensor.procedure, matsInput(job, inputs.value, extra));
  }
  const answers: StandAnswer[] = [];
  for (const { stand, input } of inputs.value) {
    const answer = solvePlacement(input);
    if (!answer.ok) return answer;
    const name = sensor.procedure?.stations.find((each) => each.id === stand.id)?.name ?? stand.id;
    const recipe = defaultRecipe(input);
    answers.push({ id: stand.id, name, recipe, answer: answer.value, isNow: stand.isNow });
  }
  const [first, ...rest] = answers;
  invariant(first !== undefined, 'a procedure has at least one station');
  return ok(joinStands([first, ...rest]));
}

/** The answers of all sensors calibrated here; a sensor that cannot be solved has none. */
export function solveAll(job: Job): Answers {
  const answers: Record<string, PlacementAnswer | undefined> = {};
  for (const sensor of job.sensors) {
    if (sensor.disposition !== 'staticHere') continue;
    const answer = solveJob(job, sensor);
    if (answer.ok) answers[sensor.sensor] = answer.value;
  }
  return answers;
}

/** A reading slot's place in the record: quantity, station and purpose of the reading to append. */
export function slotOfReading(reading: RecordedReading): ReadingSlot {
  return {
    id: reading.quantity,
    purpose: reading.purpose,
    ...(reading.station === null ? {} : { station: reading.station }),
  };
}
