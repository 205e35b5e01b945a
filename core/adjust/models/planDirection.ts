/**
 * A direction in plan, from a line through two points or from a body's axis seen from above: its unit vector now,
 * and the unknowns a small turn of it depends on.
 */
import type { Vec3 } from '../../geometry/vector.ts';
import { at } from '../../linalg/at.ts';
import type { Rows } from '../rows.ts';
import type { Direction } from '../schemaParts.ts';
import type { State } from '../state.ts';
import type { Binder } from './binder.ts';

/** Reads and differentiates one plan direction. `ex`, `ey` and `headingRad` hold after `read`. */
export interface PlanDirection {
  ex: number;
  ey: number;
  headingRad: number;
  /** The two ends, for directions along a line; undefined for a body's axis. */
  readonly ends: readonly [number, number] | undefined;
  /** Body number and turn of the axis from its x axis, for a body's axis. */
  readonly axis: { readonly body: number; readonly quarter: 0 | 1 } | undefined;
  /** Brings the direction up to date; coincident ends are reported to `rows`. */
  read(state: State, rows: Rows): void;
  /** Adds `factor` times the derivative of the heading to the current row. */
  turn(state: State, rows: Rows, factor: number): void;
}

/** Looks a direction's ids up. */
export function bindDirection(direction: Direction, binder: Binder): PlanDirection {
  return 'body' in direction
    ? bodyAxis(binder.body(direction.body), binder.poseSlot(direction.body), direction.axis)
    : lineDirection(binder.pair(direction.from, direction.to));
}

function lineDirection(ends: readonly [number, number]): PlanDirection {
  const [from, to] = ends;
  let length = 1;
  return {
    ex: 1,
    ey: 0,
    headingRad: 0,
    ends,
    axis: undefined,
    read(state, rows) {
      const dx = at(state.x, to) - at(state.x, from);
      const dy = at(state.y, to) - at(state.y, from);
      length = Math.sqrt(dx * dx + dy * dy);
      if (!(length > 0)) {
        rows.coincident.push([from, to]);
        length = 1;
      }
      this.ex = dx / length;
      this.ey = dy / length;
      this.headingRad = Math.atan2(dy, dx);
    },
    turn(_state, rows, factor) {
      const k = factor / length;
      rows.planPlace(to, -this.ey * k, this.ex * k);
      rows.planPlace(from, this.ey * k, -this.ex * k);
    },
  };
}

/** Heading of a body's own x axis is its yaw; of its y axis, that and a quarter turn, less what pitch and roll shear. */
function bodyAxis(body: number, slot: number, axis: 'x' | 'y'): PlanDirection {
  const quarter = axis === 'x' ? 0 : 1;
  return {
    ex: 1,
    ey: 0,
    headingRad: 0,
    ends: undefined,
    axis: { body, quarter },
    read(state) {
      const r = 9 * body + quarter;
      const dx = at(state.rotation, r);
      const dy = at(state.rotation, r + 3);
      this.headingRad = Math.atan2(dy, dx);
      this.ex = Math.cos(this.headingRad);
      this.ey = Math.sin(this.headingRad);
    },
    turn(state, rows, factor) {
      if (state.steep[body] === 1) {
        const [ux, uy, uz] = [0, 3, 6].map((row) => at(state.rotation, 9 * body + quarter + row));
        headingTurn(rows, body, factor, [ux ?? 0, uy ?? 0, uz ?? 0]);
        return;
      }
      rows.slot(slot + 3, factor);
      if (axis === 'x') return;
      const pitch = at(state.values, slot + 4);
      const roll = at(state.values, slot + 5);
      const shear = Math.sin(pitch) * Math.sin(roll);
      const upright = Math.cos(roll);
      const square = upright * upright + shear * shear;
      rows.slot(slot + 4, (-factor * upright * Math.cos(pitch) * Math.sin(roll)) / square);
      rows.slot(slot + 5, (-factor * Math.sin(pitch)) / square);
    },
  };
}

/** An axis (ux, uy, uz) of a body turned by w changes its heading by w_z - u_z (u_x w_x + u_y w_y) / (u_x^2 + u_y^2). */
export function headingTurn(rows: Rows, body: number, factor: number, [ux, uy, uz]: Vec3): void {
  // An axis that stands upright has no heading, and nothing to tell.
  const slant = (factor * uz) / Math.max(ux * ux + uy * uy, Number.MIN_VALUE);
  rows.turn(body, -slant * ux, -slant * uy, factor);
}
