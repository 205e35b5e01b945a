/** coordinate: one bay-frame coordinate of a point, read from a laid-out pair of lines or a floor grid. */
import { z } from 'zod';
import { idSchema, readingFields, uSchema } from '../schemaParts.ts';

export const coordinateSchema = z.strictObject({
  kind: z.literal('coordinate'),
  ...readingFields,
  point: idSchema,
  axis: z.enum(['x', 'y', 'z']),
  valueMm: z.number(),
  uMm: uSchema,
});
