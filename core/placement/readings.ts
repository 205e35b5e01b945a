/**
 * From recorded readings to one value per slot: repeats are averaged and get the u of their mean. What repeats
 * cannot lower (the hub's centre, the tape's class, its set-up on the marks) stays whole. Repeats that spread beyond
 * what pooled repeatability explains are named; nothing is left out.
 */
import { tiltAfterReversal } from '../uncertainty/instruments.ts';
import { repeatabilityLimit } from '../uncertainty/readingUncertainty.ts';
import { defaultUncertainties, type WorkUncertainties } from './defaults.ts';
import type { PlacementInstrument } from './equipment.ts';
import type { PlacementInput } from './placementInput.ts';
import type { PlacementReading, ReadingSlot, TiltDirection } from './placementReading.ts';
import type { SpreadFinding } from './readingFinding.ts';
import type { ReadingSpec } from './recipe.ts';
import { slotKey } from './recipe.ts';

/** The readings of one slot taken together. Value in mm or radians, signed only through `direction`. */
export interface SlotValue {
  readonly slot: ReadingSlot;
  readonly value: number;
  readonly count: number;
  readonly direction?: TiltDirection;
  /** u of the value where it is known beforehand, mm. */
  readonly uMm?: number;
  readonly instrument?: PlacementInstrument;
}

/** Value per slot key. */
export type SlotValues = ReadonlyMap<string, SlotValue>;

/** The signed value of a reading whose direction is one of two, so that repeats across zero average rightly. */
function signedBy(first: TiltDirection | undefined, reading: PlacementReading): number {
  return reading.direction === first ? reading.value : -reading.value;
}

function together(readings: readonly PlacementReading[], input: PlacementInput): SlotValue | undefined {
  const first = readings[0];
  if (first === undefined) return undefined;
  const mean = readings.reduce((sum, r) => sum + signedBy(first.direction, r), 0) / readings.length;
  const instrument = input.equipment.instruments.find((known) => known.id === first.instrument);
  return {
    slot: {
      id: first.id,
      purpose: first.purpose,
      ...(first.station === undefined ? {} : { station: first.station }),
    },
    value: mean,
    count: readings.length,
    ...(first.direction === undefined ? {} : { direction: first.direction }),
    ...(first.uMm === undefined ? {} : { uMm: first.uMm }),
    ...(instrument === undefined ? {} : { instrument }),
  };
}

/** Readings by slot key, in the order they came. */
export function bySlot(
  readings: readonly PlacementReading[],
): ReadonlyMap<string, readonly PlacementReading[]> {
  const groups = new Map<string, PlacementReading[]>();
  for (const reading of readings) {
    const key = slotKey(reading);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [reading]);
    else group.push(reading);
  }
  return groups;
}

/** One value per slot of the readings given (those of the present set-ups). */
export function slotValues(readings: readonly PlacementReading[], input: PlacementInput): SlotValues {
  const values = new Map<string, SlotValue>();
  for (const [key, group] of bySlot(readings)) {
    const value = together(group, input);
    if (value !== undefined) values.set(key, value);
  }
  return values;
}

/** The standard deviation that repeats of a reading of this kind are held against, mm or radians. */
export function repeatability(spec: ReadingSpec, work: WorkUncertainties): number {
  switch (spec.kind) {
    case 'floorHeight':
      return defaultUncertainties.staffMm;
    case 'drop':
      return defaultUncertainties.hubHeightMm;
    case 'tilt':
      return tiltAfterReversal(work.inclinometerRad, work.inclinometerKeptRad).repeatRad;
    case 'toe':
      return defaultUncertainties.toeRad;
    case 'slide':
      return defaultUncertainties.slideMm;
    case 'height':
      return work.heightSetMm;
    case 'distance':
    case 'offset':
      return work.tapeRepeatMm;
  }
}

/**
 * Repeats whose spread is beyond 2.8 standard deviations of the pooled repeatability (the limit for two readings; with
 * more of them it asks a little early, never late).
 */
export function spreadFindings(
  recipe: readonly ReadingSpec[],
  readings: readonly PlacementReading[],
  work: WorkUncertainties,
): readonly SpreadFinding[] {
  const groups = bySlot(readings);
  return recipe.flatMap((spec) => {
    const group = groups.get(slotKey(spec)) ?? [];
    if (group.length < 2) return [];
    const values = group.map((reading) => signedBy(group[0]?.direction, reading));
    const spread = Math.max(...values) - Math.min(...values);
    const limit = repeatabilityLimit(repeatability(spec, work));
    return spread > limit ? [{ id: slotKey(spec), spread, limit }] : [];
  });
}
