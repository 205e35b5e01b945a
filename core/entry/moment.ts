/**
 * A moment of the bay's own clock, to the minute, as people type it: `2026-03-05 14:30`, or the time alone, which is
 * today's where that has passed and else yesterday's. Kept as the text `2026-03-05 14:30`. Moments are compared on the local clock, as
 * milliseconds that count as if the place kept universal time; a change of summer time in between is not allowed for.
 */
import { err, ok, type Result } from '../result.ts';

/** Why a text is no moment. */
export interface MomentRefusal {
  readonly key: 'moment.form' | 'moment.notYet';
  readonly values: Readonly<Record<string, string>>;
}

const MINUTE_MS = 60_000;
const DAY_MS = 86_400_000;
const WHOLE = /^(\d{4})-(\d{2})-(\d{2})[ T](\d{1,2})[:.](\d{2})$/;
const TIME = /^(\d{1,2})[:.,]?(\d{2})$/;

/** Milliseconds of a local clock from universal time and the offset that held. */
export function localMsOf(utcMs: number, offsetMin: number): number {
  return utcMs + offsetMin * MINUTE_MS;
}

/** `2026-03-05 14:30` of milliseconds of the local clock; seconds are cut off. */
export function momentText(localMs: number): string {
  return new Date(localMs).toISOString().slice(0, 16).replace('T', ' ');
}

/** The milliseconds of a kept text, or undefined for one in another form or of a day that does not exist. */
export function momentMs(text: string): number | undefined {
  const match = WHOLE.exec(text.trim());
  if (match === null) return undefined;
  const [year, month, day, hour, minute] = match.slice(1).map(Number);
  const ms = Date.UTC(year ?? 0, (month ?? 0) - 1, day, hour, minute);
  const kept = `${text.trim().slice(0, 10)} ${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
  return momentText(ms) === kept ? ms : undefined;
}

/** Reads a moment at or before `nowLocalMs`: at 09:00, `14:30` is yesterday's. A later whole date is refused. */
export function parseMoment(text: string, nowLocalMs: number): Result<string, MomentRefusal> {
  const plain = text.trim();
  const whole = momentMs(plain);
  if (whole !== undefined) {
    return whole <= nowLocalMs ? ok(momentText(whole)) : err({ key: 'moment.notYet', values: {} });
  }
  const match = TIME.exec(plain);
  const hour = Number(match?.[1] ?? 99);
  const minute = Number(match?.[2] ?? 99);
  if (hour > 23 || minute > 59) return err({ key: 'moment.form', values: {} });
  const midnight = Math.floor(nowLocalMs / DAY_MS) * DAY_MS;
  const today = midnight + (hour * 60 + minute) * MINUTE_MS;
  return ok(momentText(today <= nowLocalMs ? today : today - DAY_MS));
}
