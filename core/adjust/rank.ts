/**
 * What the readings leave open: the null space of the normal matrix, told as points, bodies and shared unknowns, each
 * with the kinds of reading that would hold it.
 */
import { at, indexAt } from '../linalg/at.ts';
import { nullSpace } from '../linalg/nullSpace.ts';
import type { Undetermined, UndeterminedPart } from './errors.ts';
import type { Layout, Slot } from './layout.ts';
import { UNDETERMINED } from './normal.ts';

/** An unknown takes part in what is open when its share reaches this part of the largest one. */
const TAKES_PART = 0.05;

const CURES: Readonly<Record<UndeterminedPart, Undetermined['readings']>> = {
  plan: ['distance', 'offset', 'along', 'drop'],
  height: ['height'],
  yaw: ['angle', 'distance'],
  pitch: ['tilt'],
  roll: ['tilt'],
  value: ['known'],
};

/** Open parts of the layout from the (full, undamped) normal matrix, the most open first; empty when all is held. */
export function findUndetermined(matrix: Float64Array, layout: Layout): Undetermined[] {
  const n = layout.slotOfColumn.length;
  const scale = Float64Array.from({ length: n }, (_, i) => 1 / Math.sqrt(at(matrix, i * n + i) || 1));
  const scaled = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      scaled[i * n + j] = at(matrix, i * n + j) * at(scale, i) * at(scale, j);
    }
  }
  const share = new Float64Array(n);
  for (const vector of nullSpace(scaled, n, UNDETERMINED * n)) {
    for (let i = 0; i < n; i++) share[i] = at(share, i) + at(vector, i) * at(vector, i);
  }
  return named(layout, share);
}

/** Names the unknowns by their shares, largest first, each part of each owner once. */
export function named(layout: Layout, share: Float64Array): Undetermined[] {
  const largest = share.reduce((most, value) => Math.max(most, value), 0);
  if (largest === 0) return [];
  const order = Array.from(share.keys())
    .filter((i) => at(share, i) >= TAKES_PART * largest)
    .sort((i, j) => at(share, j) - at(share, i));
  const found = new Map<string, Undetermined>();
  for (const i of order) {
    const slot = layout.slots[indexAt(layout.slotOfColumn, i)];
    if (slot === undefined) continue;
    const part = partOf(slot);
    const key = `${slot.owner}/${part}`;
    if (!found.has(key)) found.set(key, { id: slot.owner, part, readings: CURES[part] });
  }
  return [...found.values()];
}

function partOf({ component }: Slot): UndeterminedPart {
  if (component === 'x' || component === 'y') return 'plan';
  return component === 'z' ? 'height' : component;
}
