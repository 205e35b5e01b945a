/** The instrument of a reading while it sends: what it shows now, and the reading that this makes. */
import { useEffect, useState } from 'react';
import type { LineStream } from '../../../core/instruments/index.ts';
import type { Instrument } from '../../../core/job/equipment.ts';
import { type LiveRead, liveRead, signKey, streamFor } from '../../state/liveReading.ts';
import type { PlacementView } from '../../state/placementView.ts';
import { instrumentsFor } from '../../state/readingEntry.ts';
import type { Slot } from '../../state/readings.ts';
import { isSettled, type LiveInstrument, NOTHING_HEARD, takeable } from '../../state/streams.ts';
import { typedKey } from '../../state/typedEntry.ts';
import { directionKey, directionOf, instrumentKey } from '../../state/typedPreviews.ts';
import { useWindow } from '../../state/windowContext.tsx';
import type { WindowState } from '../../state/windowState.ts';

export interface LiveReadingFacts {
  readonly instrument: Instrument;
  readonly stream: LineStream;
  readonly live: LiveInstrument;
  readonly nowMs: number;
  /** True while the values of the last moment are of more than one place: nothing is taken then. */
  readonly moving: boolean;
  /** What a take would record now; undefined while nothing may be taken. */
  readonly take: LiveRead | undefined;
  /** The newest value alone, for the drawing; undefined while nothing may be taken. */
  readonly shown: LiveRead | undefined;
}

/** The time, looked at once a second while `running`: an age in sight goes on without news. */
function useNow(running: boolean): number {
  const [, setTick] = useState(0);
  useEffect(() => {
    if (!running) return undefined;
    const timer = window.setInterval(() => setTick((tick) => tick + 1), 1000);
    return () => window.clearInterval(timer);
  }, [running]);
  return Date.now();
}

/** Undefined where the chosen instrument sends nothing for this reading. */
export function useLiveReading(
  job: string,
  view: PlacementView,
  slot: Slot | undefined,
): LiveReadingFacts | undefined {
  const shop = useWindow((state) => state.status?.shop ?? null);
  const typedAt = (keyOf: (slot: Slot) => string) => (state: WindowState) =>
    slot === undefined ? undefined : state.typed[typedKey(job, keyOf(slot))]?.text;
  const chosen = useWindow(typedAt(instrumentKey));
  const way = useWindow(typedAt(directionKey));
  const sign = useWindow(typedAt(signKey));
  const instruments = slot === undefined ? [] : instrumentsFor(slot.spec, view.sensor.equipment);
  const instrument = instruments.find((each) => each.id === chosen) ?? instruments[0];
  const stream = slot === undefined ? undefined : streamFor(slot.spec, instrument, shop);
  const live = useWindow((state) =>
    stream === undefined || instrument === undefined ? undefined : state.live[instrument.id],
  );
  const key = slot?.key;
  const [opened, setOpened] = useState({ key, atMs: 0 });
  const nowMs = useNow(stream !== undefined);
  if (opened.key !== key || opened.atMs === 0) setOpened({ key, atMs: nowMs });
  if (slot === undefined || instrument === undefined || stream === undefined) return undefined;
  const heard = live ?? NOTHING_HEARD;
  const newest = takeable(heard, opened.atMs, nowMs);
  const chosenWay = { chosen: directionOf(slot, way), sign };
  const read = (mean?: number) =>
    newest === undefined ? undefined : liveRead(slot, newest, instrument, chosenWay, mean);
  const moving = newest !== undefined && !isSettled(newest);
  const take = moving ? undefined : read();
  return { instrument, stream, live: heard, nowMs, moving, take, shown: read(newest?.value.value) };
}
