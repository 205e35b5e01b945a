/** What a call is, and the parts that several calls share. Everything is JSON: no dates, no bytes, no paths. */
import { z } from 'zod';
import { eventTypes } from '../job/events.ts';
import { isUuidV7 } from '../job/ids.ts';

/** Jobs and commands are UUIDv7, made where they begin. */
export const uuidSchema = z.string().refine(isUuidV7, 'not a UUIDv7');

/** Ids travel as bounded text. */
export const refSchema = z.string().regex(/^[A-Za-z0-9._-]{1,60}$/);
export const digestSchema = z.string().regex(/^[0-9a-f]{64}$/);
export const draftKeySchema = z.string().min(1).max(240);

/** Who acts. A person of the shop; rights are checked in the service. */
export const actingSchema = z.strictObject({ person: refSchema });

/**
 * One fact to append. The payload is checked against the strict schema of its type by the service, after values of
 * the form `{ personal: text }` have been put aside and replaced by their commitments.
 */
export const entrySchema = z.strictObject({
  type: z.enum(eventTypes as [string, ...string[]]),
  v: z.literal(1),
  payload: z.record(z.string().max(60), z.unknown()),
});

/** An event as it is read: its stored text is what was hashed. */
export const storedEventSchema = z.strictObject({ text: z.string(), hash: digestSchema });

/** A field that was being typed: not in the record, and never lost. */
export const draftSchema = z.strictObject({
  field: draftKeySchema,
  text: z.string().max(4000),
  savedAtUtcMs: z.int(),
});

/** A query reads, a command changes, both answer an envelope. */
export interface Call<I extends z.ZodType = z.ZodType, O extends z.ZodType = z.ZodType> {
  readonly kind: 'query' | 'command';
  readonly input: I;
  readonly output: O;
  /** Largest accepted input, characters of JSON. */
  readonly limit: number;
}

export function query<I extends z.ZodType, O extends z.ZodType>(input: I, output: O): Call<I, O> {
  return Object.freeze({ kind: 'query' as const, input, output, limit: 20_000 });
}

export function command<I extends z.ZodType, O extends z.ZodType>(
  input: I,
  output: O,
  limit = 200_000,
): Call<I, O> {
  return Object.freeze({ kind: 'command' as const, input, output, limit });
}
