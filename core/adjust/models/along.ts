/**
 * along: where the foot of a point falls on the line through two points, in plan, counted from the line's first
 * point, positive toward the second. reading = zero + (1 + scale) x foot.
 */
import { z } from 'zod';
import { idSchema, lineSchema, readingFields, uSchema } from '../schemaParts.ts';

export const alongSchema = z.strictObject({
  kind: z.literal('along'),
  ...readingFields,
  point: idSchema,
  line: lineSchema,
  valueMm: z.number(),
  uMm: uSchema,
  scale: idSchema.optional(),
  zero: idSchema.optional(),
});
