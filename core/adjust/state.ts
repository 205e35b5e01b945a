/**
 * The geometry at one set of values: every place in the bay frame, and how each point of a body moves when the body
 * turns. Filled anew for each step of the solution, in arrays made once.
 */
import { rotationMatrix, yawPitchRoll } from '../geometry/rotation.ts';
import { rotationOfTurn } from '../geometry/turn.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { at } from '../linalg/at.ts';
import type { Block } from '../linalg/block.ts';
import { multiply } from '../linalg/matrix.ts';
import type { Layout } from './layout.ts';

/** Numbers per place in `turns`: the derivatives of x, y, z by yaw, by pitch, by roll. */
const TURNS = 9;
/** Numbers per body in `rotation`: R row by row. */
const R = 9;

/** A body is steep when its x axis points up or down by more than about sixty degrees. */
const STEEP_SINE = 0.87;

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
  /**
   * 1 for a body that points steeply up or down, where yaw and roll become one: its three unknowns are then small turns
   * about the bay's z, y and x (in the slots of yaw, pitch and roll), taken anew about each step.
   */
  readonly steep: Uint8Array;

  /** Counts the choices made (see `chooseUnknowns`): rows written before the last one are of other unknowns. */
  choices = 0;

  private anySteep = false;

  constructor(layout: Layout, block: Block) {
    this.layout = layout;
    this.values = block.floats(layout.slots.length);
    const places = layout.places.length;
    this.x = block.floats(places);
    this.y = block.floats(places);
    this.z = block.floats(places);
    this.rotation = block.floats(layout.bodies.length * R);
    this.turns = block.floats(places * TURNS);
    this.axes = block.floats(layout.bodies.length * R);
    this.steep = new Uint8Array(layout.bodies.length);
  }

  /** Decides, at the first values, which bodies are steep. One of whose angles something is given keeps them as they are. */
  chooseUnknowns(): void {
    const { slots, bodies } = this.layout;
    for (const [b, { slot }] of bodies.entries()) {
      const free = [3, 4, 5].every((k) => slots[slot + k]?.prior.state === 'free');
      this.steep[b] = free && Math.abs(Math.sin(at(this.values, slot + 4))) > STEEP_SINE ? 1 : 0;
    }
    this.anySteep = this.steep.includes(1);
    this.choices++;
  }

  /** Whether a slot is an angle of a steep body: its unknown is then a turn, not the angle. */
  isTurn(slot: number): boolean {
    if (!this.anySteep) return false;
    return this.layout.bodies.some(
      (body, b) => this.steep[b] === 1 && slot >= body.slot + 3 && slot < body.slot + 6,
    );
  }

  /** Turns a body by a small vector about the bay's axes. */
  turnBody(b: number, turn: Vec3): void {
    const slot = this.layout.bodies[b]?.slot ?? 0;
    const was = rotationMatrix({
      yawRad: at(this.values, slot + 3),
      pitchRad: at(this.values, slot + 4),
      rollRad: at(this.values, slot + 5),
    });
    const { yawRad, pitchRad, rollRad } = yawPitchRoll(multiply(rotationOfTurn(turn), was));
    this.values[slot + 3] = yawRad;
    this.values[slot + 4] = pitchRad;
    this.values[slot + 5] = rollRad;
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
    const { x, y, z } = this;
    const n = x.length;
    let [sumX, sumY, sumZ] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      sumX += at(x, i);
      sumY += at(y, i);
      sumZ += at(z, i);
    }
    return n === 0 ? [0, 0, 0] : [sumX / n, sumY / n, sumZ / n];
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
    const steep = this.steep[b] === 1;
    axes[r + 2] = 1;
    axes[r + 3] = steep ? 0 : -sy;
    axes[r + 4] = steep ? 1 : cy;
    axes[r + 6] = steep ? 1 : at(rotation, r);
    axes[r + 7] = steep ? 0 : at(rotation, r + 3);
    axes[r + 8] = steep ? 0 : at(rotation, r + 6);
    for (const i of body.places) this.updateOwnPoint(i, body.slot, r);
  }

  /**
   * Place and derivatives of one point of a body. With a = R l the point's arm from the body's origin, a small turn
   * about an axis w moves it by w cross a; the axes are those in `axes`: Z for yaw, Rz y for pitch, the body's own x for
   * roll, or the bay's z, y, x for a steep body.
   */
  private updateOwnPoint(i: number, slot: number, r: number): void {
    const { values, rotation, turns, axes } = this;
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
    const px = at(axes, r + 3);
    const py = at(axes, r + 4);
    turns[t + 3] = py * az;
    turns[t + 4] = -px * az;
    turns[t + 5] = px * ay - py * ax;
    const wx = at(axes, r + 6);
    const wy = at(axes, r + 7);
    const wz = at(axes, r + 8);
    turns[t + 6] = wy * az - wz * ay;
    turns[t + 7] = wz * ax - wx * az;
    turns[t + 8] = wx * ay - wy * ax;
  }
}
