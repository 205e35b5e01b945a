/**
 * constraint: a weighted sum of quantities has a value: fixed (one term), equal (+1 and -1, value 0), or any linear
 * relation. With a u it is a reading like any other; `exact` holds it without uncertainty.
 * All terms have one unit (mm, rad, or a pure number), which is the unit of `value` and `u`.
 */
import { z } from 'zod';
import { idSchema, readingFields, uSchema } from '../schemaParts.ts';

/** One quantity a constraint may speak of. `level` is the horizontal, `distance` the straight distance of two points. */
export const quantitySchema = z.discriminatedUnion('of', [
  z.strictObject({ of: z.literal('coordinate'), point: idSchema, axis: z.enum(['x', 'y', 'z']) }),
  z.strictObject({ of: z.literal('distance'), from: idSchema, to: idSchema }),
  z.strictObject({ of: z.literal('level'), from: idSchema, to: idSchema }),
  z.strictObject({
    of: z.literal('pose'),
    body: idSchema,
    component: z.enum(['x', 'y', 'z', 'yaw', 'pitch', 'roll']),
  }),
  z.strictObject({ of: z.literal('shared'), shared: idSchema }),
]);

export const constraintSchema = z.strictObject({
  kind: z.literal('constraint'),
  ...readingFields,
  terms: z
    .array(z.strictObject({ coefficient: z.number(), quantity: quantitySchema }))
    .min(1)
    .max(50),
  value: z.number(),
  u: z.union([z.literal('exact'), uSchema]),
});
