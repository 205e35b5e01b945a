/**
 * The events a job's journal can hold: one strict payload schema per type and version. Only JSON types enter;
 * personal text enters as a reference with a commitment, never as itself (the service makes them).
 * Past tense, one fact each. An event is never rewritten: a later version gets a new `v` and an upcaster.
 */
import { z } from 'zod';
import { procedureSchema } from '../procedure/schema.ts';
import { LANGUAGES } from '../words/index.ts';
import { equipmentSchema } from './equipment.ts';
import { roomSchema } from './room.ts';
import { type SensorKind, sensorKindSchema } from './sensorKind.ts';
import { shopSchema } from './shop.ts';

const key = z.string().regex(/^[A-Za-z][A-Za-z0-9.]{0,60}$/);
const ref = z.string().regex(/^[A-Za-z0-9._-]{1,60}$/);
const words = z.string().max(2000);
const digest = z.string().regex(/^[0-9a-f]{64}$/);

/** Where a field stands: of the whole job, of one sensor, of one station, of one item of a list. */
export const placeSchema = z.strictObject({
  sensor: ref.nullable(),
  station: ref.nullable(),
  item: ref.nullable(),
});

/** Text of or about a person: kept outside the chain; the chain holds what proves it. */
export const commitmentSchema = z.strictObject({ personalId: ref, commitment: digest });

export const fieldValueSchema = z.union([
  z.string().max(2000),
  z.number().finite(),
  z.boolean(),
  z.array(z.string().max(80)).max(40),
  commitmentSchema,
]);
export type FieldValue = z.infer<typeof fieldValueSchema>;

export { type SensorKind, sensorKindSchema };

/** What a taken reading keeps of the values it was made from. */
export const takenSchema = z.strictObject({
  n: z.int().min(1).max(100_000),
  mean: z.number().finite(),
  s: z.number().finite().min(0).nullable(),
  lastLine: z.string().max(256),
});

export const dispositionSchema = z.enum([
  'staticHere',
  'dynamicRoad',
  'initialiseOnly',
  'notNeeded',
  'doneElsewhere',
  'refused',
]);
export type Disposition = z.infer<typeof dispositionSchema>;

export const strikeReasonSchema = z.enum([
  'typingSlip',
  'wrongPoint',
  'instrumentMoved',
  'carOrFixtureMoved',
  'readAgain',
  'other',
]);

export const certificateKindSchema = z.enum([
  'calibrated',
  'routineCompletedPlacementNotShown',
  'notCalibrated',
]);
export type CertificateKind = z.infer<typeof certificateKindSchema>;

/** Stages that photos are taken at. */
export const photoStages = [
  'intake',
  'prechecks',
  'bay',
  'datum',
  'placement',
  'stations',
  'outcome',
] as const;
export type PhotoStage = (typeof photoStages)[number];

const payloads = {
  /** Stream `shop`: the shop as it stands from now on. */
  shopRecorded: z.strictObject({ shop: shopSchema }),
  /** Stream `shop`: one of its bays as it is known from now on. */
  bayRecorded: z.strictObject({ bay: ref, room: roomSchema }),
  jobOpened: z.strictObject({
    reference: z.string().min(1).max(40),
    demo: z.boolean(),
    /** True of a job done in the simulated bay, to learn or to be looked at by a trainer: no car was there. */
    rehearsal: z.boolean().optional(),
    bay: ref,
    decisionRule: z.enum(['guarded', 'simple', 'fullU']),
    follows: ref.nullable(),
  }),
  fieldRecorded: z.strictObject({ field: key, at: placeSchema, value: fieldValueSchema, text: words }),
  sensorListed: z.strictObject({ sensor: ref, kind: sensorKindSchema, name: z.string().min(1).max(80) }),
  sensorDisposed: z.strictObject({ sensor: ref, disposition: dispositionSchema, source: words }),
  /** The whole procedure edition, so that the record can be judged by itself. */
  procedureChosen: z.strictObject({ sensor: ref, procedure: procedureSchema }),
  equipmentChosen: z.strictObject({ sensor: ref, equipment: equipmentSchema }),
  /**
   * Where the heights of the floor come from: the bay's survey, or the staff here and now; `spot` for work outside the shop,
   * where every height is of one day. The bay as it was known then is kept, so that the record can be judged by itself.
   */
  floorChosen: z.strictObject({
    way: z.enum(['survey', 'readHere', 'spot']),
    bay: ref,
    room: roomSchema.nullable(),
  }),
  /** `value` in millimetres or radians; `text` as typed; set-ups within which it belongs. */
  readingRecorded: z.strictObject({
    reading: ref,
    quantity: key,
    sensor: ref.nullable(),
    station: ref.nullable(),
    value: z.number().finite(),
    unit: z.enum(['mm', 'rad']),
    direction: z.string().max(30).nullable(),
    text: z.string().max(60),
    instrument: ref.nullable(),
    purpose: z.enum(['proof', 'control', 'guide']),
    carSetUp: z.int().min(1),
    fixtureSetUp: z.int().min(1),
    /**
     * Of a reading taken from an instrument that sends lines: how many values of the last moment `value` is the mean of,
     * their mean and standard deviation in `unit` as the instrument sent them (before a tape's start is taken off or a sign
     * turned into a direction; `s` null for one), and the last line. Absent for a typed one, and in records made before.
     */
    taken: takenSchema.optional(),
  }),
  readingStruck: z.strictObject({ reading: ref, reason: strikeReasonSchema, words }),
  /** A new set-up of a body begins. `cause` says whether it was a move we asked for or a bump. */
  bodyMoved: z.strictObject({
    body: z.enum(['car', 'fixture']),
    setUp: z.int().min(2),
    cause: z.enum(['moveDone', 'moved', 'settledAgain']),
    words,
    /**
     * Parts of a fixture that a move we asked for left as they were: their readings still hold. Absent, also in records
     * made before it could be told: everything must be read again.
     */
    keeps: z
      .array(z.enum(['plan', 'height', 'tilt', 'slide']))
      .max(4)
      .optional(),
    /** The station for which the fixture was put up from now on; absent: it stays with the one before. */
    stand: z.strictObject({ sensor: ref, station: ref }).optional(),
  }),
  captureAttempted: z.strictObject({
    sensor: ref,
    station: ref,
    result: z.enum(['passed', 'failed', 'interrupted']),
    cause: words,
    change: words,
  }),
  /**
   * A photo of a stage, kept apart as a clean JPEG by the digest of its bytes. What it shows is text about a person's car:
   * personal, and erasing it erases the photo too.
   */
  photoAdded: z.strictObject({
    photo: ref,
    stage: z.enum(photoStages),
    sensor: ref.nullable(),
    station: ref.nullable(),
    digest,
    mediaType: z.literal('image/jpeg'),
    sizeBytes: z.int().min(1),
    widthPx: z.int().min(1).max(2048),
    heightPx: z.int().min(1).max(2048),
    shows: commitmentSchema,
  }),
  /** A photo that was not meant: it leaves the certificate, and stays in the record with its reason. */
  photoStruck: z.strictObject({
    photo: ref,
    reason: z.enum(['wrongPhoto', 'blurred', 'showsPerson', 'other']),
  }),
  /** The scan tool's own report of one sensor, kept whole by the digest of its bytes. */
  reportAttached: z.strictObject({
    report: ref,
    sensor: ref,
    digest,
    mediaType: z.enum(['application/pdf', 'image/jpeg']),
    sizeBytes: z.int().min(1),
    tool: z.string().min(1).max(80),
    software: z.string().min(1).max(80),
  }),
  reportStruck: z.strictObject({ report: ref }),
  certificateSealed: z.strictObject({
    certificate: ref,
    number: z.string().max(40),
    edition: z.int().min(1),
    replaces: z.string().max(40).nullable(),
    kind: certificateKindSchema,
    reason: words,
    recordDigest: digest,
    /** Hash of the last event the record holds. */
    head: digest,
    signer: ref,
    issuedAtUtcMs: z.int(),
    issuedOffsetMin: z.int().min(-1440).max(1440),
    paper: z.enum(['A4', 'Letter']),
    /** The language the certificate is printed in; absent in older seals, which are English. */
    language: z.enum(LANGUAGES).optional(),
    program: z.string().max(40),
  }),
  certificateIssued: z.strictObject({
    certificate: ref,
    number: z.string().max(40),
    edition: z.int().min(1),
    fileDigest: digest,
  }),
  erased: z.strictObject({ personalIds: z.array(ref), reason: words }),
} as const;

export type EventType = keyof typeof payloads;
export type Payload<T extends EventType = EventType> = T extends EventType
  ? z.infer<(typeof payloads)[T]>
  : never;

/** One fact to append: its type, the schema version it was written in, and its payload. */
export type Entry<T extends EventType = EventType> = T extends EventType
  ? { readonly type: T; readonly v: 1; readonly payload: Payload<T> }
  : never;

export const eventTypes = Object.keys(payloads) as readonly EventType[];

/** The strict schema of one event type's payload in its current version. */
export function payloadSchema<T extends EventType>(type: T): (typeof payloads)[T] {
  return payloads[type];
}

/** Whether entries of this type may be appended without the job's expected sequence: they commute. */
export function commutes(type: EventType): boolean {
  return type === 'readingRecorded';
}
