/** Facts that open a new set-up: a move that was asked for and is done, or a body that was moved or bumped. */
import type { Job } from '../../core/job/job.ts';
import type { Move } from '../../core/placement/instruction.ts';
import { keptByAll } from '../../core/placement/setups.ts';
import { moveSentence } from '../text/moveWords.ts';
import type { EntryToSend } from './recorder.ts';

/** Sentences of the moves that were asked for, kept with the fact that they are done. */
const MOST_CHARACTERS = 2000;
export const BETWEEN = '; ';

/** The fixture was moved as asked: what a move changed leaves the solution and is asked for again, the rest holds. */
export function movesDoneFact(job: Job, moves: readonly Move[]): EntryToSend {
  const sentences = moves.map(moveSentence).join(BETWEEN);
  const words = sentences.slice(0, MOST_CHARACTERS);
  const keeps = keptByAll(moves);
  return {
    type: 'bodyMoved',
    v: 1,
    payload: {
      body: 'fixture',
      setUp: job.setUps.fixture + 1,
      cause: 'moveDone',
      words,
      ...(keeps.length === 0 ? {} : { keeps: [...keeps] }),
    },
  };
}

/** Somebody says that a body moved. */
export function movedFact(job: Job, body: 'car' | 'fixture'): EntryToSend {
  return {
    type: 'bodyMoved',
    v: 1,
    payload: { body, setUp: job.setUps[body] + 1, cause: 'moved', words: '' },
  };
}

/** The fixture is put up for another station: a stand of its own with its full readings begins. */
export function standFact(job: Job, sensor: string, station: string): EntryToSend {
  return {
    type: 'bodyMoved',
    v: 1,
    payload: {
      body: 'fixture',
      setUp: job.setUps.fixture + 1,
      cause: 'moved',
      words: '',
      stand: { sensor, station },
    },
  };
}
