/**
 * What bends in the formula add to the first-order u: the terms of next higher order of JCGM 100:2008 5.1.2 (note),
 * sum over i, j of [f_ij^2 / 2 + f_i f_ijj] u_i^2 u_j^2. They hold for independent inputs that are normal or nearly so.
 */
import { invariant } from '../result.ts';
import { firstDerivative, secondDerivative, thirdDerivative } from './differences.ts';
import { namesOf } from './named.ts';
import { byOrder, differenceStep, type MeasurementModel } from './propagate.ts';

/** Contribution of one pair of inputs (or of one input with itself) to the variance. */
export interface SecondOrderTerm<Name extends string> {
  readonly between: readonly [Name, Name];
  /** May be negative: f_i f_ijj has a sign. In the square of the result's unit. */
  readonly variance: number;
}

/** First-order u, u with the next terms, and the terms, largest first. */
export interface SecondOrder<Name extends string> {
  readonly firstOrderU: number;
  readonly u: number;
  /** How far the mean of the result lies above the formula's value at the inputs: sum of f_ii u_i^2 / 2. */
  readonly bias: number;
  readonly terms: readonly SecondOrderTerm<Name>[];
}

/** The second-order terms of a model of independent inputs; correlated inputs are a bug and throw. */
export function secondOrder<Name extends string>(model: MeasurementModel<Name>): SecondOrder<Name> {
  invariant(
    (model.correlations ?? []).every(({ r }) => r === 0),
    'second-order terms are for independent inputs',
  );
  const all = namesOf(model.inputs);
  const f = byOrder(all, model.formula);
  const centre = all.map((name) => model.inputs[name].value);
  const uncertain = all
    .map((name, i) => ({ name, i, u: model.inputs[name].u, h: differenceStep(model.inputs[name]) }))
    .filter(({ u }) => u > 0)
    .map((x) => ({ ...x, slope: model.sensitivities?.[x.name] ?? firstDerivative(f, centre, x.i, x.h) }));
  const terms: SecondOrderTerm<Name>[] = [];
  let bias = 0;
  uncertain.forEach((a, n) => {
    for (const b of uncertain.slice(n)) {
      const mixed = secondDerivative(f, centre, [a.i, a.h], [b.i, b.h]);
      const squares = a.u * a.u * b.u * b.u;
      const twist = a.slope * thirdDerivative(f, centre, [a.i, a.h], [b.i, b.h]);
      if (a === b) {
        bias += (mixed * a.u * a.u) / 2;
        terms.push({ between: [a.name, a.name], variance: (mixed * mixed * 0.5 + twist) * squares });
      } else {
        // The pair stands twice in the double sum, once in each order.
        const other = b.slope * thirdDerivative(f, centre, [b.i, b.h], [a.i, a.h]);
        terms.push({ between: [a.name, b.name], variance: (mixed * mixed + twist + other) * squares });
      }
    }
  });
  const first = uncertain.reduce((sum, { slope, u }) => sum + slope * u * slope * u, 0);
  const total = terms.reduce((sum, term) => sum + term.variance, first);
  return {
    firstOrderU: Math.sqrt(first),
    u: Math.sqrt(Math.max(0, total)),
    bias,
    terms: terms.sort((p, q) => Math.abs(q.variance) - Math.abs(p.variance)),
  };
}
