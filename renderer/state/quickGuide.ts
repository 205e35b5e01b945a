/**
 * Quick placement as the window leads through it: two readings, a move with the tape held, until a proof set is worth its
 * walk. It is over with the first proof reading of the fixture, and begins anew when car or fixture is moved otherwise than
 * asked, for then nothing is known of where the fixture stands.
 */
import type { BodyMove, Job, JobSensor } from '../../core/job/job.ts';
import { placementInput, placementReading } from '../../core/job/solve.ts';
import {
  type QuickAnswer,
  type QuickMove,
  quickSteps,
  type ReadingSpec,
  servesQuickly,
  specOf,
} from '../../core/placement/index.ts';
import type { NextAction } from '../../core/placement/instruction.ts';
import type { ReadingSlot } from '../../core/placement/placementReading.ts';
import { say, spokenLanguage } from '../../core/words/index.ts';
import type { QuickQuestion } from '../ahead/reckon.ts';
import { lengthText } from '../text/lengthText.ts';
import { sayKey } from '../text/sayKey.ts';
import { type PlacementView, placementView } from './placementView.ts';
import { type Slot, slotsOf } from './readings.ts';
import type { EntryToSend } from './recorder.ts';

/** One step of it: two readings to take, or a move to make. */
export interface QuickGuide {
  readonly key: string;
  /** `waits`: what comes next is being reckoned. */
  readonly step: 'waits' | 'look' | 'move';
  readonly looks: number;
  readonly nextAction?: NextAction;
  /** The readings of the look; none while a move is asked for. */
  readonly slots: readonly Slot[];
  readonly move?: QuickMove;
  /** The reading whose tape is held while moving. */
  readonly heldSlot?: Slot;
}

/** A reading that only helps the hands, of this look: what an earlier look read is behind it. */
function guideSlot(
  job: Job,
  { sensor, recipe }: PlacementView,
  wanted: ReadingSlot,
  ofThisLook: ReadonlySet<string>,
): Slot | undefined {
  const proof = specOf(recipe, { ...wanted, purpose: 'proof' });
  if (proof === undefined) return undefined;
  const spec: ReadingSpec = { ...proof, purpose: 'guide' };
  const [slot] = slotsOf(job, sensor.sensor, [spec], proof.stage);
  if (slot === undefined) return undefined;
  const standing = slot.standing.filter((each) => ofThisLook.has(each.reading));
  return { ...slot, standing, past: [], state: standing.length > 0 ? 'recorded' : 'missing' };
}

const asAsked = (each: BodyMove): boolean =>
  each.body === 'fixture' && each.cause === 'moveDone' && each.stand === undefined;

/** The fixture's set-ups since it was put up, or since either body was moved otherwise than asked. */
function setUpsOf({ moves, setUps }: Job): Parameters<typeof quickSteps>[1] {
  const last = moves.findLastIndex((each) => !asAsked(each));
  const begun = moves.slice(0, last + 1).filter((each) => each.body === 'fixture');
  return {
    first: Math.max(1, ...begun.map((each) => each.setUp)),
    now: setUps.fixture,
    byMove: new Set(moves.slice(last + 1).map((each) => each.setUp)),
  };
}

/** Whether the fixture was proof read since then: the proof and what follows from it lead from there on. */
function isProofRead(job: Job, { sensor, recipe }: PlacementView, first: number): boolean {
  return job.readings.some((each) => {
    if (each.sensor !== sensor.sensor || each.purpose !== 'proof' || each.struck !== null) return false;
    const spec = specOf(recipe, { id: each.quantity, purpose: 'proof' });
    return (
      spec?.dependsOn.includes('fixture') === true &&
      each.carSetUp === job.setUps.car &&
      each.fixtureSetUp >= first
    );
  });
}

/** True where the fixture is at this sensor's stand, or was put up for nobody yet. */
function isHere({ setUps }: Job, sensor: string): boolean {
  return setUps.standNow === undefined || setUps.standNow.startsWith(`${sensor}/`);
}

/** True when all of car and floor is read, and only the fixture's own readings are left. */
function isCarRead(view: PlacementView): boolean {
  if (!view.answer.ok) return false;
  const { vehicle, suspects, nextReading } = view.answer.value;
  // What does not fit at the car is mended first.
  if (vehicle === undefined || suspects.length > 0 || nextReading === undefined) return false;
  return specOf(view.recipe, nextReading)?.stage === 'placement';
}

/** Whether quick placement leads here now, and what it is asked. */
export interface QuickAsked {
  /** What *Skip* is kept under: another putting-up of the fixture is asked about anew. */
  readonly key: string;
  readonly question: QuickQuestion;
  /** Readings of a look that still lacks its second one. */
  readonly ofThisLook: ReadonlySet<string>;
}

function askedOf(job: Job, sensor: JobSensor): QuickAsked | undefined {
  // Nobody holds a tape in a rehearsal while the fixture is dragged.
  if (job.rehearsal || job.certificates.length > 0 || !isHere(job, sensor.sensor)) return undefined;
  const input = placementInput(job, sensor);
  if (!input.ok || !servesQuickly(input.value)) return undefined;
  const view = placementView(job, sensor);
  const setUps = setUpsOf(job);
  if (!isCarRead(view) || isProofRead(job, view, setUps.first)) return undefined;
  const looked = job.readings.filter(
    (each) =>
      each.purpose === 'guide' &&
      each.sensor === sensor.sensor &&
      each.struck === null &&
      each.carSetUp === job.setUps.car,
  );
  const steps = quickSteps(looked.map(placementReading), setUps);
  const told = new Set(
    steps.flatMap((step) => (step.kind === 'look' ? step.readings.map((each) => each.ref) : [])),
  );
  const language = spokenLanguage();
  const placement = {
    ...input.value,
    readings: input.value.readings.filter((each) => each.purpose !== 'guide'),
  };
  return {
    key: `${job.id} ${sensor.sensor} ${job.setUps.car} ${setUps.first}`,
    question: { ask: 'quick', key: JSON.stringify([language, placement, steps]), language, placement, steps },
    ofThisLook: new Set(looked.map((each) => each.reading).filter((each) => !told.has(each))),
  };
}

const known = new WeakMap<Job, Map<string, QuickAsked | undefined>>();

/** What quick placement is asked in this state of the job; undefined where it does not lead. Looked up once a state. */
export function quickAsked(job: Job, sensor: JobSensor): QuickAsked | undefined {
  const asked = known.get(job) ?? new Map<string, QuickAsked | undefined>();
  known.set(job, asked);
  const key = `${spokenLanguage()} ${sensor.sensor}`;
  if (!asked.has(key)) asked.set(key, askedOf(job, sensor));
  return asked.get(key);
}

/** The step of an answer that may still be reckoned; undefined where the proof readings come next. */
export function quickGuide(
  job: Job,
  sensor: JobSensor,
  { key, ofThisLook }: QuickAsked,
  answer: QuickAnswer | null | undefined,
): QuickGuide | undefined {
  if (answer === undefined) return { key, step: 'waits', looks: 0, slots: [] };
  if (answer === null || answer.next.kind === 'prove') return undefined;
  const { next, nextAction, looks } = answer;
  const view = placementView(job, sensor);
  const slot = (wanted: ReadingSlot): Slot | undefined => guideSlot(job, view, wanted, ofThisLook);
  if (next.kind === 'look') {
    return { key, step: 'look', looks, nextAction, slots: next.slots.flatMap((each) => slot(each) ?? []) };
  }
  const { move, until } = next;
  const heldSlot = until === undefined ? undefined : slot(until.slot);
  return {
    key,
    step: 'move',
    looks,
    nextAction,
    slots: [],
    move: { move, ...(until === undefined ? {} : { until }) },
    ...(heldSlot === undefined ? {} : { heldSlot }),
  };
}

/** The reading that is to be taken now; while moving none. */
export function quickSlot(guide: QuickGuide | undefined): Slot | undefined {
  return guide?.slots.find((slot) => slot.state === 'missing');
}

/** The one line of this step: the reading that waits, or the move and what the tape reads at its end. */
export function quickText(guide: QuickGuide): string {
  const waits = quickSlot(guide);
  if (waits !== undefined) return sayKey('quick.look', { reading: sayKey(waits.spec.label) });
  if (guide.nextAction === undefined) return say('quick.card.waits');
  const { wordKey, values } = guide.nextAction;
  const until = guide.move?.until;
  return sayKey(wordKey, until === undefined ? values : { ...values, reads: lengthText(until.valueMm, 0) });
}

/** The move was made as asked: nothing that was read of the fixture before holds any more. */
export function quickMoveFact(job: Job, guide: QuickGuide): EntryToSend {
  return {
    type: 'bodyMoved',
    v: 1,
    payload: {
      body: 'fixture',
      setUp: job.setUps.fixture + 1,
      cause: 'moveDone',
      words: quickText(guide),
    },
  };
}
