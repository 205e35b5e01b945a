/** coordinate: one bay-frame coordinate of a point, read from a laid-out pair of lines or a floor grid. */
import { z } from 'zod';
import { at } from '../../linalg/at.ts';
import { idSchema, readingFields, uSchema } from '../schemaParts.ts';
import type { ReadingModel } from './model.ts';

/** Fields of a coordinate reading, mm. */
export const coordinateSchema = z.strictObject({
  kind: z.literal('coordinate'),
  ...readingFields,
  point: idSchema,
  axis: z.enum(['x', 'y', 'z']),
  valueMm: z.number(),
  uMm: uSchema,
});

/** The coordinate itself. */
export const coordinateModel: ReadingModel<typeof coordinateSchema> = {
  schema: coordinateSchema,
  bind(reading, binder) {
    const place = binder.place(reading.point);
    const { axis } = reading;
    return {
      feelsGravity: true,
      heads: [{ component: 'value', unit: 'mm', observed: reading.valueMm, u: reading.uMm }],
      write(state, rows) {
        rows.row(at(state[axis], place));
        if (axis === 'z') rows.heightPlace(place, 1);
        else rows.planPlace(place, axis === 'x' ? 1 : 0, axis === 'y' ? 1 : 0);
      },
      tell(facts) {
        facts.coordinates.push({ place, axis, mm: reading.valueMm });
      },
    };
  },
};
