/** The one line at the top of a job: what to do next, in at most twelve words, and where if it is not here. Pure. */
import type { Assessment, Finding } from '../../core/job/assess.ts';
import { type ControlDue, controlAction } from '../../core/job/controlDue.ts';
import type { Job } from '../../core/job/job.ts';
import { type StageId, stageById, stages } from '../../core/job/stages/index.ts';
import type { Move } from '../../core/placement/instruction.ts';
import type { PlacementAnswer } from '../../core/placement/placementAnswer.ts';
import { type ReadingSpec, specOf } from '../../core/placement/recipe.ts';
import { say } from '../../core/words/index.ts';
import { moveText } from '../text/moveText.ts';
import { moveAlone } from '../text/moveWords.ts';
import { sayKey } from '../text/sayKey.ts';
import { type MovesUnderWay, openMoves } from './movesUnderWay.ts';
import { type QuickGuide, quickText } from './quickGuide.ts';
import type { Slot } from './readings.ts';

export interface NextLine {
  readonly text: string;
  /** Another stage, when the next thing is done there. */
  readonly go: StageId | undefined;
  /** The moves that "done" closes; empty when none is asked for here. */
  readonly moves: readonly Move[];
  /** The step of quick placement whose move "done" closes. */
  readonly quick?: QuickGuide;
  /** The station that the fixture is to be put up for. */
  readonly stand?: string;
}

/** What the line follows from: the stage in sight, its readings, and the placement of the sensor in sight. */
export interface NextInput {
  readonly stage: StageId;
  readonly job: Job;
  readonly assessment: Assessment;
  readonly answer: PlacementAnswer | undefined;
  readonly recipe: readonly ReadingSpec[];
  readonly slots: readonly Slot[];
  /** The moves asked for, some of them perhaps done. */
  readonly moves?: MovesUnderWay | undefined;
  /** Quick placement, while it leads. */
  readonly quick?: QuickGuide | undefined;
  /** A control that must agree before anything else. */
  readonly control?: ControlDue | undefined;
}

/** A line has at most this many words; a longer name of a thing is left to the form, where it stands marked. */
export const MOST_WORDS = 12;

const fits = (text: string): boolean => text.split(/\s+/).length <= MOST_WORDS;

/** A finding's own words. */
export function findingWords(finding: Finding): string {
  return finding.plain ? finding.label : sayKey(finding.label);
}

function lineOf(text: string, go?: StageId, moves: readonly Move[] = []): NextLine {
  return { text, go, moves };
}

function missingLine(finding: Finding): NextLine {
  const text = say('next.enter', { what: findingWords(finding) });
  return lineOf(fits(text) ? text : say('next.enterMarked'));
}

/** The stage after this one that still lacks something or needs attention; sign-off when none does. */
function openStage(stage: StageId, assessment: Assessment): StageId {
  const lacks = (id: StageId): boolean =>
    [...assessment.missing, ...assessment.stops].some((each) => each.stage === id);
  const start = stages.findIndex((each) => each.id === stage) + 1;
  const inOrder = [...stages.slice(start), ...stages.slice(0, start)];
  return (
    inOrder.find((each) => each.id !== 'signoff' && each.id !== stage && lacks(each.id))?.id ?? 'signoff'
  );
}

function closingLine(stage: StageId, assessment: Assessment): NextLine {
  const to = openStage(stage, assessment);
  if (stage === 'signoff') {
    const ready = assessment.kind !== undefined && assessment.kind !== 'notCalibrated';
    return lineOf(ready ? say('next.sign') : say('next.signMissing'));
  }
  const values = { stage: sayKey(stageById(stage).title), next: sayKey(stageById(to).title) };
  return lineOf(say('next.stageDone', values), to);
}

/** The stage in which the engine's next action is done; undefined when it asks for nothing more. */
function stageOfAction(answer: PlacementAnswer, recipe: readonly ReadingSpec[]): StageId | undefined {
  const { wordKey } = answer.nextAction;
  if (wordKey.startsWith('move.slide.')) return 'stations';
  if (wordKey.startsWith('move.')) return 'placement';
  if (wordKey === 'next.proven' || wordKey === 'next.placed' || wordKey === 'next.moveOnce') return undefined;
  if (wordKey === 'next.noStation') return 'intake';
  const { nextReading } = answer;
  return nextReading === undefined ? 'placement' : specOf(recipe, nextReading)?.stage;
}

/** What the engine says, where it is done here or is the reason to leave a stage of the fixture. */
function engineLine({ stage, answer, recipe }: NextInput): NextLine | undefined {
  if (answer === undefined) return undefined;
  const where = stageOfAction(answer, recipe);
  const { wordKey, values, stand } = answer.nextAction;
  const [first] = answer.moves;
  const text = first?.wordKey === wordKey ? moveText(first) : sayKey(wordKey, values);
  if (stand !== undefined && (stage === 'placement' || stage === 'stations')) {
    return { ...lineOf(text), stand };
  }
  if (where === stage) return lineOf(text);
  const leaves = stage === 'placement' || stage === 'stations';
  return leaves && where !== undefined ? lineOf(text, where) : undefined;
}

/**
 * The target stands where it must at a station and nothing is captured there yet. It stays until it is, so this comes
 * before the next slide.
 */
function captureLine({ stage, job, answer, assessment }: NextInput): NextLine | undefined {
  if (stage !== 'stations' && stage !== 'placement') return undefined;
  const ready = answer?.stations.find(
    (station) =>
      station.basis === 'found' &&
      station.worst === 'proven' &&
      assessment.missing.some(({ key }) => key.startsWith('capture@') && key.endsWith(`/${station.station}`)),
  );
  if (ready === undefined) return undefined;
  const stations = job.sensors.flatMap((sensor) => sensor.procedure?.stations ?? []);
  const name = stations.find((each) => each.id === ready.station)?.name ?? ready.station;
  const text = say('next.capture', { station: name });
  const go = stage === 'stations' ? undefined : 'stations';
  return lineOf(fits(text) ? text : say('next.captureHere'), go);
}

/** The next move, without what is read after it while others follow. */
function moveLine({ stage, moves }: NextInput): NextLine | undefined {
  const [next, ...others] = openMoves(moves);
  if (next === undefined || (stage !== 'placement' && stage !== 'stations')) return undefined;
  const text = others.length === 0 ? moveText(next) : moveAlone(next);
  return stage === 'placement' ? lineOf(text, undefined, [next]) : lineOf(text, 'placement');
}

/** Before anything of the fixture is proven: two readings or a move that bring it near. */
function quickLine({ stage, quick }: NextInput): NextLine | undefined {
  if (quick === undefined || stage !== 'placement') return undefined;
  const text = quickText(quick);
  return quick.move === undefined ? lineOf(text) : { ...lineOf(text, undefined, [quick.move.move]), quick };
}

/** A control is read where the fixture is, and before anything else there. */
function controlLine({ stage, control, recipe }: NextInput): NextLine | undefined {
  if (control === undefined || !['datum', 'placement', 'stations'].includes(stage)) return undefined;
  const { wordKey, values } = controlAction(control, recipe);
  const text = sayKey(wordKey, values);
  return lineOf(fits(text) ? text : say('next.controlBelow'));
}

/** The line of a stage. */
export function nextLine(input: NextInput): NextLine {
  const { stage, job, assessment, slots } = input;
  if (job.certificates.length > 0) return lineOf(say('next.signed'));
  const engine =
    controlLine(input) ?? moveLine(input) ?? quickLine(input) ?? captureLine(input) ?? engineLine(input);
  if (engine !== undefined) return engine;
  const open = slots.find((slot) => slot.state === 'missing' || slot.state === 'earlier');
  if (open !== undefined) return lineOf(say('next.read', { reading: sayKey(open.spec.label) }));
  const missing = assessment.missing.find((each) => each.stage === stage);
  if (missing !== undefined && stage !== 'signoff') return missingLine(missing);
  const stop = assessment.stops.find((each) => each.stage === stage);
  if (stop !== undefined && stage !== 'signoff') return lineOf(say('next.stopped'), 'signoff');
  return closingLine(stage, assessment);
}
