/** Reproducible chance for tests that strike at random places (xorshift32, Marsaglia 2003). */
export function seededRandom(seed: number): (below: number) => number {
  let state = seed >>> 0 || 1;
  return (below) => {
    state ^= state << 13;
    state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state % below;
  };
}
