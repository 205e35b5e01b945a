/**
 * Standard normal numbers by the ziggurat: the density is covered by 128 layers of equal area, and nearly every draw is one
 * multiplication inside a layer (Marsaglia & Tsang, Journal of Statistical Software 5 (2000) no. 8; in the exact form of
 * Doornik, An improved ziggurat method to generate normal random samples, 2005: the layer and the place in it are drawn
 * from different words). About four times as fast as Box and Muller, for simulations of a whole network.
 */
import { at } from '../linalg/at.ts';
import { GENERATOR, type Random } from './random.ts';

/** Written beside every result whose normal numbers came from here. */
export const ZIGGURAT_GENERATOR = `${GENERATOR}; normal numbers by ziggurat (Doornik 2005)`;

const LAYERS = 128;
/** Where the lowest layer's tail begins, and the area of every layer: both of Marsaglia & Tsang for 128 layers. */
const TAIL = 3.442619855899;
const AREA = 9.91256303526217e-3;

/** Right edges of the layers, and the share of each that lies wholly under the density. */
function layers(): { readonly edge: Float64Array; readonly inside: Float64Array } {
  const edge = new Float64Array(LAYERS + 1);
  const inside = new Float64Array(LAYERS);
  let height = Math.exp(-0.5 * TAIL * TAIL);
  edge[0] = AREA / height;
  edge[1] = TAIL;
  for (let i = 2; i < LAYERS; i++) {
    const x = Math.sqrt(-2 * Math.log(AREA / at(edge, i - 1) + height));
    edge[i] = x;
    height = Math.exp(-0.5 * x * x);
  }
  for (let i = 0; i < LAYERS; i++) inside[i] = at(edge, i + 1) / at(edge, i);
  return { edge, inside };
}

const { edge, inside } = layers();

/** A source of standard normal numbers. */
export function zigguratNormal(random: Random): () => number {
  const fill = zigguratFill(random);
  const one = new Float64Array(1);
  return () => {
    fill(one, 0, 1);
    return at(one, 0);
  };
}

/** Writes standard normal numbers to an array, from a place up to before another: as many calls of `zigguratNormal` would. */
export function zigguratFill({
  bits,
  uniform,
}: Random): (into: Float64Array, from: number, to: number) => void {
  const tail = (): number => {
    for (;;) {
      const x = -Math.log(uniform()) / TAIL;
      if (-2 * Math.log(uniform()) >= x * x) return TAIL + x;
    }
  };
  /** A draw that fell outside the inner part of its layer: the number, or NaN when it is to be drawn again. */
  const outer = (u: number, layer: number): number => {
    if (layer === 0) return u < 0 ? -tail() : tail();
    const x = u * at(edge, layer);
    const low = at(edge, layer);
    const high = at(edge, layer + 1);
    const below = Math.exp(-0.5 * (low * low - x * x));
    const above = Math.exp(-0.5 * (high * high - x * x));
    return above + uniform() * (below - above) < 1 ? x : Number.NaN;
  };
  return (into, from, to) => {
    for (let i = from; i < to; ) {
      const u = 2 * uniform() - 1;
      const layer = bits() & (LAYERS - 1);
      if (Math.abs(u) < at(inside, layer)) into[i++] = u * at(edge, layer);
      else {
        const x = outer(u, layer);
        if (!Number.isNaN(x)) into[i++] = x;
      }
    }
  };
}

/** From this many degrees of freedom on the expansion below is right to 1e-5 of t within five standard deviations. */
export const EXPANDABLE_DOF = 20;

/**
 * Student's t of at least 20 degrees of freedom as a function of a standard normal number, by the expansion of Fisher
 * and Cornish (Abramowitz & Stegun 26.7.5): the quantile of t at the probability of z.
 */
export function tFromNormal(z: number, dof: number): number {
  const y = z * z;
  const g1 = (y + 1) / 4;
  const g2 = ((5 * y + 16) * y + 3) / 96;
  const g3 = (((3 * y + 19) * y + 17) * y - 15) / 384;
  const g4 = ((((79 * y + 776) * y + 1482) * y - 1920) * y - 945) / 92160;
  const n = 1 / dof;
  return z * (1 + n * (g1 + n * (g2 + n * (g3 + n * g4))));
}
