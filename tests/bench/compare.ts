/** Two ways of doing the same, measured in turns in one run: median of the pairs' ratios with their range. */

export interface Comparison {
  readonly name: string;
  readonly warmUps: number;
  readonly pairs: number;
  /** Median of ours over theirs, pair by pair, and the least and greatest of them. */
  readonly ratio: number;
  readonly ratioRange: readonly [number, number];
  readonly aim: number;
  /** Medians, ms. */
  readonly oursMs: number;
  readonly theirsMs: number;
}

export interface Contest {
  readonly name: string;
  /** The ratio we want at most. */
  readonly aim: number;
  /** Runs once and answers how long it took, ms. */
  readonly ours: () => Promise<number>;
  readonly theirs: () => Promise<number>;
}

const WARM_UPS = 5;
const PAIRS = 31;

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}

export function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}

/** Five warm-ups, then 31 pairs; who goes first changes each time. */
export async function compare(contest: Contest): Promise<Comparison> {
  const ours: number[] = [];
  const theirs: number[] = [];
  for (let round = 0; round < WARM_UPS + PAIRS; round += 1) {
    const oursFirst = round % 2 === 0;
    const first = oursFirst ? await contest.ours() : await contest.theirs();
    const second = oursFirst ? await contest.theirs() : await contest.ours();
    if (round < WARM_UPS) continue;
    ours.push(oursFirst ? first : second);
    theirs.push(oursFirst ? second : first);
  }
  const ratios = ours.map((each, i) => each / (theirs[i] ?? Number.NaN));
  return {
    name: contest.name,
    warmUps: WARM_UPS,
    pairs: PAIRS,
    ratio: rounded(median(ratios)),
    ratioRange: [rounded(Math.min(...ratios)), rounded(Math.max(...ratios))],
    aim: contest.aim,
    oursMs: rounded(median(ours)),
    theirsMs: rounded(median(theirs)),
  };
}
