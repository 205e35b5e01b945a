/** Instruments that send lines of text: where they are, and how a line of theirs is read. */
import { z } from 'zod';

/** A pattern is at most this many characters. */
export const MOST_PATTERN = 200;
/** A line longer than this, in characters, is cut: no reading is so long. */
export const MOST_LINE = 256;

/** What an instrument measures; its values are kept in mm, rad, kPa, lx, °C or %. */
export const streamedKindSchema = z.enum([
  'length',
  'angle',
  'pressure',
  'illuminance',
  'temperature',
  'share',
]);
export type StreamedKind = z.infer<typeof streamedKindSchema>;

/**
 * How a line is read. `pattern` finds its parts by groups named `value`, `unit`, `channel` and `quality`; it is matched
 * anywhere in the line unless it is anchored. `unit` holds where the line says none. `channel` takes only lines of that
 * channel; empty takes all. `good` are the marks of a good line, where the pattern has a group `quality`; empty takes all.
 */
export const lineFormatSchema = z.strictObject({
  pattern: z.string().min(1).max(MOST_PATTERN),
  kind: streamedKindSchema,
  unit: z.string().max(12),
  channel: z.string().max(20),
  good: z.array(z.string().min(1).max(20)).max(10),
});
export type LineFormat = z.infer<typeof lineFormatSchema>;

/** A port by its name alone: never a path. */
export const portNameSchema = z
  .string()
  .regex(/^(?:tty(?:USB|ACM|AMA|S)\d{1,3}|rfcomm\d{1,3}|COM\d{1,3}|(?:tty|cu)\.[A-Za-z0-9._-]{1,60})$/);

/** Where an instrument's lines come from. */
export const streamSourceSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('tcp'),
    host: z.string().regex(/^(?:[A-Za-z0-9](?:[A-Za-z0-9.-]{0,250}[A-Za-z0-9])?|[0-9A-Fa-f:]{2,45})$/),
    port: z.int().min(1).max(65_535),
  }),
  z.strictObject({
    kind: z.literal('serial'),
    port: portNameSchema,
    baud: z.int().min(110).max(4_000_000),
    dataBits: z.union([z.literal(7), z.literal(8)]),
    stopBits: z.union([z.literal(1), z.literal(2)]),
    parity: z.enum(['none', 'even', 'odd']),
  }),
]);
export type StreamSource = z.infer<typeof streamSourceSchema>;

/** A source and the way its lines are read: what is kept of an instrument once it was tried. */
export const lineStreamSchema = z.strictObject({ source: streamSourceSchema, format: lineFormatSchema });
export type LineStream = z.infer<typeof lineStreamSchema>;
