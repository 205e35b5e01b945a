/**
 * The geometry at one set of values: every place in the bay frame, and how each point of a body moves when the body
 * turns. Filled anew for each step of the solution, in arrays made once.
 */
import { at } from '../linalg/at.ts';
import type { Layout } from './layout.ts';

/** Numbers per place in `turns`: the derivatives of x, y, z by yaw, by pitch, by roll. */
const TURNS = 9;
/** Numbers per body in `rotation`: R row by row. */
const R = 9;

/** Values and what follows from them. `values` is written by the solver, the rest by `update`. */
export class State {
  readonly layout: Layout;
  readonly values: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  readonly rotation: Float64Array;
  readonly turns: Float64Array;
  /** The axes in the bay about which a body's three angles turn it, nine numbers per body: of yaw, of pitch, of roll. */
  readonly axes: Float64Array;

  constructor(layout: Layout) {
    this.layout = layout;
    this.values = new Float64Array(layout.slots.length);
    const places = layout.places.length;
    this.x = new Float64Array(places);
    this.y = new Float64Array(places);
    this.z = new Float64Array(places);
    this.rotation = new Float64Array(layout.bodies.length * R);
    this.turns = new Float64Array(places * TURNS);
    this.axes = new Float64Array(layout.bodies.length * R);
  }

  /** Brings places, rotations and turns up to date with `values`. */
  update(): void {
    const { layout, values } = this;
    for (let i = 0; i < layout.places.length; i++) {
      const place = layout.places[i];
      if (place === undefined || place.body >= 0) continue;
      this.x[i] = at(values, place.slot);
      this.y[i] = at(values, place.slot + 1);
      this.z[i] = at(values, place.slot + 2);
    }
    for (let b = 0; b < layout.bodies.length; b++) this.updateBody(b);
  }

  /** Middle of all places. */
  centre(): readonly [number, number, number] {
    const n = this.x.length;
    const mean = (v: Float64Array): number => (n === 0 ? 0 : v.reduce((sum, value) => sum + value, 0) / n);
    return [mean(this.x), mean(this.y), mean(this.z)];
  }

  /** Size of the layout, mm: how far a place is from the middle, or a metre when all places are one. */
  reach(): number {
    return this.spread() || 1000;
  }

  /** Largest coordinate distance of a place from the middle, mm; 0 when all places are one. */
  spread(): number {
    const [cx, cy, cz] = this.centre();
    let reach = 0;
    for (let i = 0; i < this.x.length; i++) {
      const far = Math.max(
        Math.abs(at(this.x, i) - cx),
        Math.abs(at(this.y, i) - cy),
        Math.abs(at(this.z, i) - cz),
      );
      if (far > reach) reach = far;
    }
    return reach;
  }

  private updateBody(b: number): void {
    const { layout, values, rotation } = this;
    const body = layout.bodies[b];
    if (body === undefined) return;
    const yaw = at(values, body.slot + 3);
    const pitch = at(values, body.slot + 4);
    const roll = at(values, body.slot + 5);
    const cy = Math.cos(yaw);
    const sy = Math.sin(yaw);
    const cp = Math.cos(pitch);
    const sp = Math.sin(pitch);
    const cr = Math.cos(roll);
    const sr = Math.sin(roll);
    const r = b * R;
    rotation[r] = cy * cp;
    rotation[r + 1] = cy * sp * sr - sy * cr;
    rotation[r + 2] = cy * sp * cr + sy * sr;
    rotation[r + 3] = sy * cp;
    rotation[r + 4] = sy * sp * sr + cy * cr;
    rotation[r + 5] = sy * sp * cr - cy * sr;
    rotation[r + 6] = -sp;
    rotation[r + 7] = cp * sr;
    rotation[r + 8] = cp * cr;
    const { axes } = this;
    axes[r + 2] = 1;
    axes[r + 3] = -sy;
    axes[r + 4] = cy;
    axes[r + 6] = at(rotation, r);
    axes[r + 7] = at(rotation, r + 3);
    axes[r + 8] = at(rotation, r + 6);
    for (const i of body.places) this.updateOwnPoint(i, body.slot, r, cy, sy);
  }

  /**
   * Place and derivatives of one point of a body. With a = R l the point's arm from the body's origin, a small turn
   * about an axis w moves it by w cross a; the axes are Z for yaw, Rz y for pitch and the body's own x for roll.
   */
  private updateOwnPoint(i: number, slot: number, r: number, cy: number, sy: number): void {
    const { values, rotation, turns } = this;
    const own = this.layout.places[i]?.slot ?? 0;
    const lx = at(values, own);
    const ly = at(values, own + 1);
    const lz = at(values, own + 2);
    const ax = at(rotation, r) * lx + at(rotation, r + 1) * ly + at(rotation, r + 2) * lz;
    const ay = at(rotation, r + 3) * lx + at(rotation, r + 4) * ly + at(rotation, r + 5) * lz;
    const az = at(rotation, r + 6) * lx + at(rotation, r + 7) * ly + at(rotation, r + 8) * lz;
    this.x[i] = at(values, slot) + ax;
    this.y[i] = at(values, slot + 1) + ay;
    this.z[i] = at(values, slot + 2) + az;
    const t = i * TURNS;
    turns[t] = -ay;
    turns[t + 1] = ax;
    turns[t + 2] = 0;
    turns[t + 3] = cy * az;
    turns[t + 4] = sy * az;
    turns[t + 5] = -sy * ay - cy * ax;
    const wx = at(rotation, r);
    const wy = at(rotation, r + 3);
    const wz = at(rotation, r + 6);
    turns[t + 6] = wy * az - wz * ay;
    turns[t + 7] = wz * ax - wx * az;
    turns[t + 8] = wx * ay - wy * ax;
  }
}
