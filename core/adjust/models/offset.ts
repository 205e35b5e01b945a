/**
 * offset: the signed perpendicular distance, in plan, of a point from the line through two points; positive on the
 * left of from -> to. Zero is a reading too: the point was set on the string.
 */
import { z } from 'zod';
import { at } from '../../linalg/at.ts';
import { idSchema, lineSchema, readingFields, uSchema } from '../schemaParts.ts';
import type { ReadingModel } from './model.ts';
import { bindDirection } from './planDirection.ts';

/** Fields of an offset reading, mm. */
export const offsetSchema = z.strictObject({
  kind: z.literal('offset'),
  ...readingFields,
  point: idSchema,
  line: lineSchema,
  valueMm: z.number(),
  uMm: uSchema,
  zero: idSchema.optional(),
});

/** Perpendicular distance to the left of the line, plus zero. */
export const offsetModel: ReadingModel<typeof offsetSchema> = {
  schema: offsetSchema,
  bind(reading, binder) {
    const place = binder.place(reading.point);
    const line = binder.pair(reading.line.from, reading.line.to);
    const direction = bindDirection(reading.line, binder);
    const zero = binder.shared(reading.zero, 'mm');
    return {
      feelsGravity: true,
      heads: [{ component: 'value', unit: 'mm', observed: reading.valueMm, u: reading.uMm }],
      write(state, rows) {
        direction.read(state, rows);
        const { ex, ey } = direction;
        const dx = at(state.x, place) - at(state.x, line[0]);
        const dy = at(state.y, place) - at(state.y, line[0]);
        rows.row(ex * dy - ey * dx + (zero < 0 ? 0 : at(state.values, zero)));
        rows.planPlace(place, -ey, ex);
        rows.planPlace(line[0], ey, -ex);
        direction.turn(state, rows, -(ex * dx + ey * dy));
        if (zero >= 0) rows.slot(zero, 1);
      },
      tell(facts) {
        facts.lines.push({ place, line, axis: 'offset', mm: reading.valueMm - facts.sharedStart(zero) });
      },
    };
  },
};
