/** Seeded random numbers for simulated people and bays: the generator of the product, which has checks of its own. */
import { randomFrom } from '../../core/uncertainty/random.ts';
import { standardNormal } from '../../core/uncertainty/sampler.ts';

/** One stream. */
export interface Draws {
  /** Standard normal. */
  normal(): number;
  between(low: number, high: number): number;
  /** Rectangular about zero with this standard deviation: what is known by its limits alone. */
  withinLimits(u: number): number;
  /** True with this probability. */
  chance(p: number): boolean;
}

/** The stream of a seed (whole, 32 bits). */
export function drawsFrom(seed: number): Draws {
  const random = randomFrom(seed >>> 0);
  const normal = standardNormal(random);
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  return {
    normal,
    between,
    withinLimits: (u) => between(-1, 1) * Math.sqrt(3) * u,
    chance: (p) => random.uniform() < p,
  };
}
