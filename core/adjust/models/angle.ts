/**
 * angle: from a first plan direction to a second, positive turning left (seen from above). Each is a line through two
 * points or a body's own x or y axis seen from above. Whole turns do not matter.
 */
import { z } from 'zod';
import { at } from '../../linalg/at.ts';
import { wrapRad } from '../../units.ts';
import { directionSchema, idSchema, readingFields, uSchema } from '../schemaParts.ts';
import { factOf } from '../start/facts.ts';
import type { ReadingModel } from './model.ts';
import { bindDirection } from './planDirection.ts';

/** Fields of an angle reading, radians. */
export const angleSchema = z.strictObject({
  kind: z.literal('angle'),
  ...readingFields,
  first: directionSchema,
  second: directionSchema,
  valueRad: z.number(),
  uRad: uSchema,
  zero: idSchema.optional(),
});

/** Heading of the second direction less that of the first, plus zero, nearest to the reading. */
export const angleModel: ReadingModel<typeof angleSchema> = {
  schema: angleSchema,
  bind(reading, binder) {
    const first = bindDirection(reading.first, binder);
    const second = bindDirection(reading.second, binder);
    const zero = binder.shared(reading.zero, 'rad');
    return {
      feelsGravity: true,
      heads: [{ component: 'value', unit: 'rad', observed: reading.valueRad, u: reading.uRad }],
      write(state, rows) {
        first.read(state, rows);
        second.read(state, rows);
        const turn = second.headingRad - first.headingRad + (zero < 0 ? 0 : at(state.values, zero));
        // The computed angle nearest to the reading: 359 degrees and -1 degree are the same turn.
        rows.row(reading.valueRad - wrapRad(reading.valueRad - turn));
        second.turn(state, rows, 1);
        first.turn(state, rows, -1);
        if (zero >= 0) rows.slot(zero, 1);
      },
      tell(facts) {
        const rad = reading.valueRad - facts.sharedStart(zero);
        facts.angles.push({ first: factOf(first), second: factOf(second), rad });
      },
    };
  },
};
