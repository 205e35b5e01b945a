/** From what is typed for a reading to the fact that is recorded: the tape's start and unit, doubts, directions. Pure. */
import {
  type EntryQuestion,
  type EntryRefusal,
  parseQuantity,
  questionReading,
  type ReadingContext,
} from '../../core/entry/index.ts';
import type { Equipment, Instrument } from '../../core/job/equipment.ts';
import { type ReadingFact, readingEntry, readingPayload } from '../../core/job/facts.ts';
import type { Job } from '../../core/job/job.ts';
import type { PlacementReading, TiltDirection } from '../../core/placement/placementReading.ts';
import type { ReadingSpec } from '../../core/placement/recipe.ts';
import { ok, type Result } from '../../core/result.ts';
import { formatDeg, radFromDeg } from '../../core/units.ts';
import { lengthText } from '../text/lengthText.ts';
import { partnerOf, type Slot } from './readings.ts';
import type { EntryToSend } from './recorder.ts';

/** A typed reading that can be recorded. mm or radians. */
export interface ReadingRead {
  readonly value: number;
  readonly question: EntryQuestion | undefined;
  /** What was taken off because the tape starts at 100 mm. */
  readonly subtractedMm: number;
}

/** Instruments of the kind a reading expects, in the shop's order. */
export function instrumentsFor(spec: ReadingSpec, equipment: Equipment | null): readonly Instrument[] {
  return equipment?.instruments.filter((each) => each.kind === spec.instrument) ?? [];
}

/** How far from its expectation an angle may be without a question, degrees (common practice, no source). */
const NEAR_DEG = 1;
/** How far a fixture that is not placed yet may stand from its required pose without a question, mm. */
const NEAR_BEFORE_PLACED_MM = 250;

/** Reading pairs that are about equal on a straight car. */
const ALIKE: ReadonlySet<string> = new Set(['floorHeight', 'drop']);
const ALIKE_IDS: ReadonlySet<string> = new Set(['base.L', 'base.R', 'diagonal.LR', 'diagonal.RL']);

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * What is known about a reading before it is typed: limits, its own repeats, its partner, and what the required pose
 * says of it (`expected`) and of its partner.
 */
export function contextOf(
  slot: Slot,
  slots: readonly Slot[],
  expected: number | undefined,
  expectedAtPartner?: number,
): ReadingContext {
  const { spec } = slot;
  const angle = spec.unit === 'deg';
  const limit = (value: number): number => (angle ? radFromDeg(value) : value);
  const limits = { min: limit(spec.limits.min), max: limit(spec.limits.max) };
  const own = slot.standing.map((each) => each.value);
  const repeats = own.length === 0 && slot.compared !== undefined ? [slot.compared] : own;
  const near = angle ? { near: radFromDeg(NEAR_DEG) } : {};
  if (repeats.length > 0) return { limits, expected: meanOf(repeats), ...near };
  const standing = partnerOf(slot, slots)?.standing.map((each) => each.value) ?? [];
  if (expected !== undefined) {
    const known = { limits, expected, near: NEAR_BEFORE_PLACED_MM };
    if (expectedAtPartner === undefined || standing.length === 0) return known;
    return { ...known, pair: { value: meanOf(standing), expected: expectedAtPartner } };
  }
  if (angle || standing.length === 0) return { limits, ...near };
  const alike = ALIKE.has(spec.kind) || ALIKE_IDS.has(spec.id);
  return { limits, pair: { value: meanOf(standing), alike } };
}

/** Reads what was typed. A tape's own start and unit come from its instrument. */
export function readReading(
  text: string,
  spec: ReadingSpec,
  instrument: Instrument | undefined,
  context: ReadingContext,
): Result<ReadingRead, EntryRefusal> {
  const read = parseQuantity(text, readingEntry(spec, instrument));
  if (!read.ok) return read;
  const { value, questions, subtractedMm } = read.value;
  return ok({ value, question: questions[0] ?? questionReading(value, context), subtractedMm });
}

/** A value of a reading as it is shown: mm to 0.1, degrees to 0.01. */
export function readingText(value: number, spec: Pick<ReadingSpec, 'unit' | 'decimals'>): string {
  return spec.unit === 'deg' ? formatDeg(value, spec.decimals) : lengthText(value, spec.decimals);
}

/** The fact of a reading in the present set-ups. */
export function readingEntryToSend(
  job: Job,
  slot: Slot,
  read: Omit<ReadingFact, 'spec' | 'sensor'>,
): EntryToSend {
  const payload = readingPayload(job, { ...read, spec: slot.spec, sensor: slot.sensor });
  return { type: 'readingRecorded', v: 1, payload: { ...payload } };
}

/** A typed reading as the solver takes it for the preview. */
export function previewReading(
  job: Job,
  slot: Slot,
  value: number,
  direction: TiltDirection | undefined,
): PlacementReading {
  const { spec } = slot;
  return {
    ref: `typed:${slot.key}`,
    id: spec.id,
    purpose: spec.purpose,
    value,
    carSetUp: job.setUps.car,
    fixtureSetUp: job.setUps.fixture,
    ...(spec.station === undefined ? {} : { station: spec.station }),
    ...(direction === undefined ? {} : { direction }),
  };
}

/** Within this time the person who recorded a reading withdraws it as a typing slip in one tap, ms. */
export const SLIP_WINDOW_MS = 30_000;

/** True while a reading may be withdrawn in one tap. */
export function isFreshSlip(
  reading: { readonly stamp: { readonly utcMs: number; readonly person: string } },
  person: string | null,
  nowUtcMs: number,
): boolean {
  const age = nowUtcMs - reading.stamp.utcMs;
  return reading.stamp.person === person && age >= 0 && age <= SLIP_WINDOW_MS;
}
