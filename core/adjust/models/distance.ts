/**
 * distance: a tape or distance meter between two points.
 * reading = zero + (1 + scale) x distance, with zero and scale shared unknowns where given.
 */
import { z } from 'zod';
import { at } from '../../linalg/at.ts';
import { idSchema, readingFields, uSchema } from '../schemaParts.ts';
import type { ReadingModel } from './model.ts';

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

/** Distance in space or level, times scale, plus zero. */
export const distanceModel: ReadingModel<typeof distanceSchema> = {
  schema: distanceSchema,
  bind(reading, binder) {
    const [from, to] = binder.pair(reading.from, reading.to);
    const scale = binder.shared(reading.scale, 'ratio');
    const zero = binder.shared(reading.zero, 'mm');
    const level = reading.mode === 'level';
    return {
      feelsGravity: level,
      heads: [{ component: 'value', unit: 'mm', observed: reading.valueMm, u: reading.uMm }],
      write(state, rows) {
        const dx = at(state.x, to) - at(state.x, from);
        const dy = at(state.y, to) - at(state.y, from);
        const dz = level ? 0 : at(state.z, to) - at(state.z, from);
        const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
        if (!(length > 0)) rows.coincident.push([from, to]);
        const factor = scale < 0 ? 1 : 1 + at(state.values, scale);
        rows.row(factor * length + (zero < 0 ? 0 : at(state.values, zero)));
        const k = length > 0 ? factor / length : 0;
        if (level) {
          rows.planPlace(to, k * dx, k * dy);
          rows.planPlace(from, -k * dx, -k * dy);
        } else {
          rows.place(to, k * dx, k * dy, k * dz);
          rows.place(from, -k * dx, -k * dy, -k * dz);
        }
        if (scale >= 0) rows.slot(scale, length);
        if (zero >= 0) rows.slot(zero, 1);
      },
      tell(facts) {
        const mm = (reading.valueMm - facts.sharedStart(zero)) / (1 + facts.sharedStart(scale));
        facts.distances.push({ a: from, b: to, mm, level });
      },
    };
  },
};
