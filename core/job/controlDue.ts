/**
 * Controls. After work stood still for longer than allowed, or after something on the car was answered anew (load, ride
 * height, a condition of the procedure such as shut doors), nobody knows whether car and fixture still stand as they were
 * measured: one reading taken before must be repeated and agree before work goes on. Pure over the recorded job and the
 * present time; times in UTC milliseconds. A clock that was set to an earlier time makes no pause.
 */
import { workUncertainties } from '../placement/defaults.ts';
import type { NextAction } from '../placement/instruction.ts';
import { readingName } from '../placement/nextAction.ts';
import type { PlacementInput } from '../placement/placementInput.ts';
import type { ReadingSlot } from '../placement/placementReading.ts';
import { repeatability } from '../placement/readings.ts';
import { defaultRecipe, type ReadingSpec, slotKey } from '../placement/recipe.ts';
import { holds } from '../placement/setups.ts';
import { repeatabilityLimit } from '../uncertainty/readingUncertainty.ts';
import type { Job, JobSensor, RecordedReading } from './job.ts';
import { placementInput } from './solve.ts';

/** How long work may stand still where neither procedure nor shop says otherwise, minutes (common practice, no source). */
export const PAUSE_LIMIT_MIN = 30;

/** Pre-checks whose new answer means that the car may sit otherwise: load, ride height, the procedure's conditions. */
const SITS_OTHERWISE: readonly string[] = ['prechecks.fuel', 'prechecks.rideHeight', 'prechecks.condition'];

/** Why a control is due. */
export type ControlCause =
  | { readonly kind: 'pause'; readonly minutes: number }
  | { readonly kind: 'answeredAnew'; readonly field: string };

/** The control that must agree: which reading, why, and whether it was read and differs. */
export interface ControlDue {
  readonly slot: ReadingSlot;
  readonly cause: ControlCause;
  /** `due`: not read since. `disagrees`: read, and farther off than repeatability explains. */
  readonly state: 'due' | 'disagrees';
  /** Control minus proof, mm or radians; only when it was read. */
  readonly difference?: number;
  readonly limit: number;
}

interface Disturbance {
  readonly afterSeq: number;
  readonly cause: ControlCause;
}

interface Mark {
  readonly seq: number;
  readonly utcMs: number;
}

/** Moments of measuring: readings, moves, captures, in their order. */
function marksOf(job: Job): readonly Mark[] {
  const stamps = [...job.readings, ...job.moves, ...job.captures].map((each) => each.stamp);
  return stamps.map(({ seq, utcMs }) => ({ seq, utcMs })).sort((a, b) => a.seq - b.seq);
}

function pauses(job: Job, nowUtcMs: number, limitMin: number): readonly Disturbance[] {
  const marks = marksOf(job);
  return marks.flatMap((mark, i) => {
    const minutes = ((marks[i + 1]?.utcMs ?? nowUtcMs) - mark.utcMs) / 60_000;
    return minutes > limitMin ? [{ afterSeq: mark.seq, cause: { kind: 'pause', minutes } }] : [];
  });
}

function answeredAnew(job: Job): readonly Disturbance[] {
  return Object.entries(job.fields)
    .filter(([, { field, corrections }]) => corrections > 0 && SITS_OTHERWISE.includes(field))
    .map(([key, { stamp }]) => ({ afterSeq: stamp.seq, cause: { kind: 'answeredAnew', field: key } }));
}

interface Held {
  readonly spec: ReadingSpec;
  readonly reading: RecordedReading;
}

/** Readings that hold now and know the car: what a disturbance puts in doubt. */
function heldOf(
  job: Job,
  sensor: JobSensor,
  input: PlacementInput,
  purpose: 'proof' | 'control',
): readonly Held[] {
  const specs = new Map(
    defaultRecipe(input).flatMap((spec) =>
      spec.purpose === 'proof' ? [[slotKey(spec), spec] as const] : [],
    ),
  );
  return job.readings.flatMap((reading) => {
    const mine = reading.sensor === null || reading.sensor === sensor.sensor;
    if (!mine || reading.struck !== null || reading.purpose !== purpose) return [];
    const at = reading.station === null ? {} : { station: reading.station };
    const spec = specs.get(slotKey({ id: reading.quantity, purpose: 'proof', ...at }));
    if (spec === undefined || !spec.dependsOn.includes('car')) return [];
    return holds(reading, spec, input.setUps) ? [{ spec, reading }] : [];
  });
}

/** The reading to repeat: one that joins car and fixture tells most, then any tape of the car. */
function toRepeat(held: readonly Held[]): ReadingSpec | undefined {
  const distances = held.filter(({ spec }) => spec.kind === 'distance').map(({ spec }) => spec);
  return distances.find((spec) => spec.part === 'plan') ?? distances[0];
}

const mean = (readings: readonly Held[]): number =>
  readings.reduce((sum, { reading }) => sum + reading.value, 0) / readings.length;

function judgeControl(
  disturbance: Disturbance,
  proofs: readonly Held[],
  controls: readonly Held[],
  input: PlacementInput,
): ControlDue | undefined {
  const before = proofs.filter(({ reading }) => reading.stamp.seq <= disturbance.afterSeq);
  const spec = toRepeat(before);
  if (spec === undefined) return undefined;
  const key = slotKey(spec);
  const sameSlot = ({ spec: each }: Held): boolean => slotKey(each) === key;
  const limit = repeatabilityLimit(repeatability(spec, workUncertainties(input.equipment)));
  const proof = mean(before.filter(sameSlot));
  const since = controls.filter((each) => sameSlot(each) && each.reading.stamp.seq > disturbance.afterSeq);
  const last = since[since.length - 1];
  const slot: ReadingSlot = { id: spec.id, purpose: 'control' };
  if (last === undefined) return { slot, cause: disturbance.cause, state: 'due', limit };
  const difference = last.reading.value - proof;
  return Math.abs(difference) <= limit
    ? undefined
    : { slot, cause: disturbance.cause, state: 'disagrees', difference, limit };
}

/**
 * The control that is due for a sensor now; undefined when none is. A control after the last disturbance answers for all
 * before it. The procedure's own limit counts where it has one, else `pauseLimitMin`, the shop's.
 */
export function controlDue(
  job: Job,
  sensor: JobSensor,
  nowUtcMs: number,
  pauseLimitMin: number = PAUSE_LIMIT_MIN,
): ControlDue | undefined {
  const input = placementInput(job, sensor);
  if (!input.ok || sensor.disposition !== 'staticHere') return undefined;
  const proofs = heldOf(job, sensor, input.value, 'proof');
  const controls = heldOf(job, sensor, input.value, 'control');
  const limitMin = sensor.procedure?.pauseLimitMin ?? pauseLimitMin;
  const disturbances = [...pauses(job, nowUtcMs, limitMin), ...answeredAnew(job)]
    .sort((a, b) => b.afterSeq - a.afterSeq)
    .filter(({ afterSeq }) => proofs.some(({ reading }) => reading.stamp.seq <= afterSeq));
  const [latest] = disturbances;
  return latest === undefined ? undefined : judgeControl(latest, proofs, controls, input.value);
}

/** The one line while a control is due or disagrees: it comes before everything else. */
export function controlAction(due: ControlDue, recipe: readonly ReadingSpec[]): NextAction {
  if (due.state === 'disagrees') return { wordKey: 'next.control', values: {} };
  const reading = readingName(recipe, slotKey({ ...due.slot, purpose: 'proof' }));
  return { wordKey: 'next.controlDue', values: { reading } };
}

/** Why, as a sentence beside that line. */
export function controlReason(cause: ControlCause): {
  readonly wordKey: 'control.pause' | 'control.answeredAnew';
  readonly values: Readonly<Record<string, string>>;
} {
  return cause.kind === 'pause'
    ? { wordKey: 'control.pause', values: { minutes: String(Math.floor(cause.minutes)) } }
    : { wordKey: 'control.answeredAnew', values: {} };
}
