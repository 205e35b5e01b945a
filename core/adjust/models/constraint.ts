/**
 * constraint: a weighted sum of quantities has a value: fixed (one term), equal (+1 and -1, value 0), or any linear
 * relation. With a u it is a reading like any other; `exact` holds it without uncertainty.
 * All terms have one unit (mm, rad, or a pure number), which is the unit of `value` and `u`.
 */
import { z } from 'zod';
import { at } from '../../linalg/at.ts';
import type { Rows } from '../rows.ts';
import { type DeepReadonly, idSchema, readingFields, uSchema } from '../schemaParts.ts';
import type { StartFacts } from '../start/facts.ts';
import type { State } from '../state.ts';
import type { Binder } from './binder.ts';
import type { ReadingModel } from './model.ts';
import { headingTurn } from './planDirection.ts';
import { pitchTurn } from './tilt.ts';

/** One quantity a constraint may speak of. `level` is the horizontal, `distance` the straight distance of two points. */
export const quantitySchema = z.discriminatedUnion('of', [
  z.strictObject({ of: z.literal('coordinate'), point: idSchema, axis: z.enum(['x', 'y', 'z']) }),
  z.strictObject({ of: z.literal('distance'), from: idSchema, to: idSchema }),
  z.strictObject({ of: z.literal('level'), from: idSchema, to: idSchema }),
  z.strictObject({
    of: z.literal('pose'),
    body: idSchema,
    component: z.enum(['x', 'y', 'z', 'yaw', 'pitch', 'roll']),
  }),
  z.strictObject({ of: z.literal('shared'), shared: idSchema }),
]);

/** Fields of a constraint; the unit is that of its quantities. */
export const constraintSchema = z.strictObject({
  kind: z.literal('constraint'),
  ...readingFields,
  terms: z
    .array(z.strictObject({ coefficient: z.number(), quantity: quantitySchema }))
    .min(1)
    .max(50),
  value: z.number(),
  u: z.union([z.literal('exact'), uSchema]),
});

type Quantity = DeepReadonly<z.infer<typeof quantitySchema>>;

/** A quantity with its ids looked up: its value now, and `factor` times its partials into the current row. */
interface BoundQuantity {
  readonly unit: 'mm' | 'rad' | 'ratio';
  readonly feelsGravity: boolean;
  value(state: State, rows: Rows): number;
  spread(state: State, rows: Rows, factor: number): void;
  tell(facts: StartFacts, value: number): void;
}

const POSE = ['x', 'y', 'z', 'yaw', 'pitch', 'roll'] as const;

function bindQuantity(quantity: Quantity, binder: Binder): BoundQuantity {
  switch (quantity.of) {
    case 'coordinate':
      return bindCoordinate(binder.place(quantity.point), quantity.axis);
    case 'distance':
    case 'level':
      return bindDistance(binder.pair(quantity.from, quantity.to), quantity.of === 'level');
    case 'pose': {
      const component = POSE.indexOf(quantity.component);
      const slot = binder.poseSlot(quantity.body);
      return component < 3
        ? bindSlot(slot + component, 'mm', true)
        : bindAngle(binder.body(quantity.body), slot, component);
    }
    case 'shared': {
      const { slot, unit } = binder.sharedOfAnyUnit(quantity.shared);
      return bindSlot(slot, unit, false);
    }
  }
}

function bindSlot(slot: number, unit: 'mm' | 'rad' | 'ratio', feelsGravity: boolean): BoundQuantity {
  return {
    unit,
    feelsGravity,
    value: (state) => at(state.values, slot),
    spread: (_state, rows, factor) => rows.slot(slot, factor),
    tell: (facts, value) => facts.slots.push({ slot, value }),
  };
}

/** Yaw, pitch or roll of a body; of a steep one, whose unknowns are turns, by how these change it. */
function bindAngle(body: number, slot: number, component: number): BoundQuantity {
  const plain = bindSlot(slot + component, 'rad', true);
  return {
    ...plain,
    spread(state, rows, factor) {
      if (state.steep[body] !== 1) plain.spread(state, rows, factor);
      else if (component === 4) pitchTurn(state, rows, body, factor);
      else {
        const r = (i: number): number => at(state.rotation, 9 * body + i);
        if (component === 3) headingTurn(rows, body, factor, [r(0), r(3), r(6)]);
        else {
          const k = factor / Math.max(r(7) * r(7) + r(8) * r(8), Number.MIN_VALUE);
          rows.turn(body, k * (r(8) * r(4) - r(7) * r(5)), k * (r(7) * r(2) - r(8) * r(1)), 0);
        }
      }
    },
  };
}

function bindCoordinate(place: number, axis: 'x' | 'y' | 'z'): BoundQuantity {
  return {
    unit: 'mm',
    feelsGravity: true,
    value: (state) => at(state[axis], place),
    spread(_state, rows, factor) {
      if (axis === 'z') rows.heightPlace(place, factor);
      else rows.planPlace(place, axis === 'x' ? factor : 0, axis === 'y' ? factor : 0);
    },
    tell(facts, value) {
      facts.coordinates.push({ place, axis, mm: value });
    },
  };
}

function bindDistance([from, to]: readonly [number, number], level: boolean): BoundQuantity {
  const way = (state: State): readonly [number, number, number, number] => {
    const dx = at(state.x, to) - at(state.x, from);
    const dy = at(state.y, to) - at(state.y, from);
    const dz = level ? 0 : at(state.z, to) - at(state.z, from);
    return [dx, dy, dz, Math.sqrt(dx * dx + dy * dy + dz * dz)];
  };
  return {
    unit: 'mm',
    feelsGravity: level,
    value(state, rows) {
      const length = way(state)[3];
      if (!(length > 0)) rows.coincident.push([from, to]);
      return length;
    },
    spread(state, rows, factor) {
      const [dx, dy, dz, length] = way(state);
      const k = length > 0 ? factor / length : 0;
      rows.place(to, k * dx, k * dy, k * dz);
      rows.place(from, -k * dx, -k * dy, -k * dz);
    },
    tell: (facts, mm) => facts.distances.push({ a: from, b: to, mm, level }),
  };
}

/** The weighted sum of the quantities. */
export const constraintModel: ReadingModel<typeof constraintSchema> = {
  schema: constraintSchema,
  bind(reading, binder) {
    const terms = reading.terms.map(({ coefficient, quantity }) => ({
      coefficient: binder.number(coefficient),
      quantity: bindQuantity(quantity, binder),
    }));
    const unit = terms[0]?.quantity.unit ?? 'mm';
    if (terms.some((term) => term.quantity.unit !== unit)) binder.wrongUnit(reading.id);
    const exact = reading.u === 'exact';
    const u = reading.u === 'exact' ? 0 : reading.u;
    return {
      feelsGravity: terms.some((term) => term.quantity.feelsGravity),
      heads: [{ component: 'value', unit, observed: reading.value, u, exact }],
      write(state, rows) {
        let sum = 0;
        for (const { coefficient, quantity } of terms) sum += coefficient * quantity.value(state, rows);
        rows.row(sum);
        for (const { coefficient, quantity } of terms) quantity.spread(state, rows, coefficient);
      },
      tell(facts) {
        const [only, second] = terms;
        if (only === undefined || second !== undefined || only.coefficient === 0) return;
        only.quantity.tell(facts, reading.value / only.coefficient);
      },
    };
  },
};
