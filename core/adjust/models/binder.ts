/** Looks up the ids of one reading, and keeps every one that is missing or of the wrong unit. */
import type { AdjustError } from '../errors.ts';
import type { Layout } from '../layout.ts';

/** Beyond this (a thousand kilometres in mm) a number is a slip, and its square would swamp everything else. */
const ABSURD = 1e9;

/** Finite, and of a size that a bay may have. */
export function isUsable(value: number): boolean {
  return Number.isFinite(value) && Math.abs(value) < ABSURD;
}

/** Place, body and slot numbers by id. A missing id is recorded and answered with 0; the solution then never starts. */
export class Binder {
  readonly failures: AdjustError[] = [];
  private readonly layout: Layout;
  private reading = '';

  constructor(layout: Layout) {
    this.layout = layout;
  }

  /** Names the reading whose ids come next. */
  begin(reading: string): void {
    this.reading = reading;
  }

  /** Place number of a point or a point of a body. */
  place(id: string): number {
    return this.layout.placeById.get(id) ?? this.missing('adjust/unknownPoint', id);
  }

  /** Two places that a line or distance joins; one and the same has neither length nor direction. */
  pair(from: string, to: string): readonly [number, number] {
    if (from === to) {
      this.failures.push({
        code: 'adjust/coincidentPoints',
        ids: [from, this.reading],
        cure: 'separatePoints',
      });
    }
    return [this.place(from), this.place(to)];
  }

  /** Body number. */
  body(id: string): number {
    return this.layout.bodyById.get(id) ?? this.missing('adjust/unknownBody', id);
  }

  /** A number of the reading that is not itself observed: a level, a factor, an angle. */
  number(value: number): number {
    if (!isUsable(value)) {
      this.failures.push({ code: 'adjust/notFinite', ids: [this.reading], cure: 'correctNumber' });
    }
    return value;
  }

  /** Records that a body was seen from itself. */
  sameBody(id: string): void {
    this.failures.push({ code: 'adjust/sameBody', ids: [id, this.reading], cure: 'correctDocument' });
  }

  /** First pose slot of a body. */
  poseSlot(id: string): number {
    return this.layout.bodies[this.body(id)]?.slot ?? 0;
  }

  /** Slot of a shared unknown of the unit given; -1 when the reading names none. */
  shared(id: string | undefined, unit: 'mm' | 'rad' | 'ratio'): number {
    if (id === undefined) return -1;
    const slot = this.layout.sharedById.get(id);
    if (slot === undefined) return this.missing('adjust/unknownShared', id);
    if (this.layout.slots[slot]?.unit !== unit) this.wrongUnit(id);
    return slot;
  }

  /** Slot and unit of a shared unknown of any unit. */
  sharedOfAnyUnit(id: string): { readonly slot: number; readonly unit: 'mm' | 'rad' | 'ratio' } {
    const slot = this.layout.sharedById.get(id) ?? this.missing('adjust/unknownShared', id);
    return { slot, unit: this.layout.slots[slot]?.unit ?? 'mm' };
  }

  /** Records that a thing named by the reading is measured in another unit. */
  wrongUnit(id: string): void {
    this.failures.push({ code: 'adjust/wrongUnit', ids: [id, this.reading], cure: 'correctDocument' });
  }

  private missing(
    code: 'adjust/unknownPoint' | 'adjust/unknownBody' | 'adjust/unknownShared',
    id: string,
  ): number {
    this.failures.push({ code, ids: [id, this.reading], cure: 'defineMissing' });
    return 0;
  }
}
