/**
 * distance: a tape or distance meter between two points.
 * reading = zero + (1 + scale) x distance, with zero and scale shared unknowns where given.
 */
import { z } from 'zod';
import { idSchema, readingFields, uSchema } from '../schemaParts.ts';

/**
 * `mode` floor: between two marks, the tape on the floor. slope: between points in the air, straight from one to the other. Both
 * are distances in space. level: the horizontal distance, whatever the heights (a levelled instrument, a plan).
 */
export const distanceSchema = z.strictObject({
  kind: z.literal('distance'),
  ...readingFields,
  from: idSchema,
  to: idSchema,
  mode: z.enum(['floor', 'slope', 'level']),
  valueMm: z.number(),
  uMm: uSchema,
  scale: idSchema.optional(),
  zero: idSchema.optional(),
});
