/**
 * What turned out to be wrong after a job: an instrument that read long, a fixture or side arm of another length, a floor
 * height, a procedure's edition, a reading or a person whose readings cannot stand. A correction changes a copy of the
 * recorded job; the journal itself is never rewritten. Lengths in mm, angles in radians.
 */
import { z } from 'zod';
import { procedureSchema } from '../procedure/schema.ts';
import { type Equipment, equipmentSchema, fixtureSchema } from './equipment.ts';
import type { Job, JobSensor, RecordedReading } from './job.ts';

const id = z.string().min(1).max(80);
const number = z.number().finite();

/** One correction. `reads...` say how the instrument erred: what it showed less what is true. */
export const correctionSchema = z.discriminatedUnion('kind', [
  /** It showed `readsMore` too much (mm; radians for a tilt, positive with the top toward the car or the car's left low), and `perUnit` of the length besides. */
  z.strictObject({
    kind: z.literal('instrument'),
    instrument: id,
    readsMore: number.optional(),
    perUnit: number.optional(),
    accuracyClass: z.enum(['I', 'II', 'III']).optional(),
  }),
  /** Measured dimensions of the fixture as they truly are. */
  z.strictObject({
    kind: z.literal('fixture'),
    fixture: id,
    change: fixtureSchema
      .pick({
        barLengthMm: true,
        barLengthUMm: true,
        faceAheadMm: true,
        faceAboveBarMm: true,
        faceUMm: true,
      })
      .partial(),
  }),
  z.strictObject({
    kind: z.literal('sideArm'),
    side: z.enum(['left', 'right']),
    lengthMm: number.min(0),
    uMm: number.positive().optional(),
  }),
  /** The floor at a place is that much higher than the staff said, mm; places as in `floor.FL`. */
  z.strictObject({ kind: z.literal('floor'), higherMm: z.record(z.string().startsWith('floor.'), number) }),
  /** Another edition of the procedure, whole; it takes the place of the one with its id. */
  z.strictObject({ kind: z.literal('procedure'), procedure: procedureSchema }),
  /** How carefully the work was done, where it was told too well. */
  z.strictObject({ kind: z.literal('work'), work: equipmentSchema.shape.work }),
  /** Readings that cannot stand: of one person, with one instrument, or by name. Conditions join. */
  z.strictObject({
    kind: z.literal('withdrawn'),
    person: id.optional(),
    instrument: id.optional(),
    readings: z.array(id).max(500).optional(),
  }),
]);

export type Correction = z.infer<typeof correctionSchema>;

/** A job with a correction in it, and whether there was anything to correct. */
export interface Corrected {
  readonly job: Job;
  readonly touched: boolean;
}

/** Ways in which a tilt's value counts as less than nothing. */
const NEGATIVE: Readonly<Record<string, string>> = {
  awayFromCar: 'towardCar',
  carRightLow: 'carLeftLow',
  toeOut: 'toeIn',
};
const POSITIVE: Readonly<Record<string, string>> = Object.fromEntries(
  Object.entries(NEGATIVE).map(([less, more]) => [more, less]),
);

/** A reading with what its instrument showed too much taken off; a tilt that passes zero turns its way round. */
export function trueReading(reading: RecordedReading, readsMore: number, perUnit: number): RecordedReading {
  const negative = reading.direction !== null && reading.direction in NEGATIVE;
  const shown = negative ? -reading.value : reading.value;
  const value = (shown - readsMore) / (1 + perUnit);
  if (reading.direction === null) return { ...reading, value };
  const before = reading.direction;
  const direction = value < 0 ? (POSITIVE[before] ?? before) : (NEGATIVE[before] ?? before);
  return { ...reading, value: Math.abs(value), direction };
}

function mapReadings(
  job: Job,
  concerns: (reading: RecordedReading) => boolean,
  change: (reading: RecordedReading) => RecordedReading,
): Corrected {
  const touched = job.readings.some((each) => each.struck === null && concerns(each));
  return {
    job: { ...job, readings: job.readings.map((each) => (concerns(each) ? change(each) : each)) },
    touched,
  };
}

function mapSensors(job: Job, change: (sensor: JobSensor) => JobSensor): Corrected {
  const sensors = job.sensors.map(change);
  return { job: { ...job, sensors }, touched: sensors.some((each, i) => each !== job.sensors[i]) };
}

function mapEquipment(job: Job, change: (equipment: Equipment) => Equipment): Corrected {
  return mapSensors(job, (sensor) => {
    if (sensor.equipment === null) return sensor;
    const equipment = change(sensor.equipment);
    return equipment === sensor.equipment ? sensor : { ...sensor, equipment };
  });
}

function correctInstrument(job: Job, correction: Correction & { readonly kind: 'instrument' }): Corrected {
  const { instrument, readsMore = 0, perUnit = 0, accuracyClass } = correction;
  const read = mapReadings(
    job,
    (each) => each.instrument === instrument,
    (each) => trueReading(each, readsMore, perUnit),
  );
  if (accuracyClass === undefined) return read;
  const classed = mapEquipment(read.job, (equipment) =>
    equipment.instruments.some((each) => each.id === instrument)
      ? {
          ...equipment,
          instruments: equipment.instruments.map((each) =>
            each.id === instrument ? { ...each, accuracyClass } : each,
          ),
        }
      : equipment,
  );
  return { job: classed.job, touched: read.touched || classed.touched };
}

/** Leaves out members that are absent, so that nothing is set to nothing. */
function present<T extends object>(change: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  const entries = Object.entries(change).filter(([, value]) => value !== undefined);
  return Object.fromEntries(entries) as { [K in keyof T]?: Exclude<T[K], undefined> };
}

/** The job as it would have been recorded had it been known. */
export function correctJob(job: Job, correction: Correction): Corrected {
  switch (correction.kind) {
    case 'instrument':
      return correctInstrument(job, correction);
    case 'fixture':
      return mapEquipment(job, (equipment) =>
        equipment.fixture.id === correction.fixture
          ? { ...equipment, fixture: { ...equipment.fixture, ...present(correction.change) } }
          : equipment,
      );
    case 'sideArm': {
      const { side, lengthMm, uMm } = correction;
      const isSo = (each: Equipment['sideArms'][number]): boolean =>
        each.side !== side || (each.lengthMm === lengthMm && (uMm ?? each.uMm) === each.uMm);
      return mapEquipment(job, (equipment) =>
        equipment.sideArms.every(isSo)
          ? equipment
          : {
              ...equipment,
              sideArms: equipment.sideArms.map((each) =>
                each.side === side ? { ...each, lengthMm, uMm: uMm ?? each.uMm } : each,
              ),
            },
      );
    }
    case 'floor':
      // A higher floor is a shorter reading of the staff.
      return mapReadings(
        job,
        (each) => correction.higherMm[each.quantity] !== undefined,
        (each) => ({ ...each, value: each.value - (correction.higherMm[each.quantity] ?? 0) }),
      );
    case 'procedure':
      return mapSensors(job, (sensor) =>
        sensor.procedure?.id === correction.procedure.id
          ? { ...sensor, procedure: correction.procedure }
          : sensor,
      );
    case 'work':
      return mapEquipment(job, (equipment) =>
        equipment.work === correction.work ? equipment : { ...equipment, work: correction.work },
      );
    case 'withdrawn':
      return withdraw(job, correction);
  }
}

function withdraw(
  job: Job,
  { person, instrument, readings }: Correction & { readonly kind: 'withdrawn' },
): Corrected {
  if (person === undefined && instrument === undefined && readings === undefined)
    return { job, touched: false };
  return mapReadings(
    job,
    (each) =>
      each.struck === null &&
      (person === undefined || each.stamp.person === person) &&
      (instrument === undefined || each.instrument === instrument) &&
      (readings === undefined || readings.includes(each.reading)),
    (each) => ({ ...each, struck: { reason: 'other', words: '', stamp: each.stamp } }),
  );
}
