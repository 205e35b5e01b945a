/** Calls and notices of instruments that send lines. */
import { z } from 'zod';
import { lineFormatSchema, MOST_LINE, streamSourceSchema } from '../instruments/schema.ts';
import { INSTRUMENT_WORDS } from '../words/instruments.ts';
import { command, query, refSchema } from './call.ts';

/** What is wrong, as a key of the word catalogue with its values. */
export const instrumentFaultSchema = z.strictObject({
  key: z.enum(Object.keys(INSTRUMENT_WORDS) as [keyof typeof INSTRUMENT_WORDS]),
  values: z.record(z.string(), z.string()),
});

/** A value in the kept unit of its kind. */
export const streamedValueSchema = z.strictObject({
  value: z.number().finite(),
  unit: z.enum(['mm', 'rad', 'kPa', 'lx', '°C', '%']),
  channel: z.string(),
  quality: z.string(),
});

/** Mean and spread of the last second's values; `s` is null for a single one. */
export const takeSchema = z.strictObject({
  n: z.int().min(1),
  mean: z.number().finite(),
  s: z.number().finite().min(0).nullable(),
});

const lineSchema = z.string().max(MOST_LINE);

/** How a connection stands. `silent`: open, and nothing has come for some seconds; `waiting`: it is tried again soon. */
export const connectionSchema = z.strictObject({
  instrument: refSchema,
  state: z.enum(['connecting', 'open', 'silent', 'waiting', 'closed']),
  fault: instrumentFaultSchema.nullable(),
  nextTryMs: z.int().min(0).nullable(),
  /** Age of the last line when this was said; null before the first. */
  lastLineAgoMs: z.int().min(0).nullable(),
});

export const instrumentCalls = {
  /** Tries a format on lines that an instrument has sent. */
  'instrument.test': query(
    z.strictObject({ format: lineFormatSchema, lines: z.array(lineSchema).max(50) }),
    z.strictObject({
      fits: z.boolean(),
      problem: instrumentFaultSchema.nullable(),
      lines: z.array(
        z.strictObject({
          line: z.string(),
          value: streamedValueSchema.nullable(),
          fault: instrumentFaultSchema.nullable(),
        }),
      ),
      take: takeSchema.nullable(),
    }),
  ),
  /** Names of the serial ports there are now. */
  'instrument.ports': query(z.strictObject({}), z.strictObject({ ports: z.array(z.string()) })),
  /**
   * Connects an instrument and keeps it connected; one that is connected already is connected anew. Without a format its
   * lines are passed on unread: the live sample. `problem` says what is wrong with the format; then nothing was changed.
   */
  'instrument.connect': command(
    z.strictObject({
      instrument: refSchema,
      source: streamSourceSchema,
      format: lineFormatSchema.nullable(),
    }),
    z.strictObject({ problem: instrumentFaultSchema.nullable() }),
  ),
  'instrument.disconnect': command(z.strictObject({ instrument: refSchema }), z.strictObject({})),
  /** All that are connected, for a window that has just opened. */
  'instrument.states': query(z.strictObject({}), z.strictObject({ connections: z.array(connectionSchema) })),
};

export const instrumentNotices = {
  /** The newest value of an instrument; at most sixty of these a second and instrument. */
  'instrument.value': z.strictObject({
    instrument: refSchema,
    line: lineSchema,
    value: streamedValueSchema.nullable(),
    fault: instrumentFaultSchema.nullable(),
    take: takeSchema.nullable(),
    lines: z.int().min(0),
    unread: z.int().min(0),
    skipped: z.int().min(0),
  }),
  'instrument.state': connectionSchema,
};
