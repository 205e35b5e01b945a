/** The adhesive's clock in words, at a moment of the bay's clock. */
import { adhesiveClock, mayNotMove, movableText } from '../../core/job/adhesiveClock.ts';
import type { Job } from '../../core/job/job.ts';
import { say } from '../../core/words/index.ts';

export interface AdhesiveLineWords {
  readonly words: string;
  /** True while the car may not be moved. */
  readonly forbids: boolean;
}

/** From when the car may be moved; undefined where nothing was bonded or the time is not known. */
export function adhesiveWords(job: Pick<Job, 'fields'>, nowLocalMs: number): AdhesiveLineWords | undefined {
  const clock = adhesiveClock(job);
  if (clock === undefined) return undefined;
  const [day = '', time = ''] = movableText(clock).split(' ');
  const forbids = mayNotMove(clock, nowLocalMs);
  return { words: say(forbids ? 'adhesive.mayNotMove' : 'adhesive.over', { day, time }), forbids };
}
