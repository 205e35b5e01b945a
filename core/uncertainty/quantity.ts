/**
 * A quantity as the GUM means it: a value with its standard uncertainty and degrees of freedom, and a name by which
 * a budget can list it.
 */
import { invariant } from '../result.ts';

/** Value and u in one unit, which the label or the code around it names. */
export interface Quantity {
  readonly id: string;
  readonly label: string;
  readonly value: number;
  /** Standard uncertainty: one standard deviation, never U. */
  readonly u: number;
  /** Degrees of freedom behind u; Infinity when well known. */
  readonly dof: number;
}

/** A quantity; numbers that are not finite, a negative u or no degrees of freedom are bugs and throw. */
export function quantity(
  id: string,
  value: number,
  u: number,
  dof: number = Number.POSITIVE_INFINITY,
  label: string = id,
): Quantity {
  invariant(Number.isFinite(value), `${id}: value must be finite, got ${value}`);
  invariant(Number.isFinite(u) && u >= 0, `${id}: u must be finite and not negative, got ${u}`);
  invariant(dof > 0, `${id}: degrees of freedom must be positive, got ${dof}`);
  return { id, label, value, u, dof };
}

/** Standard uncertainty of limits +-a with every value between them alike (JCGM 100:2008 4.3.7): a / sqrt 3. */
export function rectangular(halfWidth: number): number {
  return halfWidth / Math.sqrt(3);
}

/** Standard uncertainty of limits +-a with the middle likeliest (JCGM 100:2008 4.3.9): a / sqrt 6. */
export function triangular(halfWidth: number): number {
  return halfWidth / Math.sqrt(6);
}

/** Standard uncertainty of a value read off in steps: rectangular over half a step either way, step / sqrt 12. */
export function fromResolution(step: number): number {
  return rectangular(step / 2);
}

/** Degrees of freedom of a u that is itself known to a share of it (JCGM 100:2008 G.3): 25 % gives 8. */
export function dofFromDoubt(relativeDoubt: number): number {
  return 1 / (2 * relativeDoubt * relativeDoubt);
}
