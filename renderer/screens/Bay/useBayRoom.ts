/** The bay of a job as the shop knows it now, and the day by this PC. */
import { localDay } from '../../../core/job/localTime.ts';
import { EMPTY_ROOM, type Room } from '../../../core/job/room.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useWindow } from '../../state/windowContext.tsx';

export function useBayRoom(held: HeldJob): Room {
  const shop = useWindow((state) => state.status?.shop ?? null);
  return shop?.bays.find((each) => each.code === held.job.bay)?.room ?? EMPTY_ROOM;
}

/** Today here, as `2026-11-25`. */
export function today(): string {
  const now = new Date();
  return localDay(now.getTime(), -now.getTimezoneOffset());
}

/** The same day `years` later; the 29th of February becomes the 28th. */
export function yearsLater(day: string, years: number): string {
  const [year = '', month = '', date = ''] = day.split('-');
  return `${Number(year) + years}-${month}-${month === '02' && date === '29' ? '28' : date}`;
}
