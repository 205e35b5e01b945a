/** What limits a prediction, told by the thing that would have to be better: parts of the variance summed by instrument. */
import type { ReadingShare } from '../placement/finding.ts';
import type { PlanningWordKey } from '../words/planning.ts';

type Tail<K> = K extends `planning.limit.${infer Name}` ? Name : never;
/** A thing with an uncertainty of its own. */
export type LimitName = Tail<PlanningWordKey>;

/** Its part of the variance, 0 to 1. */
export interface Limit {
  readonly name: LimitName;
  readonly share: number;
}

/** Share names by how they begin; the first that fits counts. */
const BEGINS: readonly (readonly [string, LimitName])[] = [
  ['tape.scale', 'tapeScale'],
  ['tape.hook', 'tapeHook'],
  ['sideArm.', 'sideArms'],
  ['fixture.face', 'faceCentre'],
  ['fixture.bar', 'barLength'],
  ['fixture.', 'inclinometer'],
  ['plumb.barEnd', 'barEndDrops'],
  ['drop.', 'hubDrops'],
  ['line.', 'lines'],
  ['floor.beyond', 'floor'],
  ['floor.', 'level'],
  ['target.height', 'heightTape'],
  ['bodyFace', 'bodyFace'],
  ['slide', 'slide'],
  ['toe.', 'alignmentReport'],
  ['rim.', 'rims'],
  ['axle.square', 'rearAxle'],
];

/** The thing behind a share; every other reading is a tape between marks. */
export function limitName(readingId: string): LimitName {
  return BEGINS.find(([begin]) => readingId.startsWith(begin))?.[1] ?? 'tapes';
}

/** Shares summed by the thing behind them, the largest first. */
export function limitsOf(shares: readonly ReadingShare[]): readonly Limit[] {
  const sums = new Map<LimitName, number>();
  for (const { readingId, share } of shares) {
    const name = limitName(readingId);
    sums.set(name, (sums.get(name) ?? 0) + share);
  }
  return [...sums].map(([name, share]) => ({ name, share })).sort((a, b) => b.share - a.share);
}
