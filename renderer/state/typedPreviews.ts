/** The readings of a stage that are typed and can be read, for the preview. What is doubtful takes no part. */
import type { Job } from '../../core/job/job.ts';
import type { PlacementReading, TiltDirection } from '../../core/placement/placementReading.ts';
import { entryContext } from './expectation.ts';
import type { PlacementView } from './placementView.ts';
import { instrumentsFor, previewReading, readReading } from './readingEntry.ts';
import type { Slot } from './readings.ts';
import { type TypedEntry, typedKey } from './typedEntry.ts';

/** Draft key of the way a tilt goes, chosen beside its value. */
export function directionKey(slot: Slot): string {
  return `${slot.draft}#way`;
}

/** Draft key of the instrument chosen for a reading. */
export function instrumentKey(slot: Slot): string {
  return `${slot.draft}#instrument`;
}

/** The way chosen for a slot, if it is one of the slot's two. */
export function directionOf(slot: Slot, text: string | undefined): TiltDirection | undefined {
  return slot.spec.directions?.find((each) => each === text);
}

export function typedPreviews(
  job: Job,
  view: PlacementView,
  slots: readonly Slot[],
  typed: Readonly<Record<string, TypedEntry>>,
): readonly PlacementReading[] {
  return slots.flatMap((slot) => {
    const entry = typed[typedKey(job.id, slot.draft)];
    if (entry === undefined || entry.text.trim() === '') return [];
    const chosen = typed[typedKey(job.id, instrumentKey(slot))]?.text;
    const instruments = instrumentsFor(slot.spec, view.sensor.equipment);
    const instrument = instruments.find((each) => each.id === chosen) ?? instruments[0];
    const context = entryContext(slot, slots, view);
    const read = readReading(entry.text, slot.spec, instrument, context);
    if (!read.ok || read.value.question !== undefined) return [];
    const way = directionOf(slot, typed[typedKey(job.id, directionKey(slot))]?.text);
    if (slot.spec.directions !== undefined && way === undefined && read.value.value !== 0) return [];
    return [previewReading(job, slot, read.value.value, way ?? slot.spec.directions?.[0])];
  });
}
