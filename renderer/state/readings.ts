/** The readings of a stage as the window walks them: which stand, which are of an earlier set-up, which comes next. */

import { takesSurvey } from '../../core/job/floorSupply.ts';
import type { Job, RecordedReading } from '../../core/job/job.ts';
import type { StageId } from '../../core/job/stages/index.ts';
import { type ReadingSpec, slotKey } from '../../core/placement/recipe.ts';
import { holds } from '../../core/placement/setups.ts';

export type SlotState = 'missing' | 'recorded' | 'earlier' | 'optional';

export interface Slot {
  readonly spec: ReadingSpec;
  /** Slot key within the recipe. */
  readonly key: string;
  /** Key of what is typed here, in state and drafts. */
  readonly draft: string;
  /** The sensor the reading belongs to; null where all sensors share it (floor and car). */
  readonly sensor: string | null;
  /** Of the present set-ups, not struck, oldest first. */
  readonly standing: readonly RecordedReading[];
  /** Struck or of an earlier set-up, oldest first. */
  readonly past: readonly RecordedReading[];
  readonly state: SlotState;
  /** Of a control: the mean of the readings it repeats, mm or radians. Never shown before the entry. */
  readonly compared?: number;
}

/** Floor and car belong to the whole job; what depends on the fixture belongs to its sensor. */
export function sensorOfSlot(spec: ReadingSpec, sensor: string): string | null {
  return spec.stage === 'bay' || spec.stage === 'datum' ? null : sensor;
}

/** Whether a reading was taken in the set-ups that hold now, or knows only what a later move left as it was. */
export function isOfPresentSetUp(
  reading: RecordedReading,
  spec: ReadingSpec,
  setUps: Job['setUps'],
): boolean {
  return holds(reading, spec, setUps);
}

/** What was read where the fixture stood for another station is no earlier reading of this one. */
function isOfThisStand(reading: RecordedReading, spec: ReadingSpec, setUps: Job['setUps']): boolean {
  return !spec.dependsOn.includes('fixture') || reading.fixtureSetUp >= (setUps.from ?? 1);
}

/** The mean of the readings that a control repeats. */
function comparedWith(job: Job, owner: string | null, spec: ReadingSpec): number | undefined {
  if (spec.purpose !== 'control') return undefined;
  const values = job.readings
    .filter((each) => each.quantity === spec.id && each.sensor === owner && each.purpose === 'proof')
    .filter((each) => each.struck === null && isOfPresentSetUp(each, spec, job.setUps))
    .map((each) => each.value);
  return values.length === 0 ? undefined : values.reduce((sum, value) => sum + value, 0) / values.length;
}

function slotOf(job: Job, sensor: string, spec: ReadingSpec): Slot {
  const owner = sensorOfSlot(spec, sensor);
  const all = job.readings.filter(
    (each) =>
      each.quantity === spec.id &&
      each.sensor === owner &&
      each.station === (spec.station ?? null) &&
      each.purpose === spec.purpose,
  );
  const stands = (each: RecordedReading): boolean =>
    each.struck === null && isOfPresentSetUp(each, spec, job.setUps);
  const standing = all.filter(stands);
  const past = all.filter((each) => !stands(each) && isOfThisStand(each, spec, job.setUps));
  const compared = comparedWith(job, owner, spec);
  const waiting: SlotState = past.some((each) => each.struck === null) ? 'earlier' : 'missing';
  const lacking: SlotState = spec.optional && waiting === 'missing' ? 'optional' : waiting;
  const key = slotKey(spec);
  return {
    spec,
    key,
    draft: `reading:${owner ?? ''}:${key}`,
    sensor: owner,
    standing,
    past,
    state: standing.length > 0 ? 'recorded' : lacking,
    ...(compared === undefined ? {} : { compared }),
  };
}

/** The slots of one stage in walking order. */
export function slotsOf(
  job: Job,
  sensor: string,
  recipe: readonly ReadingSpec[],
  stage: StageId,
): readonly Slot[] {
  // Heights out of the bay's survey are not read here, whatever was read before it was chosen.
  const readHere = (spec: ReadingSpec): boolean => !takesSurvey(job) || !spec.id.startsWith('floor.');
  return recipe
    .filter((spec) => spec.stage === stage && readHere(spec))
    .map((spec) => slotOf(job, sensor, spec));
}

/** The same reading at the other side of the car. */
export function partnerOf(slot: Slot, slots: readonly Slot[]): Slot | undefined {
  return slots.find((each) => each.spec.id === slot.spec.pairId && each.spec.station === slot.spec.station);
}

/** The slot that opens by itself: the first needed one without a reading, after `after` in walking order if given. */
export function nextSlot(slots: readonly Slot[], after?: string): Slot | undefined {
  const start = slots.findIndex((slot) => slot.key === after) + 1;
  const inOrder = [...slots.slice(start), ...slots.slice(0, start)];
  return inOrder.find((slot) => slot.state === 'missing' || slot.state === 'earlier');
}
