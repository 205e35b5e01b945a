/**
 * The linearised readings: one sparse row of partial derivatives per scalar observation, over the unknowns only.
 * Models write into it, always the same partials in the same order, zero or not: where each goes is found out once, and
 * every later writing follows the same way.
 */
import { addAt, at, indexAt } from '../linalg/at.ts';
import type { Block } from '../linalg/block.ts';
import { invariant } from '../result.ts';
import type { State } from './state.ts';

/** Rows of partial derivatives in compressed form, with the computed value of each. */
export class Rows {
  readonly start: Int32Array;
  columns: Int32Array;
  partials: Float64Array;
  readonly computed: Float64Array;
  /** Places that coincide where a direction or distance between them was wanted; the pair stops the solution. */
  readonly coincident: [number, number][] = [];
  private count = 0;
  private used = 0;
  /** Where a column stands in the row being written, to add up partials that meet in one unknown. */
  private readonly position: Int32Array;
  private readonly state: State;
  /** Where each partial went, in the order of writing; -1 for that of a fixed slot. */
  private way: Int32Array;
  private wayLength = 0;
  private passed = 0;
  /** The choice of unknowns the way belongs to; -1 while it is being found. */
  private wayOf = -1;

  constructor(rowCount: number, state: State, block: Block) {
    this.state = state;
    this.start = block.integers(rowCount + 1);
    this.computed = block.floats(rowCount);
    this.columns = block.integers(rowCount * 8 + 16);
    this.partials = block.floats(rowCount * 8 + 16);
    this.way = block.integers(rowCount * 10 + 32);
    this.position = block.integers(state.layout.slotOfColumn.length).fill(-1);
  }

  /** Begins to write all rows, at new values. */
  begin(): void {
    this.count = 0;
    this.passed = 0;
    this.coincident.length = 0;
    if (this.wayOf === this.state.choices) {
      this.partials.fill(0, 0, this.used);
    } else {
      this.wayOf = -1;
      this.wayLength = 0;
      this.used = 0;
    }
  }

  /** All rows are written. */
  end(): void {
    invariant(this.wayOf < 0 || this.passed === this.wayLength, 'models write the same partials every time');
    this.wayOf = this.state.choices;
  }

  /** Begins the next row with the value its reading should have. */
  row(computed: number): void {
    this.computed[this.count++] = computed;
    if (this.wayOf < 0) this.start[this.count] = this.used;
  }

  /** Adds the partial derivative of the current row by one slot; fixed slots take none. */
  slot(slot: number, partial: number): void {
    if (this.wayOf >= 0) {
      const entry = indexAt(this.way, this.passed++);
      if (entry >= 0) addAt(this.partials, entry, partial);
    } else this.firstSlot(slot, partial);
  }

  private firstSlot(slot: number, partial: number): void {
    const column = indexAt(this.state.layout.columns, slot);
    if (column < 0) {
      this.wentTo(-1);
      return;
    }
    const known = indexAt(this.position, column);
    if (
      known >= indexAt(this.start, this.count - 1) &&
      known < this.used &&
      indexAt(this.columns, known) === column
    ) {
      this.wentTo(known);
      addAt(this.partials, known, partial);
      return;
    }
    if (this.used === this.columns.length) this.grow();
    this.wentTo(this.used);
    this.columns[this.used] = column;
    this.partials[this.used] = partial;
    this.position[column] = this.used++;
    this.start[this.count] = this.used;
  }

  /** Adds the partial derivatives by a place's bay coordinates, carried to the unknowns behind it. */
  place(place: number, dx: number, dy: number, dz: number): void {
    const where = this.state.layout.places[place];
    if (where === undefined) return;
    if (where.body < 0) {
      this.slot(where.slot, dx);
      this.slot(where.slot + 1, dy);
      this.slot(where.slot + 2, dz);
    } else {
      const pose = this.state.layout.bodies[where.body]?.slot ?? 0;
      this.slot(pose, dx);
      this.slot(pose + 1, dy);
      this.slot(pose + 2, dz);
      this.turnsAndOwn(place, where.body, where.slot, dx, dy, dz);
    }
  }

  /** As `place` for a reading that does not depend on height: a free point's height then takes no partial. */
  planPlace(place: number, dx: number, dy: number): void {
    const where = this.state.layout.places[place];
    if (where === undefined) return;
    if (where.body < 0) {
      this.slot(where.slot, dx);
      this.slot(where.slot + 1, dy);
    } else {
      const pose = this.state.layout.bodies[where.body]?.slot ?? 0;
      this.slot(pose, dx);
      this.slot(pose + 1, dy);
      this.turnsAndOwn(place, where.body, where.slot, dx, dy, 0);
    }
  }

  /** As `place` for a reading of height alone. */
  heightPlace(place: number, dz: number): void {
    const where = this.state.layout.places[place];
    if (where === undefined) return;
    if (where.body < 0) {
      this.slot(where.slot + 2, dz);
      return;
    }
    this.slot((this.state.layout.bodies[where.body]?.slot ?? 0) + 2, dz);
    this.turnsAndOwn(place, where.body, where.slot, 0, 0, dz);
  }

  /** Adds the derivative by a small turn of a body, given along the bay's axes, carried to the body's three angles. */
  turn(body: number, bx: number, by: number, bz: number): void {
    const { axes, layout } = this.state;
    const angles = (layout.bodies[body]?.slot ?? 0) + 3;
    for (let k = 0; k < 3; k++) {
      const a = 9 * body + 3 * k;
      this.slot(angles + k, bx * at(axes, a) + by * at(axes, a + 1) + bz * at(axes, a + 2));
    }
  }

  private turnsAndOwn(place: number, body: number, own: number, dx: number, dy: number, dz: number): void {
    const { turns, rotation, layout } = this.state;
    const angles = (layout.bodies[body]?.slot ?? 0) + 3;
    const t = place * 9;
    for (let k = 0; k < 3; k++) {
      const turn = dx * at(turns, t + 3 * k) + dy * at(turns, t + 3 * k + 1) + dz * at(turns, t + 3 * k + 2);
      this.slot(angles + k, turn);
    }
    const r = body * 9;
    for (let k = 0; k < 3; k++) {
      this.slot(
        own + k,
        dx * at(rotation, r + k) + dy * at(rotation, r + 3 + k) + dz * at(rotation, r + 6 + k),
      );
    }
  }

  private wentTo(entry: number): void {
    if (this.wayLength === this.way.length) this.way = longer(this.way);
    this.way[this.wayLength++] = entry;
  }

  private grow(): void {
    const columns = longer(this.columns);
    this.columns = columns;
    const partials = new Float64Array(columns.length);
    partials.set(this.partials);
    this.partials = partials;
  }
}

function longer(array: Int32Array): Int32Array {
  const twice = new Int32Array(array.length * 2);
  twice.set(array);
  return twice;
}
