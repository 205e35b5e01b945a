/**
 * offset: the signed perpendicular distance, in plan, of a point from the line through two points; positive on the
 * left of from -> to. Zero is a reading too: the point was set on the string.
 */
import { z } from 'zod';
import { idSchema, lineSchema, readingFields, uSchema } from '../schemaParts.ts';

export const offsetSchema = z.strictObject({
  kind: z.literal('offset'),
  ...readingFields,
  point: idSchema,
  line: lineSchema,
  valueMm: z.number(),
  uMm: uSchema,
  zero: idSchema.optional(),
});
