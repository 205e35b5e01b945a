/**
 * pose: where a body stands and how it is turned, seen from the bay or from another body, as a camera, a tracker or an
 * earlier adjustment gives it, with its full covariance. Six rows: x, y, z of the body's origin along the axes of the
 * frame it was seen in, then the small turns about those axes that carry the pose as read onto the computed one, so that
 * no attitude is special. Their "observed" is nought; the residual turns are minus what is computed.
 */
import { z } from 'zod';
import { rotationMatrix } from '../../geometry/rotation.ts';
import { turnChange, turnOfRotation } from '../../geometry/turn.ts';
import { at } from '../../linalg/at.ts';
import { type Matrix, multiply, transpose } from '../../linalg/matrix.ts';
import { poseCovarianceSchema } from '../correlation.ts';
import type { Rows } from '../rows.ts';
import { idSchema, readingFields } from '../schemaParts.ts';
import type { State } from '../state.ts';
import type { ReadingModel, RowHead } from './model.ts';

/**
 * Fields of a pose reading: mm, radians, R = Rz(yaw) Ry(pitch) Rx(roll) from the body's axes to those of `in`.
 * `covariance`: six by six, in the order x, y, z (mm), turnX, turnY, turnZ (radians about the axes of `in`).
 */
export const poseSchema = z.strictObject({
  kind: z.literal('pose'),
  ...readingFields,
  body: idSchema,
  in: z.union([z.literal('bay'), z.strictObject({ body: idSchema })]),
  xMm: z.number(),
  yMm: z.number(),
  zMm: z.number(),
  yawRad: z.number(),
  pitchRad: z.number(),
  rollRad: z.number(),
  covariance: poseCovarianceSchema,
});

const AXES = [
  ['x', 'turnX'],
  ['y', 'turnY'],
  ['z', 'turnZ'],
] as const;

/** Origin and turn relative to the bay or the other body. */
export const poseModel: ReadingModel<typeof poseSchema> = {
  schema: poseSchema,
  bind(reading, binder) {
    const body = binder.body(reading.body);
    const reference = reading.in === 'bay' ? -1 : binder.body(reading.in.body);
    if (body === reference) binder.sameBody(reading.body);
    const slot = binder.poseSlot(reading.body);
    const seenFrom = reading.in === 'bay' ? -1 : binder.poseSlot(reading.in.body);
    for (const rad of [reading.yawRad, reading.pitchRad, reading.rollRad]) binder.number(rad);
    const seen = rotationMatrix(reading);
    const shift = [reading.xMm, reading.yMm, reading.zMm] as const;
    const u = (i: number): number => Math.sqrt(reading.covariance[i]?.[i] ?? Number.NaN);
    return {
      feelsGravity: reference < 0,
      covariance: reading.covariance,
      heads: [
        ...AXES.map(([component], i): RowHead => {
          return { component, unit: 'mm', observed: shift[i] ?? Number.NaN, u: u(i) };
        }),
        ...AXES.map(([, component], i): RowHead => {
          return { component, unit: 'rad', observed: 0, u: u(3 + i) };
        }),
      ],
      write(state, rows) {
        writePlace(state, rows, slot, reference, seenFrom);
        writeTurn(state, rows, body, reference, seen);
      },
      tell(facts) {
        if (reference >= 0) {
          facts.poses.push({ body, reference, shift, rotation: seen });
          return;
        }
        const { xMm, yMm, zMm, yawRad, pitchRad, rollRad } = reading;
        for (const [i, value] of [xMm, yMm, zMm, yawRad, pitchRad, rollRad].entries()) {
          facts.slots.push({ slot: slot + i, value });
        }
      },
    };
  },
};

/** Origin of the body along the axes of the frame it is seen in: R' (p - q), which a turn w of R changes by -R' (w x (p - q)). */
function writePlace(state: State, rows: Rows, slot: number, reference: number, seenFrom: number): void {
  if (reference < 0) {
    for (let k = 0; k < 3; k++) {
      rows.row(at(state.values, slot + k));
      rows.slot(slot + k, 1);
    }
    return;
  }
  const way = (k: number): number => at(state.values, slot + k) - at(state.values, seenFrom + k);
  const [dx, dy, dz] = [way(0), way(1), way(2)];
  for (let k = 0; k < 3; k++) {
    const axis = (i: number): number => at(state.rotation, 9 * reference + 3 * i + k);
    const [ax, ay, az] = [axis(0), axis(1), axis(2)];
    rows.row(ax * dx + ay * dy + az * dz);
    for (const [i, a] of [ax, ay, az].entries()) {
      rows.slot(slot + i, a);
      rows.slot(seenFrom + i, -a);
    }
    // -a . (w x d) = w . (a x d)
    rows.turn(reference, ay * dz - az * dy, az * dx - ax * dz, ax * dy - ay * dx);
  }
}

/** Turn vector t of (R' B) S', with B the body's rotation and S that read: R' B = Exp(t) S. */
function writeTurn(state: State, rows: Rows, body: number, reference: number, seen: Matrix): void {
  const own = rotationOf(state, body);
  const outer = reference < 0 ? undefined : rotationOf(state, reference);
  const relative = outer === undefined ? own : multiply(transpose(outer), own);
  const turn = turnOfRotation(multiply(relative, transpose(seen)));
  const change = turnChange(turn);
  const toBay = outer === undefined ? change : multiply(change, transpose(outer));
  for (let k = 0; k < 3; k++) {
    const by = (i: number): number => at(toBay.data, 3 * k + i);
    rows.row(turn[k] ?? Number.NaN);
    rows.turn(body, by(0), by(1), by(2));
    if (reference >= 0) rows.turn(reference, -by(0), -by(1), -by(2));
  }
}

function rotationOf(state: State, body: number): Matrix {
  return { rows: 3, columns: 3, data: state.rotation.subarray(9 * body, 9 * body + 9) };
}
