/**
 * What the window knows of an instrument that sends lines: how it is connected, its newest value with the moment it came,
 * what could not be read, and the last lines as they came. Pure.
 */
import type { Notice } from '../../core/contract/index.ts';
import type { InstrumentFault, StreamedValue, Take } from '../../core/instruments/index.ts';
import { radFromDeg } from '../../core/units.ts';

/** A value with the line it was read off and the take of its moment. */
export interface NewestValue {
  readonly value: StreamedValue;
  readonly line: string;
  readonly take: Take;
  /** When the window heard it. */
  readonly atMs: number;
}

export interface LiveInstrument {
  readonly connection: Notice<'instrument.state'> | null;
  readonly newest: NewestValue | null;
  /** What was wrong with the newest line that could not be read; null after a line that could. */
  readonly fault: InstrumentFault | null;
  readonly lines: number;
  readonly unread: number;
  readonly skipped: number;
  /** The last lines as they came, the newest last. */
  readonly sample: readonly string[];
}

/** Lines kept for trying a format. */
export const MOST_SAMPLE = 12;

/** A value older than this is no value of a running instrument any more. */
export const FRESH_MS = 3_000;

export const NOTHING_HEARD: LiveInstrument = {
  connection: null,
  newest: null,
  fault: null,
  lines: 0,
  unread: 0,
  skipped: 0,
  sample: [],
};

/** After news of the connection. */
export function withConnection(live: LiveInstrument, connection: Notice<'instrument.state'>): LiveInstrument {
  return { ...live, connection };
}

/** After news of a line. A line that cannot be read leaves the value before it, which then grows old in sight. */
export function withLine(
  live: LiveInstrument,
  notice: Notice<'instrument.value'>,
  atMs: number,
): LiveInstrument {
  const { value, take, line, fault, lines, unread, skipped } = notice;
  return {
    ...live,
    newest: value === null || take === null ? live.newest : { value, line, take, atMs },
    fault,
    lines,
    unread,
    skipped,
    sample: [...live.sample, line].slice(-MOST_SAMPLE),
  };
}

/** A take that spreads more than this was made while the instrument still moved (common practice, no source). */
const MOST_SPREAD: Readonly<Record<string, number>> = { mm: 2, rad: radFromDeg(0.1) };

/** False while the values of the last moment are of more than one place. */
export function isSettled({ value, take }: NewestValue): boolean {
  return (take.s ?? 0) <= (MOST_SPREAD[value.unit] ?? Number.POSITIVE_INFINITY);
}

/** Lets a press through unless one came less than `ms` before it. */
export function notTwice(ms: number): (atMs: number) => boolean {
  let last = Number.NEGATIVE_INFINITY;
  return (atMs) => {
    const passes = atMs - last >= ms;
    if (passes) last = atMs;
    return passes;
  };
}

/** Age of the newest value, ms; a clock that was set back makes nothing younger than now. */
export function ageMs(newest: NewestValue, nowMs: number): number {
  return Math.max(0, nowMs - newest.atMs);
}

/**
 * The value that may be taken now. The connection must stand. A running instrument's value must be fresh: one that
 * stopped sending shows where it was, not where it is. One that sends when its button is pressed sent a single value;
 * that one holds while the reading it was pressed for stays open (`openedAtMs`).
 */
export function takeable(live: LiveInstrument, openedAtMs: number, nowMs: number): NewestValue | undefined {
  const { newest, connection } = live;
  const stands = connection?.state === 'open' || connection?.state === 'silent';
  if (newest === null || !stands) return undefined;
  if (ageMs(newest, nowMs) <= FRESH_MS) return newest;
  return newest.take.n === 1 && newest.atMs >= openedAtMs ? newest : undefined;
}
