/**
 * What the residuals say: redundancy of each row, its standardised residual and smallest detectable error, and the
 * global test. Baarda 1968; Ghilani, Adjustment Computations, chapters 16 and 21.
 */
import { at } from '../linalg/at.ts';
import { invariant } from '../result.ts';
import { chiSquareQuantile, chiSquareTail } from '../uncertainty/coverage.ts';
import type { Covariance } from './covariance.ts';
import type { Linearisation } from './linearise.ts';
import type { Observation } from './problem.ts';
import type { GlobalTest, RowResult } from './solution.ts';
import { DETECTABLE, GLOBAL_ALPHA, UNCONTROLLED } from './testLevels.ts';
import { rowAgainst, testProduct, testVectors } from './testVectors.ts';

/** A row's result: where it came from, observed, computed, residual, and what the test says. */
function rowResult(
  lin: Linearisation,
  one: Observation,
  i: number,
  redundancy: number,
  standardised: number | undefined,
  minimalDetectable: number | undefined,
): RowResult {
  return {
    id: `${one.source}/${one.component}`,
    source: one.source,
    kind: one.kind,
    component: one.component,
    instrument: one.instrument,
    unit: one.unit,
    observed: one.observed,
    computed: at(lin.rows.computed, i),
    residual: at(lin.residuals, i),
    u: one.u,
    redundancy,
    standardised,
    minimalDetectable,
  };
}

/** One result per row. */
export function rowResults(lin: Linearisation, covariance: Covariance): RowResult[] {
  if (lin.problem.groups.length > 0) return correlatedResults(lin, covariance.full());
  const variances = covariance.ofRows(lin.rows);
  return lin.problem.observations.map((one, i) => {
    const residual = at(lin.residuals, i);
    const weight = at(lin.weights, i);
    const redundancy = weight === 0 ? 0 : 1 - weight * at(variances, i);
    const controlled = redundancy > UNCONTROLLED;
    if (!controlled) return rowResult(lin, one, i, Math.max(0, redundancy), undefined, undefined);
    const root = Math.sqrt(redundancy);
    return rowResult(lin, one, i, redundancy, residual / (one.u * root), DETECTABLE * (one.u / root));
  });
}

/** The same where rows are correlated: the tests are those of the weighted residuals P v (see testVectors.ts). */
function correlatedResults(lin: Linearisation, covariance: Float64Array): RowResult[] {
  const vectors = testVectors(lin);
  return lin.problem.observations.map((one, i) => {
    const vector = vectors[i];
    invariant(vector !== undefined, 'every row has a test vector');
    const redundancy = one.exact === true ? 0 : 1 - rowAgainst(lin, covariance, i, vector);
    const power = one.exact === true ? 0 : testProduct(lin, covariance, vector, vector);
    const controlled = power * one.u * one.u > UNCONTROLLED;
    if (!controlled) return rowResult(lin, one, i, redundancy, undefined, undefined);
    const root = Math.sqrt(power);
    return rowResult(lin, one, i, redundancy, vector.force / root, DETECTABLE / root);
  });
}

const limits = new Map<number, number>();

/** Chi-square limit by dof; the same few are asked for again and again while readings come in. */
function limitFor(dof: number): number {
  const kept = limits.get(dof);
  if (kept !== undefined) return kept;
  const limit = chiSquareQuantile(1 - GLOBAL_ALPHA, dof);
  limits.set(dof, limit);
  return limit;
}

/** Global test of the weighted sum of squared residuals. Without redundancy there is nothing to test: passed. */
export function globalTest(chiSquare: number, dof: number): GlobalTest {
  const limit = dof > 0 ? limitFor(dof) : 0;
  return {
    chiSquare,
    dof,
    p: dof > 0 ? chiSquareTail(chiSquare, dof) : 1,
    limit,
    alpha: GLOBAL_ALPHA,
    passed: dof === 0 || chiSquare <= limit,
  };
}
