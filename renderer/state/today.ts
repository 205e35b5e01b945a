/** Today on the place's own calendar, as procedures write days: `2026-11-25`. */
import { localNowMs } from './localNow.ts';

export function dayOfLocal(localMs: number): string {
  return new Date(localMs).toISOString().slice(0, 10);
}

export function today(): string {
  return dayOfLocal(localNowMs());
}
