/**
 * angle: from a first plan direction to a second, positive turning left (seen from above). Each is a line through two
 * points or a body's own x or y axis seen from above. Whole turns do not matter.
 */
import { z } from 'zod';
import { directionSchema, idSchema, readingFields, uSchema } from '../schemaParts.ts';

export const angleSchema = z.strictObject({
  kind: z.literal('angle'),
  ...readingFields,
  first: directionSchema,
  second: directionSchema,
  valueRad: z.number(),
  uRad: uSchema,
  zero: idSchema.optional(),
});
