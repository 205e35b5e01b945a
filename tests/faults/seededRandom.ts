/** A small generator that repeats for a seed: mulberry32 (public domain, Tommy Ettinger). */
export type SeededRandom = {
  /** At least 0, less than 1. */
  readonly next: () => number;
  /** A whole number from `from` to `to`, both included. */
  readonly whole: (from: number, to: number) => number;
  readonly chance: (probability: number) => boolean;
};

export function seededRandom(seed: number): SeededRandom {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return {
    next,
    whole: (from, to) => from + Math.floor(next() * (to - from + 1)),
    chance: (probability) => next() < probability,
  };
}
