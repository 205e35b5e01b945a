/** How a day until which something holds stands on a given day: it holds, it ends soon, it is over. */

/** A day as `2026-11-25`; such texts sort as the days do. */
type Day = string;

export type DueStanding = 'holds' | 'soon' | 'over';

/** So long before the end it is said, days: time enough to send an instrument away (common practice, no source). */
export const SOON_DAYS = 30;

const DAY_MS = 86_400_000;

/**
 * The last day counts.
 *
 * @example due on 2026-11-25: `soon` on that day, `over` on the next.
 */
export function dueStanding(dueOn: Day, today: Day): DueStanding {
  if (dueOn < today) return 'over';
  const leftMs = Date.parse(`${dueOn}T00:00:00Z`) - Date.parse(`${today}T00:00:00Z`);
  return leftMs <= SOON_DAYS * DAY_MS ? 'soon' : 'holds';
}
