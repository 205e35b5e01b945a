/**
 * Places in plan that are known together: their coordinates with one covariance over all of them, as an adjustment or a
 * set of drops gives them. What two places share (a tape, a laid-out line) is in the covariance and is not counted twice.
 */
import { entry, type Matrix, zeroMatrix } from '../linalg/matrix.ts';
import { invariant } from '../result.ts';
import type { Correlation } from '../uncertainty/propagate.ts';
import { type Quantity, quantity } from '../uncertainty/quantity.ts';

/** A place in plan, mm: x and y of one frame with Z up. */
export interface PlanPlace {
  readonly xMm: number;
  readonly yMm: number;
}

/**
 * Named places with the covariance of x1, y1, x2, y2 ... in the order of `ids`, mm^2, and the degrees of freedom behind it.
 */
export interface KnownPlaces<Id extends string> {
  readonly ids: readonly Id[];
  readonly places: Readonly<Record<Id, PlanPlace>>;
  readonly covariance: Matrix;
  readonly dof: number;
}

/** Places read apart from each other, each with its own u in x and in y, mm. */
export function independentPlaces<Id extends string>(
  ids: readonly Id[],
  places: Readonly<Record<Id, PlanPlace & { readonly uXMm: number; readonly uYMm: number }>>,
  dof: number = Number.POSITIVE_INFINITY,
): KnownPlaces<Id> {
  const n = 2 * ids.length;
  const covariance = zeroMatrix(n, n);
  ids.forEach((id, i) => {
    covariance.data[2 * i * n + 2 * i] = places[id].uXMm * places[id].uXMm;
    covariance.data[(2 * i + 1) * n + 2 * i + 1] = places[id].uYMm * places[id].uYMm;
  });
  return { ids, places, covariance, dof };
}

/** Inputs of a measurement model with the correlations of a covariance. */
export interface JointInputs {
  readonly inputs: Readonly<Record<string, Quantity>>;
  readonly correlations: readonly Correlation<string>[];
}

/** Named values with their covariance as inputs of a measurement model; a negative variance is a bug and throws. */
export function jointInputs(
  names: readonly string[],
  values: readonly number[],
  covariance: Matrix,
  dof: number,
): JointInputs {
  const n = names.length;
  invariant(
    values.length === n && covariance.rows === n && covariance.columns === n,
    `${n} values and a square`,
  );
  const u = names.map((name, i) => {
    const variance = entry(covariance, i, i);
    invariant(variance >= 0, `${name}: a variance is not negative, got ${variance}`);
    return Math.sqrt(variance);
  });
  const correlations = names.flatMap((a, i) =>
    names.slice(i + 1).flatMap((b, k): Correlation<string>[] => {
      const j = i + 1 + k;
      const shared = entry(covariance, i, j);
      if (shared === 0) return [];
      // Rounding may carry a full correlation a little past one.
      const r = Math.max(-1, Math.min(1, shared / ((u[i] ?? 0) * (u[j] ?? 0))));
      return [{ between: [a, b], r }];
    }),
  );
  const inputs = Object.fromEntries(
    names.map((name, i) => [name, quantity(name, values[i] ?? 0, u[i] ?? 0, dof)]),
  );
  return { inputs, correlations };
}

/** The coordinates of places as inputs: `FL.x`, `FL.y` and so on. */
export function placeInputs<Id extends string>({
  ids,
  places,
  covariance,
  dof,
}: KnownPlaces<Id>): JointInputs {
  const names = ids.flatMap((id) => [`${id}.x`, `${id}.y`]);
  const values = ids.flatMap((id) => [places[id].xMm, places[id].yMm]);
  return jointInputs(names, values, covariance, dof);
}

/** Two sets of inputs that know nothing of each other. */
export function joined(a: JointInputs, b: JointInputs): JointInputs {
  return { inputs: { ...a.inputs, ...b.inputs }, correlations: [...a.correlations, ...b.correlations] };
}
