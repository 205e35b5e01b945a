/**
 * One event of the journal: its envelope, the one text it is stored as, and that text's hash.
 *
 * The stored text is the evidence. Hashes are taken over it byte for byte and never over a value parsed from it, and
 * everything else (columns, states, lists) is derived from it.
 */
import { z } from 'zod';
import {
  asJson,
  canonicalJson,
  type JsonObject,
  type JsonValue,
  parseCanonical,
  sha256Hex,
} from '../canonical.ts';
import { err, ok, type Result } from '../result.ts';
import { isUuidV7 } from './ids.ts';

/** First line of what is hashed: the hash of an event can never be that of another kind of text. */
export const EVENT_HASH_DOMAIN = 'datumline-event-1';

/** What the first event of a chain names as its predecessor. */
export const GENESIS = '0'.repeat(64);

/** An event's text is at most this many UTF-16 units: files and pictures are kept by digest, never inside. */
export const MAX_EVENT_TEXT = 1_048_576;
const tooLong = `longer than ${MAX_EVENT_TEXT} characters`;

const uuid = z.string().refine(isUuidV7, 'not a UUIDv7');
const digest = z.string().regex(/^[0-9a-f]{64}$/, 'not a SHA-256 in hex');
const count = z.int().min(1);
const ref = z.string().regex(/^[A-Za-z0-9._-]{1,60}$/, 'not an id');

/**
 * When something happened: UTC milliseconds; minutes that local time was ahead of UTC; the IANA zone; and milliseconds of
 * a clock that only runs forward (its zero is the machine's start), by which a step of the wall clock shows.
 */
export const eventAtSchema = z.strictObject({
  utcMs: z.int().min(0),
  offsetMin: z.int().min(-1440).max(1440),
  zone: z.string().min(1).max(64),
  monoMs: z.number().min(0),
});

/** See `eventAtSchema`. */
export type EventAt = Readonly<z.infer<typeof eventAtSchema>>;

const envelopeSchema = z.strictObject({
  store: uuid,
  job: ref,
  seq: count,
  storeSeq: count,
  type: z
    .string()
    .regex(/^[a-z][A-Za-z0-9]*$/, 'not a camelCase name')
    .max(64),
  v: count,
  at: eventAtSchema,
  person: ref,
  device: ref,
  app: z.string().min(1).max(60),
  commandId: ref,
  payload: z.custom<JsonObject>(isJsonObject, 'not an object'),
  prevInJob: digest,
  prevInStore: digest,
});

/**
 * An event. `store` is a UUIDv7; `job` is the stream it belongs to (a job's id, or a shop-wide stream's name); `seq` counts from 1 within it, `storeSeq` from 1 within the store; `type`
 * and `v` say how to read `payload`; `person` and `device` are ids (no names); `app` is our version; `commandId` is the
 * command that caused it; `prevInJob` and `prevInStore` are hashes of the events before, or `GENESIS`.
 */
export type EventEnvelope = Readonly<z.infer<typeof envelopeSchema>> & { readonly at: EventAt };

/** Why a text is no event of ours. */
export type EventTextError = {
  readonly code: 'event/notCanonical' | 'event/notAnEvent';
  readonly details: { readonly problem: string };
};

/** SHA-256 in hex of the domain line, a line feed and the stored text. */
export function eventHash(text: string): string {
  return sha256Hex(`${EVENT_HASH_DOMAIN}\n${text}`);
}

/**
 * Reads a stored text. `event/notCanonical`: not the canonical text of anything; `event/notAnEvent`: canonical, but
 * without exactly the members of an envelope. The payload is not judged here: that depends on type and version.
 */
export function parseEvent(text: string): Result<EventEnvelope, EventTextError> {
  if (text.length > MAX_EVENT_TEXT) return err(notAnEvent(tooLong));
  const json = parseCanonical(text);
  if (!json.ok) {
    return err({ code: 'event/notCanonical', details: { problem: json.error.details.problem } });
  }
  return readEnvelope(json.value);
}

/** A stored text as it is verified: its hash, and what it says. */
export type OpenedText = {
  readonly hash: string;
  readonly parsed: Result<EventEnvelope, EventTextError>;
};

/** Hashes and reads a stored text. A caller that meets the same texts again may keep the answers: they depend on the text alone. */
export function openText(text: string): OpenedText {
  return { hash: eventHash(text), parsed: parseEvent(text) };
}

/** The stored text of an envelope made here, or `event/notAnEvent` when a member does not fit or it grew too long. */
export function writeEvent(event: EventEnvelope): Result<string, EventTextError> {
  const json = asJson(event);
  if (!json.ok) return err(notAnEvent(`${json.error.details.path}: ${json.error.details.problem}`));
  const checked = readEnvelope(json.value);
  if (!checked.ok) return checked;
  const text = canonicalJson(json.value);
  return text.length > MAX_EVENT_TEXT ? err(notAnEvent(tooLong)) : ok(text);
}

function readEnvelope(value: JsonValue): Result<EventEnvelope, EventTextError> {
  const parsed = envelopeSchema.safeParse(value);
  if (parsed.success) return ok(parsed.data);
  const issue = parsed.error.issues[0];
  return err(notAnEvent(`${issue?.path.join('.') ?? ''}: ${issue?.message ?? 'unknown'}`));
}

/**
 * How far the wall clock stepped between two moments of one run of the machine, in milliseconds (positive: it was put
 * forward). Undefined when the forward-only clock says that the machine was started anew in between. A step is recorded
 * and shown, never repaired.
 */
export function clockStepMs(before: EventAt, after: EventAt): number | undefined {
  if (after.monoMs < before.monoMs) return undefined;
  return after.utcMs - before.utcMs - (after.monoMs - before.monoMs);
}

function notAnEvent(problem: string): EventTextError {
  return { code: 'event/notAnEvent', details: { problem } };
}

function isJsonObject(value: unknown): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
