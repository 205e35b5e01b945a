/**
 * height: of a point above another point, or above a level of the bay frame; up positive, along gravity.
 * reading = zero + height, with zero a shared unknown where given (a staff's foot, a laser's plane).
 */
import { z } from 'zod';
import { at } from '../../linalg/at.ts';
import { idSchema, readingFields, uSchema } from '../schemaParts.ts';
import type { ReadingModel } from './model.ts';

/** Fields of a height reading, mm. */
export const heightSchema = z.strictObject({
  kind: z.literal('height'),
  ...readingFields,
  point: idSchema,
  above: z.union([z.strictObject({ point: idSchema }), z.strictObject({ levelMm: z.number() })]),
  valueMm: z.number(),
  uMm: uSchema,
  zero: idSchema.optional(),
});

/** Difference of heights, plus zero. */
export const heightModel: ReadingModel<typeof heightSchema> = {
  schema: heightSchema,
  bind(reading, binder) {
    const [above, place] =
      'point' in reading.above
        ? binder.pair(reading.above.point, reading.point)
        : [-1, binder.place(reading.point)];
    const levelMm = 'levelMm' in reading.above ? binder.number(reading.above.levelMm) : 0;
    const zero = binder.shared(reading.zero, 'mm');
    return {
      feelsGravity: true,
      heads: [{ component: 'value', unit: 'mm', observed: reading.valueMm, u: reading.uMm }],
      write(state, rows) {
        const base = above < 0 ? levelMm : at(state.z, above);
        rows.row(at(state.z, place) - base + (zero < 0 ? 0 : at(state.values, zero)));
        rows.heightPlace(place, 1);
        if (above >= 0) rows.heightPlace(above, -1);
        if (zero >= 0) rows.slot(zero, 1);
      },
      tell(facts) {
        const mm = reading.valueMm + levelMm - facts.sharedStart(zero);
        facts.heights.push({ place, above: above < 0 ? undefined : above, mm });
      },
    };
  },
};
