/**
 * Readings so far from anything a bay can show that no layout fits them: they are named before the adjustment is tried.
 * Wide on purpose. A doubtful reading is questioned beside its field; this only keeps nonsense out of the solver.
 */
import type { SlotValues } from './readings.ts';

/** A floor that falls more than this between two places of one car and its fixture is no workshop floor, mm. */
export const FLOOR_FALL_LIMIT_MM = 500;
/** A fixture that leans more than this has fallen over; 20 degrees, rad. */
const TILT_LIMIT_RAD = Math.PI / 9;

/** Middle value of a list that is not empty. */
function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? 0) + (sorted[Math.ceil(middle)] ?? 0)) / 2;
}

/** The staff readings among `ids` that stand apart from the middle of all of them by more than any floor falls. */
export function impossibleFloors(values: SlotValues, ids: readonly string[]): readonly string[] {
  const read = [...values].filter(([key]) => key.startsWith('floor.')).map(([, { value }]) => value);
  if (read.length === 0) return [];
  const middle = median(read);
  return ids.filter((id) => {
    const value = values.get(id)?.value;
    return value !== undefined && Math.abs(value - middle) > FLOOR_FALL_LIMIT_MM;
  });
}

/** Tilts at which nothing stands. */
export function impossibleTilts(values: SlotValues): readonly string[] {
  return ['fixture.pitch', 'fixture.roll'].filter(
    (id) => Math.abs(values.get(id)?.value ?? 0) > TILT_LIMIT_RAD,
  );
}
