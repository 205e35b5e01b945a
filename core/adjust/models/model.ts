/**
 * What a kind of reading has to bring: a schema, and `bind`, which looks its ids up once and hands back how many
 * scalar rows it has, how to compute them with their partial derivatives, and what it tells a first guess.
 */
import type { z } from 'zod';
import type { Rows } from '../rows.ts';
import type { DeepReadonly } from '../schemaParts.ts';
import type { StartFacts } from '../start/facts.ts';
import type { State } from '../state.ts';
import type { Binder } from './binder.ts';

/** One scalar observation of a reading. `exact` holds without uncertainty (a constraint). */
export interface RowHead {
  readonly component: string;
  readonly unit: 'mm' | 'rad' | 'ratio';
  readonly observed: number;
  readonly u: number;
  readonly exact?: boolean;
}

/** A square matrix written out row by row. */
export type FullMatrix = readonly (readonly number[])[];

/** A reading with its ids looked up. */
export interface BoundReading {
  readonly heads: readonly RowHead[];
  /** Joint covariance of its rows, in their units; absent when they are independent. */
  readonly covariance?: FullMatrix;
  /** False for what stays the same when the whole layout tips over (a distance in space); the rest feels gravity. */
  readonly feelsGravity: boolean;
  /** Writes one row per head, in order: computed value, then partials. */
  write(state: State, rows: Rows): void;
  /** Tells what this reading says about where things are, for starting values. */
  tell?(facts: StartFacts): void;
}

/** A kind of reading. */
export interface ReadingModel<S extends z.ZodType> {
  readonly schema: S;
  bind(reading: DeepReadonly<z.infer<S>>, binder: Binder): BoundReading;
}
