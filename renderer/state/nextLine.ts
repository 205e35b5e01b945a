/** The one line at the top of a job: what to do next, in at most twelve words, and where if it is not here. Pure. */
import type { Assessment, Finding } from '../../core/job/assess.ts';
import type { Job } from '../../core/job/job.ts';
import { type StageId, stageById, stages } from '../../core/job/stages/index.ts';
import type { Move, PlacementAnswer } from '../../core/placement/types.ts';
import { say } from '../../core/words/index.ts';
import { sayKey } from '../text/sayKey.ts';
import type { Slot } from './readings.ts';

export interface NextLine {
  readonly text: string;
  /** Another stage, when the next thing is done there. */
  readonly go: StageId | undefined;
  /** The move that "done" closes. */
  readonly move: Move | undefined;
}

/** A line has at most this many words; a longer name of a thing is left to the form, where it stands marked. */
export const MOST_WORDS = 12;

const fits = (text: string): boolean => text.split(/\s+/).length <= MOST_WORDS;

/** A finding's own words. */
export function findingWords(finding: Finding): string {
  return finding.plain ? finding.label : sayKey(finding.label);
}

function lineOf(text: string, go?: StageId, move?: Move): NextLine {
  return { text, go, move };
}

function missingLine(finding: Finding): NextLine {
  const text = say('next.enter', { what: findingWords(finding) });
  return lineOf(fits(text) ? text : say('next.enterMarked'));
}

function closingLine(stage: StageId, assessment: Assessment): NextLine {
  const title = sayKey(stageById(stage).title);
  const open = stages.find(
    (each) => assessment.stageStates[each.id] !== 'done' && each.id !== stage && each.id !== 'signoff',
  );
  const to = open?.id ?? 'signoff';
  if (stage === 'signoff') return lineOf(say('next.sign'));
  return lineOf(say('next.stageDone', { stage: title, next: sayKey(stageById(to).title) }), to);
}

/** What the engine says next, if it is to be done in this stage. */
function placementLine(
  stage: StageId,
  answer: PlacementAnswer,
  slots: readonly Slot[],
): NextLine | undefined {
  const text = sayKey(answer.nextAction.wordKey, answer.nextAction.values);
  const [move] = answer.moves;
  if (answer.nextReading === undefined) {
    if (stage !== 'placement' && stage !== 'stations') return undefined;
    return lineOf(text, undefined, move?.kind === 'setSlide' ? undefined : move);
  }
  const here = slots.some((slot) => slot.spec.id === answer.nextReading?.id);
  return here ? lineOf(text) : undefined;
}

/** The line of a stage. `slots` are the readings entered there, `answer` the placement of the sensor in sight. */
export function nextLine(
  stage: StageId,
  job: Job,
  assessment: Assessment,
  answer: PlacementAnswer | undefined,
  slots: readonly Slot[],
): NextLine {
  if (job.certificates.length > 0) return lineOf(say('next.signed'));
  const engine = answer === undefined ? undefined : placementLine(stage, answer, slots);
  const open = slots.find((slot) => slot.state === 'missing' || slot.state === 'earlier');
  if (engine !== undefined && (engine.move !== undefined || open === undefined)) return engine;
  if (open !== undefined) return engine ?? lineOf(say('next.read', { reading: sayKey(open.spec.label) }));
  const stop = assessment.stops.find((each) => each.stage === stage);
  const missing = assessment.missing.find((each) => each.stage === stage);
  if (missing !== undefined) return missingLine(missing);
  if (stop !== undefined && stage !== 'signoff') return lineOf(say('next.stopped'), 'signoff');
  return closingLine(stage, assessment);
}
