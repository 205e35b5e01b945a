/**
 * Risks of a decision rule over many placements (JCGM 106:2012, clause 9): how often a conforming one is turned away
 * (the producer's risk), and how often one that does not conform is accepted (the consumer's). The prior is what is
 * known of the quantity before it is measured; measured values are normal about the true one.
 */
import { invariant } from '../result.ts';
import { normalProbability } from './coverage.ts';
import type { Tolerance } from './decision.ts';
import { integral } from './quadrature.ts';

/** A density with finite ends beyond which nothing worth counting lies. */
export interface Prior {
  readonly density: (value: number) => number;
  readonly from: number;
  readonly to: number;
}

/** Panels of an integral over one stretch of the prior. */
const PANELS = 60;
/** Standard deviations past which a normal density holds less than 1e-15. */
const REACH = 8;

/** A normal prior. */
export function normalPrior(mean: number, sigma: number): Prior {
  invariant(sigma > 0, `a prior spreads, got ${sigma}`);
  const scale = 1 / (sigma * Math.sqrt(2 * Math.PI));
  const density = (value: number): number => {
    const z = (value - mean) / sigma;
    return scale * Math.exp((-z * z) / 2);
  };
  return { density, from: mean - REACH * sigma, to: mean + REACH * sigma };
}

/** A gamma prior of whole shape, for a quantity that is never negative: mean shape * scale (9.5.4 uses 4 and 0.25). */
export function gammaPrior(shape: number, scale: number): Prior {
  invariant(
    Number.isInteger(shape) && shape >= 1 && scale > 0,
    `whole shape and positive scale, got ${shape}, ${scale}`,
  );
  const density = (value: number): number => {
    if (value < 0) return 0;
    let product = Math.exp(-value / scale) / scale;
    for (let k = 1; k < shape; k++) product *= value / scale / k;
    return product;
  };
  return { density, from: 0, to: scale * (shape + 45 + 12 * Math.sqrt(shape)) };
}

/** What a rule does over the whole prior. Probabilities of one measured item. */
export interface GlobalRisk {
  /** Accepted and not conforming. */
  readonly consumer: number;
  /** Conforming and not accepted. */
  readonly producer: number;
  /** Not conforming, before any measurement. */
  readonly nonconforming: number;
  /** Not conforming, among those accepted. */
  readonly consumerAmongAccepted: number;
}

/** Risks of accepting what is measured within `acceptance`, with measurement uncertainty u, against `tolerance`. */
export function globalRisk(
  prior: Prior,
  u: number,
  tolerance: Tolerance,
  acceptance: Tolerance = tolerance,
): GlobalRisk {
  invariant(u > 0, `a measurement has an uncertainty, got ${u}`);
  const { lower: tl = prior.from, upper: tu = prior.to } = tolerance;
  const accepted = (value: number): number => {
    const { lower, upper } = acceptance;
    const below = lower === undefined ? 0 : normalProbability((lower - value) / u);
    const above = upper === undefined ? 0 : normalProbability((value - upper) / u);
    return Math.max(0, 1 - below - above);
  };
  const over = (from: number, to: number, f: (value: number) => number): number => {
    const [a, b] = [Math.max(from, prior.from), Math.min(to, prior.to)];
    return a < b ? integral((value) => prior.density(value) * f(value), a, b, PANELS) : 0;
  };
  const outside = (f: (value: number) => number): number => over(prior.from, tl, f) + over(tu, prior.to, f);
  const consumer = outside(accepted);
  const acceptedAndGood = over(tl, tu, accepted);
  return {
    consumer,
    producer: over(tl, tu, (value) => 1 - accepted(value)),
    nonconforming: outside(() => 1),
    consumerAmongAccepted: consumer / (consumer + acceptedAndGood),
  };
}

/**
 * The guard band, taken off every limit of the tolerance, that brings the consumer's risk down to `target`. 0 when it
 * is there already. Throws when not even half the tolerance as guard band would do.
 */
export function guardBandForRisk(prior: Prior, u: number, tolerance: Tolerance, target: number): number {
  const riskAt = (guard: number): number =>
    globalRisk(prior, u, tolerance, {
      ...(tolerance.lower === undefined ? {} : { lower: tolerance.lower + guard }),
      ...(tolerance.upper === undefined ? {} : { upper: tolerance.upper - guard }),
    }).consumer;
  if (riskAt(0) <= target) return 0;
  const { lower, upper } = tolerance;
  let [low, high] = [0, lower !== undefined && upper !== undefined ? (upper - lower) / 2 : 20 * u];
  invariant(riskAt(high) < target, `no guard band brings the risk to ${target}`);
  // Sixty halvings are more than a double has digits.
  for (let i = 0; i < 60 && high - low > 1e-14 * high; i++) {
    const middle = (low + high) / 2;
    if (riskAt(middle) > target) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
