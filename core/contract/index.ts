/**
 * The contract: every call between window and service, and every notice the service sends. Gateway, bridge, handlers
 * and window types derive from this record; a call without a handler does not compile, a call without examples fails
 * a test.
 */
import { z } from 'zod';
import { certificateKindSchema } from '../job/events.ts';
import { roomSchema } from '../job/room.ts';
import { shopSchema } from '../job/shop.ts';
import { procedureSchema } from '../procedure/schema.ts';
import { LANGUAGES } from '../words/index.ts';
import {
  actingSchema,
  command,
  digestSchema,
  draftKeySchema,
  draftSchema,
  entrySchema,
  query,
  refSchema,
  storedEventSchema,
  uuidSchema,
} from './call.ts';
import { instrumentCalls, instrumentNotices } from './instruments.ts';

export type { Call } from './call.ts';

/** Where the record stands: usable, or read-only with the reason. */
export const storeStateSchema = z.strictObject({
  state: z.enum(['ready', 'readOnly', 'newer', 'damaged', 'unwritable', 'full']),
  detail: z.string(),
});

export const statusSchema = z.strictObject({
  version: z.string(),
  build: z.enum(['release', 'development', 'test build']),
  store: storeStateSchema,
  /** Null until the demo shop is opened or a shop is set up. */
  shop: shopSchema.nullable(),
  key: z.enum(['none', 'locked', 'open']),
  /** Of the shop root, to compare with the one printed for the owner; empty while there is no key. */
  rootFingerprint: z.string(),
});

/** What a job waits for, as keys of the word catalogue. */
export const waitsForSchema = z.enum([
  'waits.work',
  'waits.decision',
  'waits.signature',
  'waits.issuing',
  'waits.nothing',
]);
export type WaitsFor = z.infer<typeof waitsForSchema>;

/** The most rows of the job list in one answer. */
export const MOST_LISTED = 200;

/** One line of the job list: a projection, rebuilt from the journal whenever it does not match. */
export const jobRowSchema = z.strictObject({
  job: uuidSchema,
  reference: z.string(),
  plate: z.string(),
  vin: z.string(),
  car: z.string(),
  sensors: z.array(z.string()),
  stage: z.string(),
  waitsFor: z.string(),
  /** Number of the newest issued certificate, or empty. */
  certificate: z.string(),
  updatedUtcMs: z.int(),
});

/** One line of a certificate check; `text` is a key of the word catalogue with its values. */
export const checkLineSchema = z.strictObject({
  id: z.string(),
  answer: z.enum(['yes', 'no', 'unknown']),
  text: z.string(),
  values: z.record(z.string(), z.union([z.string(), z.number()])),
});

export const certificateRowSchema = z.strictObject({
  number: z.string(),
  edition: z.int(),
  kind: certificateKindSchema,
  fileDigest: digestSchema,
  issuedAtUtcMs: z.int(),
  job: uuidSchema,
  plate: z.string(),
});

export const calls = Object.freeze({
  ...instrumentCalls,
  'app.status': query(z.strictObject({}), statusSchema),
  'shop.openDemo': command(z.strictObject({ commandId: uuidSchema }), statusSchema),
  'shop.setUp': command(
    z.strictObject({
      commandId: uuidSchema,
      name: z.string().min(1).max(120),
      code: z.string().regex(/^[A-Z0-9]{2,6}$/),
      address: z.string().max(400),
      bayName: z.string().min(1).max(60),
      personName: z.string().min(1).max(80),
      qualification: z.string().max(160),
      passphrase: z.string().min(8).max(200),
    }),
    /** The owner's encrypted root key file, base64: shown once, saved by the window, kept nowhere here. */
    z.strictObject({ status: statusSchema, rootKeyFile: z.string(), rootKeyFileName: z.string() }),
  ),
  'shop.record': command(
    actingSchema.extend({ commandId: uuidSchema, shop: shopSchema }),
    statusSchema,
    2_000_000,
  ),
  /** What is now known of one bay: its outline, its floor as far as it is surveyed, ground works. */
  'shop.recordBay': command(
    actingSchema.extend({ commandId: uuidSchema, bay: refSchema, room: roomSchema }),
    statusSchema,
    500_000,
  ),
  /** A procedure entered by the person who sends it, or its review: whoever works here may, see `core/job/shopProcedures.ts`. */
  'shop.recordProcedure': command(
    actingSchema.extend({ commandId: uuidSchema, procedure: procedureSchema }),
    statusSchema,
    400_000,
  ),
  'key.open': command(z.strictObject({ passphrase: z.string().max(200) }), statusSchema),
  'job.list': query(
    z.strictObject({
      /** Anywhere in plate, VIN, reference, certificate number or car; capitals, blanks and hyphens do not count. */
      search: z.string().max(80),
      /** Only jobs that wait for one of these; all when absent or empty. */
      waitsFor: z.array(waitsForSchema).max(5).optional(),
      /** Where in the list, last changed first, the answer begins; 0 when absent. */
      offset: z.int().min(0).max(10_000_000).optional(),
      limit: z.int().min(1).max(MOST_LISTED).optional(),
    }),
    z.strictObject({
      rows: z.array(jobRowSchema).max(MOST_LISTED),
      /** How many jobs fit, on this page or another. */
      total: z.int(),
      /** How many of all jobs wait for what; a state in which none waits is absent. */
      waiting: z.record(z.string(), z.int()).optional(),
    }),
  ),
  'job.create': command(
    actingSchema.extend({
      commandId: uuidSchema,
      bay: refSchema,
      entries: z.array(entrySchema).max(10),
      /** A job in the simulated bay. */
      rehearsal: z.boolean().optional(),
    }),
    z.strictObject({ job: uuidSchema }),
  ),
  'job.read': query(
    z.strictObject({ job: uuidSchema, afterSeq: z.int().min(0) }),
    z.strictObject({
      events: z.array(storedEventSchema),
      drafts: z.array(draftSchema),
      /** Texts by personal id, where they have not been erased. */
      personal: z.record(z.string(), z.string()),
    }),
  ),
  'job.record': command(
    actingSchema.extend({
      job: uuidSchema,
      commandId: uuidSchema,
      /** The last sequence the window had seen; null only where every entry commutes. */
      expectedSeq: z.int().nullable(),
      /** The draft that this entry makes obsolete. */
      draft: draftKeySchema.nullable(),
      entries: z.array(entrySchema).min(1).max(20),
    }),
    z.strictObject({ events: z.array(storedEventSchema), personal: z.record(z.string(), z.string()) }),
    2_000_000,
  ),
  'draft.save': command(
    z.strictObject({ job: uuidSchema, field: draftKeySchema, text: z.string().max(4000) }),
    z.strictObject({ savedAtUtcMs: z.int() }),
  ),
  'certificate.issue': command(
    actingSchema.extend({
      job: uuidSchema,
      commandId: uuidSchema,
      expectedSeq: z.int(),
      kind: certificateKindSchema,
      reason: z.string().max(2000),
      /** The language to print it in; English where none is chosen. */
      language: z.enum(LANGUAGES).optional(),
    }),
    certificateRowSchema,
  ),
  /** Draws the certificate that would be issued now, unsigned and marked; its bytes are at `GET /file/<digest>` until the next. */
  'certificate.draft': query(
    actingSchema.extend({
      job: uuidSchema,
      kind: certificateKindSchema,
      reason: z.string().max(2000),
      language: z.enum(LANGUAGES).optional(),
    }),
    z.strictObject({ digest: digestSchema }),
  ),
  'certificate.list': query(
    z.strictObject({ job: uuidSchema.nullable() }),
    z.strictObject({ rows: z.array(certificateRowSchema) }),
  ),
  /** Checks a file that the window has put in the drop store, or an issued one, by its digest. */
  'certificate.check': query(
    z.strictObject({ file: digestSchema }),
    z.strictObject({ lines: z.array(checkLineSchema), exitCode: z.int().min(0).max(2) }),
  ),
});

export type Calls = typeof calls;
export type CallName = keyof Calls;
export type Input<N extends CallName> = z.infer<Calls[N]['input']>;
export type Output<N extends CallName> = z.infer<Calls[N]['output']>;

/** What the service tells every window without being asked. */
export const notices = Object.freeze({
  ...instrumentNotices,
  'service.state': z.strictObject({ state: z.enum(['starting', 'running', 'restarting', 'stopped']) }),
  'job.changed': z.strictObject({ job: uuidSchema, seq: z.int() }),
});
export type Notices = typeof notices;
export type NoticeName = keyof Notices;
export type Notice<N extends NoticeName> = z.infer<Notices[N]>;

/** The answer of every call. `details` are the error code's own facts; `traceId` finds it in the log. */
export type Envelope<T> =
  | { readonly ok: true; readonly value: T }
  | {
      readonly ok: false;
      readonly error: {
        readonly code: string;
        readonly details: Readonly<Record<string, unknown>>;
        readonly traceId: string;
      };
    };
