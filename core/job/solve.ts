/**
 * The placement of one sensor of a job, from what is recorded: the adapter between the journal's readings and the
 * solver. The same for window, service, command line and certificate check.
 */
import { solvePlacement } from '../placement/solvePlacement.ts';
import type {
  InstrumentKind,
  PlacementAnswer,
  PlacementEquipment,
  PlacementError,
  PlacementInput,
  PlacementReading,
  ReadingSlot,
  TiltDirection,
} from '../placement/types.ts';
import { type ProcedureFault, resolveProcedure } from '../procedure/resolve.ts';
import { err, ok, type Result } from '../result.ts';
import { radFromDeg } from '../units.ts';
import type { Answers } from './assess.ts';
import type { Equipment, Instrument } from './equipment.ts';
import { atItem, fieldKey } from './fieldKey.ts';
import type { Job, JobSensor, RecordedReading } from './job.ts';

/** Why a sensor's placement cannot be solved. */
export type SolveError =
  | PlacementError
  | { readonly code: 'solve/noProcedure' }
  | { readonly code: 'solve/noEquipment' }
  /** Several stands of the fixture in one procedure: each needs its own proof set, which is not yet entered here. */
  | { readonly code: 'solve/severalStands' }
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

/** Readings of the whole job and of this sensor, without the struck ones. */
function readingsOf(job: Job, sensor: JobSensor): readonly PlacementReading[] {
  return job.readings
    .filter((each) => each.struck === null && (each.sensor === null || each.sensor === sensor.sensor))
    .map(placementReading);
}

/**
 * What the solver takes for one sensor. `extra` are readings that are typed and not yet recorded: the window's preview.
 */
export function placementInput(
  job: Job,
  sensor: JobSensor,
  extra: readonly PlacementReading[] = [],
): Result<PlacementInput, SolveError> {
  if (sensor.procedure === null) return err({ code: 'solve/noProcedure' });
  if (sensor.equipment === null) return err({ code: 'solve/noEquipment' });
  if (sensor.procedure.stations.filter((each) => each.kind === 'reposition').length > 1) {
    return err({ code: 'solve/severalStands' });
  }
  const resolved = resolveProcedure(sensor.procedure, measuredInputs(job, sensor));
  if (!resolved.ok) return err({ code: 'solve/procedureFaults', faults: resolved.error });
  const faceHeight = job.fields['datum.faceHeight']?.value;
  return ok({
    readings: [...readingsOf(job, sensor), ...extra],
    setUps: job.setUps,
    equipment: placementEquipment(sensor.equipment),
    stations: resolved.value.stations,
    decisionRule: job.decisionRule,
    ...(typeof faceHeight === 'number'
      ? { bodyFaceHeight: { mm: faceHeight, uMm: BODY_FACE_HEIGHT_U_MM } }
      : {}),
    ...(resolved.value.sensor === undefined ? {} : { sensor: resolved.value.sensor }),
  });
}

/** Solves one sensor's placement from the record, and from `extra` where the window previews what is typed. */
export function solveJob(
  job: Job,
  sensor: JobSensor,
  extra: readonly PlacementReading[] = [],
): Result<PlacementAnswer, SolveError> {
  const input = placementInput(job, sensor, extra);
  return input.ok ? solvePlacement(input.value) : input;
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
