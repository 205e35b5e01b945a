/**
 * along: where the foot of a point falls on the line through two points, in plan, counted from the line's first
 * point, positive toward the second. reading = zero + (1 + scale) x foot.
 */
import { z } from 'zod';
import { at } from '../../linalg/at.ts';
import { idSchema, lineSchema, readingFields, uSchema } from '../schemaParts.ts';
import type { ReadingModel } from './model.ts';
import { bindDirection } from './planDirection.ts';

/** Fields of an along reading, mm. */
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

/** Foot on the line, times scale, plus zero. */
export const alongModel: ReadingModel<typeof alongSchema> = {
  schema: alongSchema,
  bind(reading, binder) {
    const place = binder.place(reading.point);
    const line = binder.pair(reading.line.from, reading.line.to);
    const direction = bindDirection(reading.line, binder);
    const scale = binder.shared(reading.scale, 'ratio');
    const zero = binder.shared(reading.zero, 'mm');
    return {
      feelsGravity: true,
      heads: [{ component: 'value', unit: 'mm', observed: reading.valueMm, u: reading.uMm }],
      write(state, rows) {
        direction.read(state, rows);
        const { ex, ey } = direction;
        const dx = at(state.x, place) - at(state.x, line[0]);
        const dy = at(state.y, place) - at(state.y, line[0]);
        const foot = ex * dx + ey * dy;
        const factor = scale < 0 ? 1 : 1 + at(state.values, scale);
        rows.row(factor * foot + (zero < 0 ? 0 : at(state.values, zero)));
        rows.planPlace(place, factor * ex, factor * ey);
        rows.planPlace(line[0], -factor * ex, -factor * ey);
        direction.turn(state, rows, factor * (ex * dy - ey * dx));
        if (scale >= 0) rows.slot(scale, foot);
        if (zero >= 0) rows.slot(zero, 1);
      },
      tell(facts) {
        const mm = (reading.valueMm - facts.sharedStart(zero)) / (1 + facts.sharedStart(scale));
        facts.lines.push({ place, line, axis: 'along', mm });
      },
    };
  },
};
