/** Moments as printed: local date and time with the offset from UTC that held there. No locale services. */

function two(value: number): string {
  return value < 10 ? `0${value}` : String(value);
}

/** `2026-03-05 15:07` for a moment and the minutes that local time was ahead of UTC. */
export function localMinute(utcMs: number, offsetMin: number): string {
  return new Date(utcMs + offsetMin * 60_000).toISOString().slice(0, 16).replace('T', ' ');
}

/** `2026-03-05` in local time. */
export function localDay(utcMs: number, offsetMin: number): string {
  return localMinute(utcMs, offsetMin).slice(0, 10);
}

/** `UTC+01:00`; `UTC` where there is no offset. */
export function offsetText(offsetMin: number): string {
  if (offsetMin === 0) return 'UTC';
  const minutes = Math.abs(offsetMin);
  return `UTC${offsetMin < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

/** ISO 8601 in UTC with whole seconds: `2026-03-05T14:07:09Z`. */
export function utcSecond(utcMs: number): string {
  return `${new Date(utcMs).toISOString().slice(0, 19)}Z`;
}
