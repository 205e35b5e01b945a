/**
 * The geometry of several trials of one network side by side ("lanes"), so that what is the same for all of them (which row
 * joins which points) is looked up once for many. Every number has `LANES` neighbours; an offset is that of lane 0.
 */
import { at } from '../../linalg/at.ts';
import type { Layout } from '../layout.ts';

/** Trials that run side by side. */
export const LANES = 8;

/** Offsets of a place's coordinates in `LaneState.numbers`; those of a body's point are no unknowns themselves. */
export interface PlaceOffsets {
  readonly ofBody: boolean;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/** Numbers and, for each, the pull of all readings on it: the gradient of half the weighted squares, with its sign turned. */
export class LaneState {
  /** All slots of the layout in order, then the bay coordinates of points of bodies. */
  readonly numbers: Float64Array;
  readonly pull: Float64Array;
  /** Rotation of each body, nine numbers row by row. */
  readonly rotation: Float64Array;
  /** Cosine and sine of yaw, pitch and roll of each body, in that order: made once a step, used by every row that turns. */
  readonly turns: Float64Array;
  private readonly layout: Layout;
  private readonly ownPlaces: readonly OwnPlace[];
  private readonly places: readonly PlaceOffsets[];

  constructor(layout: Layout) {
    this.layout = layout;
    const own: OwnPlace[] = [];
    let next = layout.slots.length;
    const consecutive = (first: number, ofBody: boolean): PlaceOffsets => ({
      ofBody,
      x: first * LANES,
      y: (first + 1) * LANES,
      z: (first + 2) * LANES,
    });
    this.places = layout.places.map((place) => {
      if (place.body < 0) return consecutive(place.slot, false);
      const at3 = consecutive(next, true);
      const pose = layout.bodies[place.body]?.slot ?? 0;
      own.push({ body: place.body, pose: pose * LANES, own: place.slot * LANES, bay: next * LANES });
      next += 3;
      return at3;
    });
    this.ownPlaces = own;
    this.numbers = new Float64Array(next * LANES);
    this.pull = new Float64Array(next * LANES);
    this.rotation = new Float64Array(layout.bodies.length * 9 * LANES);
    this.turns = new Float64Array(layout.bodies.length * 6 * LANES);
  }

  /** Offsets of a place's bay coordinates. */
  place(number: number): PlaceOffsets {
    const offsets = this.places[number];
    if (offsets === undefined) throw new Error(`invariant broken: no place ${number}`);
    return offsets;
  }

  /** Brings rotations and points of bodies up to date, and forgets all pulls. Rotations stand where `turned` is false. */
  update(turned = true): void {
    this.pull.fill(0);
    if (turned) for (let b = 0; b < this.layout.bodies.length; b++) this.turnBody(b);
    for (const own of this.ownPlaces) this.carry(own);
  }

  private turnBody(b: number): void {
    const { numbers, rotation, turns } = this;
    const slot = (this.layout.bodies[b]?.slot ?? 0) * LANES;
    const r = b * 9 * LANES;
    for (let i = 0; i < LANES; i++) {
      const yaw = at(numbers, slot + 3 * LANES + i);
      const pitch = at(numbers, slot + 4 * LANES + i);
      const roll = at(numbers, slot + 5 * LANES + i);
      const cy = Math.cos(yaw);
      const sy = Math.sin(yaw);
      const cp = Math.cos(pitch);
      const sp = Math.sin(pitch);
      const cr = Math.cos(roll);
      const sr = Math.sin(roll);
      const t = 6 * b * LANES + i;
      turns[t] = cy;
      turns[t + LANES] = sy;
      turns[t + 2 * LANES] = cp;
      turns[t + 3 * LANES] = sp;
      turns[t + 4 * LANES] = cr;
      turns[t + 5 * LANES] = sr;
      rotation[r + i] = cy * cp;
      rotation[r + LANES + i] = cy * sp * sr - sy * cr;
      rotation[r + 2 * LANES + i] = cy * sp * cr + sy * sr;
      rotation[r + 3 * LANES + i] = sy * cp;
      rotation[r + 4 * LANES + i] = sy * sp * sr + cy * cr;
      rotation[r + 5 * LANES + i] = sy * sp * cr - cy * sr;
      rotation[r + 6 * LANES + i] = -sp;
      rotation[r + 7 * LANES + i] = cp * sr;
      rotation[r + 8 * LANES + i] = cp * cr;
    }
  }

  /** Bay coordinates of a body's point: pose plus the turned arm. */
  private carry({ body, pose, own, bay }: OwnPlace): void {
    const { numbers, rotation } = this;
    for (let row = 0; row < 3; row++) {
      const r = (body * 9 + row * 3) * LANES;
      for (let i = 0; i < LANES; i++) {
        numbers[bay + row * LANES + i] =
          at(numbers, pose + row * LANES + i) +
          at(rotation, r + i) * at(numbers, own + i) +
          at(rotation, r + LANES + i) * at(numbers, own + LANES + i) +
          at(rotation, r + 2 * LANES + i) * at(numbers, own + 2 * LANES + i);
      }
    }
  }

  /** Hands the pulls on points of bodies on to the body's pose and to the point's own coordinates. */
  gatherPulls(): void {
    for (const own of this.ownPlaces) this.gather(own);
  }

  /**
   * A pull p on a point with the arm a = R l turns the body by (w x a) p about each axis w: Z for yaw, the level axis square
   * to the heading for pitch, the body's own x for roll.
   */
  private gather({ body, pose, own, bay }: OwnPlace): void {
    const { numbers, pull, rotation, turns } = this;
    const r = body * 9 * LANES;
    for (let i = 0; i < LANES; i++) {
      const px = at(pull, bay + i);
      const py = at(pull, bay + LANES + i);
      const pz = at(pull, bay + 2 * LANES + i);
      const ax = at(numbers, bay + i) - at(numbers, pose + i);
      const ay = at(numbers, bay + LANES + i) - at(numbers, pose + LANES + i);
      const az = at(numbers, bay + 2 * LANES + i) - at(numbers, pose + 2 * LANES + i);
      const cy = at(turns, 6 * body * LANES + i);
      const sy = at(turns, (6 * body + 1) * LANES + i);
      const wx = at(rotation, r + i);
      const wy = at(rotation, r + 3 * LANES + i);
      const wz = at(rotation, r + 6 * LANES + i);
      add(pull, pose + i, px);
      add(pull, pose + LANES + i, py);
      add(pull, pose + 2 * LANES + i, pz);
      add(pull, pose + 3 * LANES + i, ax * py - ay * px);
      add(pull, pose + 4 * LANES + i, az * (cy * px + sy * py) - (sy * ay + cy * ax) * pz);
      add(
        pull,
        pose + 5 * LANES + i,
        (wy * az - wz * ay) * px + (wz * ax - wx * az) * py + (wx * ay - wy * ax) * pz,
      );
      for (let c = 0; c < 3; c++) {
        const turned =
          at(rotation, r + c * LANES + i) * px +
          at(rotation, r + (3 + c) * LANES + i) * py +
          at(rotation, r + (6 + c) * LANES + i) * pz;
        add(pull, own + c * LANES + i, turned);
      }
    }
  }
}

/** A point of a body: offsets of the pose, of its own coordinates and of its bay coordinates. */
interface OwnPlace {
  readonly body: number;
  readonly pose: number;
  readonly own: number;
  readonly bay: number;
}

/** Adds to one number of an array. */
export function add(array: Float64Array, index: number, amount: number): void {
  array[index] = at(array, index) + amount;
}
