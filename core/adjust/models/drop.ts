/**
 * drop: a point was plumbed to the floor and the mark made there. Plumbing follows gravity, so it compares the two
 * in plan only, whatever the height; the height itself comes from height readings.
 * Two rows: mark minus point, along a plan direction and across it (left positive).
 */
import { z } from 'zod';
import { directionSchema, idSchema, readingFields, uSchema } from '../schemaParts.ts';

/**
 * `alongMm`, `acrossMm`: where the mark lies from the plumbed point, apart from the arm (0, 0 for a plain bob).
 * `arm`: a side arm carries the bob away from the point by (along, across) times a shared length: {across: -1} for an
 * arm that points to the right of the direction. The mark is expected at point + read offset + arm.
 */
export const dropSchema = z.strictObject({
  kind: z.literal('drop'),
  ...readingFields,
  point: idSchema,
  mark: idSchema,
  direction: directionSchema,
  alongMm: z.number(),
  acrossMm: z.number(),
  arm: z
    .strictObject({
      shared: idSchema,
      along: z.number().min(-1).max(1),
      across: z.number().min(-1).max(1),
    })
    .optional(),
  uAlongMm: uSchema,
  uAcrossMm: uSchema,
});
