/**
 * tilt: a body's pitch or roll against gravity, as an inclinometer or bubble on it shows it.
 * pitch: how far the body's x axis dips below level, positive nose down (ISO 8855). roll: how far its y axis rises
 * above level, positive when the left side is up. reading = zero + tilt.
 */
import { z } from 'zod';
import { at } from '../../linalg/at.ts';
import type { Rows } from '../rows.ts';
import { idSchema, readingFields, uSchema } from '../schemaParts.ts';
import type { State } from '../state.ts';
import type { ReadingModel } from './model.ts';

/** Fields of a tilt reading, radians. */
export const tiltSchema = z.strictObject({
  kind: z.literal('tilt'),
  ...readingFields,
  body: idSchema,
  axis: z.enum(['pitch', 'roll']),
  valueRad: z.number(),
  uRad: uSchema,
  zero: idSchema.optional(),
});

/** Pitch, or the rise of the y axis, plus zero. */
export const tiltModel: ReadingModel<typeof tiltSchema> = {
  schema: tiltSchema,
  bind(reading, binder) {
    const body = binder.body(reading.body);
    const slot = binder.poseSlot(reading.body);
    const zero = binder.shared(reading.zero, 'rad');
    return {
      feelsGravity: true,
      heads: [{ component: 'value', unit: 'rad', observed: reading.valueRad, u: reading.uRad }],
      write(state, rows) {
        const pitch = at(state.values, slot + 4);
        const offset = zero < 0 ? 0 : at(state.values, zero);
        if (reading.axis === 'pitch') {
          rows.row(pitch + offset);
          if (state.steep[body] === 1) pitchTurn(state, rows, body, 1);
          else rows.slot(slot + 4, 1);
        } else {
          const roll = at(state.values, slot + 5);
          const rise = Math.cos(pitch) * Math.sin(roll);
          const level = Math.sqrt(1 - rise * rise);
          rows.row(Math.asin(rise) + offset);
          if (state.steep[body] === 1) {
            const [yx, yy] = [at(state.rotation, 9 * body + 1), at(state.rotation, 9 * body + 4)];
            rows.turn(body, yy / level, -yx / level, 0);
          } else {
            rows.slot(slot + 4, (-Math.sin(pitch) * Math.sin(roll)) / level);
            rows.slot(slot + 5, (Math.cos(pitch) * Math.cos(roll)) / level);
          }
        }
        if (zero >= 0) rows.slot(zero, 1);
      },
      tell(facts) {
        const value = reading.valueRad - facts.sharedStart(zero);
        facts.slots.push({ slot: slot + (reading.axis === 'pitch' ? 4 : 5), value });
      },
    };
  },
};

/** Pitch of a steep body by turns about the bay's axes; upright its derivative has no direction, and none is given. */
export function pitchTurn(state: State, rows: Rows, body: number, factor: number): void {
  const [xx, xy] = [at(state.rotation, 9 * body), at(state.rotation, 9 * body + 3)];
  const level = Math.sqrt(xx * xx + xy * xy);
  const k = level > UPRIGHT ? factor / level : 0;
  rows.turn(body, -k * xy, k * xx, 0);
}

/** An axis of which less than this lies level is upright. */
const UPRIGHT = 1e-9;
