/**
 * drop: a point was plumbed to the floor and the mark made there. Plumbing follows gravity, so it compares the two
 * in plan only, whatever the height; the height itself comes from height readings.
 * Two rows: mark minus point, along a plan direction and across it (left positive).
 */
import { z } from 'zod';
import { at } from '../../linalg/at.ts';
import { directionSchema, idSchema, readingFields, uSchema } from '../schemaParts.ts';
import { factOf } from '../start/facts.ts';
import type { ReadingModel } from './model.ts';
import { bindDirection } from './planDirection.ts';

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

/** Mark less point, along and across the direction, less the arm. */
export const dropModel: ReadingModel<typeof dropSchema> = {
  schema: dropSchema,
  bind(reading, binder) {
    const [point, mark] = binder.pair(reading.point, reading.mark);
    const direction = bindDirection(reading.direction, binder);
    const arm = binder.shared(reading.arm?.shared, 'mm');
    const armAlong = reading.arm?.along ?? 0;
    const armAcross = reading.arm?.across ?? 0;
    return {
      feelsGravity: true,
      heads: [
        { component: 'along', unit: 'mm', observed: reading.alongMm, u: reading.uAlongMm },
        { component: 'across', unit: 'mm', observed: reading.acrossMm, u: reading.uAcrossMm },
      ],
      write(state, rows) {
        direction.read(state, rows);
        const { ex, ey } = direction;
        const dx = at(state.x, mark) - at(state.x, point);
        const dy = at(state.y, mark) - at(state.y, point);
        const along = ex * dx + ey * dy;
        const across = ex * dy - ey * dx;
        const length = arm < 0 ? 0 : at(state.values, arm);
        rows.row(along - armAlong * length);
        rows.planPlace(mark, ex, ey);
        rows.planPlace(point, -ex, -ey);
        direction.turn(state, rows, across);
        if (arm >= 0) rows.slot(arm, -armAlong);
        rows.row(across - armAcross * length);
        rows.planPlace(mark, -ey, ex);
        rows.planPlace(point, ey, -ex);
        direction.turn(state, rows, -along);
        if (arm >= 0) rows.slot(arm, -armAcross);
      },
      tell(facts) {
        const length = facts.sharedStart(arm);
        facts.drops.push({
          point,
          mark,
          direction: factOf(direction),
          along: reading.alongMm + armAlong * length,
          across: reading.acrossMm + armAcross * length,
        });
      },
    };
  },
};
