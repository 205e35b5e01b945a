/**
 * tilt: a body's pitch or roll against gravity, as an inclinometer or bubble on it shows it.
 * pitch: how far the body's x axis dips below level, positive nose down (ISO 8855). roll: how far its y axis rises
 * above level, positive when the left side is up. reading = zero + tilt.
 */
import { z } from 'zod';
import { idSchema, readingFields, uSchema } from '../schemaParts.ts';

export const tiltSchema = z.strictObject({
  kind: z.literal('tilt'),
  ...readingFields,
  body: idSchema,
  axis: z.enum(['pitch', 'roll']),
  valueRad: z.number(),
  uRad: uSchema,
  zero: idSchema.optional(),
});
