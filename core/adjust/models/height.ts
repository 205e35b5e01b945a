/**
 * height: of a point above another point, or above a level of the bay frame; up positive, along gravity.
 * reading = zero + height, with zero a shared unknown where given (a staff's foot, a laser's plane).
 */
import { z } from 'zod';
import { idSchema, readingFields, uSchema } from '../schemaParts.ts';

export const heightSchema = z.strictObject({
  kind: z.literal('height'),
  ...readingFields,
  point: idSchema,
  above: z.union([z.strictObject({ point: idSchema }), z.strictObject({ levelMm: z.number() })]),
  valueMm: z.number(),
  uMm: uSchema,
  zero: idSchema.optional(),
});
