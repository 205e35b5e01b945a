/** Seeded random numbers for made-up readings; the same seed gives the same readings on every machine. */

/** A generator of uniform numbers in [0, 1) from 32 bits of state (mulberry32, public domain). */
export function uniformFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Normal numbers of mean 0 by Box and Muller; `normal(0.5)` has standard deviation 0.5. */
export function normalFrom(seed: number): (sigma: number) => number {
  const uniform = uniformFrom(seed);
  return (sigma) => {
    const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
    return sigma * radius * Math.cos(2 * Math.PI * uniform());
  };
}
