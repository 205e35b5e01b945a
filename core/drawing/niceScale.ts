/** Round numbers for scales, factors and scale bars. */
import { invariant } from '../result.ts';

/** Steps within a decade for scales that a draughtsman would write (ISO 5455 knows 1, 2 and 5). */
export const SCALE_STEPS: readonly number[] = [5, 2, 1];
/** Finer steps for an enlargement that should fill its frame. */
export const FINE_STEPS: readonly number[] = [8, 6, 5, 4, 3, 2.5, 2, 1.5, 1];

/**
 * The largest step times a power of ten that is not above `limit`: `niceBelow(37)` gives 20. `steps` fall and end
 * with 1.
 */
export function niceBelow(limit: number, steps: readonly number[] = SCALE_STEPS): number {
  invariant(limit > 0 && Number.isFinite(limit), `a scale needs a positive limit, got ${limit}`);
  // The last figures of a quotient must not turn an exact 50 into a 20.
  const reach = limit * (1 + 1e-12);
  const decade = decadeBelow(reach);
  const step = steps.find((candidate) => candidate * decade <= reach) ?? 1;
  return step * decade;
}

function decadeBelow(limit: number): number {
  let decade = 1;
  while (decade * 10 <= limit) decade *= 10;
  while (decade > limit) decade /= 10;
  return decade;
}
