/**
 * Random numbers that anybody can draw again: xoshiro128** 1.1 of Blackman and Vigna (public domain, Scrambled linear
 * pseudorandom number generators, ACM TOMS 47 (2021) 36), 128 bits of state, its state filled from one seed by
 * splitmix32. Whole-number arithmetic only, so the same seed gives the same numbers on every machine.
 */
import { invariant } from '../result.ts';

/** Written beside every result that was simulated. */
export const GENERATOR = 'xoshiro128** 1.1, seeded by splitmix32';

/** A stream of random numbers. */
export interface Random {
  /** 32 random bits, 0 to 4294967295. */
  readonly bits: () => number;
  /** Uniform between 0 and 1, neither of which it ever is, so that a logarithm is safe. In steps of 2^-32. */
  readonly uniform: () => number;
}

/** Four words of state; not all zero. */
export type RandomState = readonly [number, number, number, number];

/** The stream of a seed, a whole number from 0 to 4294967295. */
export function randomFrom(seed: number): Random {
  invariant(
    Number.isInteger(seed) && seed >= 0 && seed <= 0xffffffff,
    `a seed is a whole 32-bit number, got ${seed}`,
  );
  let counter = seed >>> 0;
  const word = (): number => {
    counter = (counter + 0x9e3779b9) >>> 0;
    let z = counter;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return (z ^ (z >>> 16)) >>> 0;
  };
  return randomFromState([word(), word(), word(), word()]);
}

/** The stream that continues from a state. */
export function randomFromState(state: RandomState): Random {
  invariant(
    state.some((word) => word !== 0),
    'a state of zeros would stay zero for ever',
  );
  let [s0, s1, s2, s3] = state;
  const bits = (): number => {
    const result = Math.imul(rotated(Math.imul(s1, 5), 7), 9) >>> 0;
    const t = s1 << 9;
    s2 ^= s0;
    s3 ^= s1;
    s1 ^= s2;
    s0 ^= s3;
    s2 ^= t;
    s3 = rotated(s3, 11);
    return result;
  };
  return { bits, uniform: () => (bits() + 0.5) / 4294967296 };
}

function rotated(word: number, by: number): number {
  return (word << by) | (word >>> (32 - by));
}
