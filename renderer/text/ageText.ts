/** How long ago, as people say it, and moments of this PC's clock. No locale services. */
import { localMinute } from '../../core/job/localTime.ts';
import { say } from '../../core/words/index.ts';

const MINUTE_MS = 60_000;
const HOUR_MS = 3_600_000;
const DAY_MS = 86_400_000;

/** `now`, `5 min`, `3 h`, `2 days`. A moment in the future (a clock that was put behind) counts as now. */
export function ageText(utcMs: number, nowUtcMs: number): string {
  const age = nowUtcMs - utcMs;
  if (age < MINUTE_MS) return say('age.now');
  if (age < HOUR_MS) return say('age.minutes', { count: String(Math.floor(age / MINUTE_MS)) });
  if (age < DAY_MS) return say('age.hours', { count: String(Math.floor(age / HOUR_MS)) });
  const days = Math.floor(age / DAY_MS);
  return days === 1 ? say('age.day') : say('age.days', { count: String(days) });
}

/** A recorded moment with the offset that held there: `2026-03-05 15:07`. */
export function stampText(stamp: { readonly utcMs: number; readonly offsetMin: number }): string {
  return localMinute(stamp.utcMs, stamp.offsetMin);
}
