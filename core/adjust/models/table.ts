/** The kinds of reading the adjuster understands. A new kind is one file in this folder and one line in `readingModels`. */
import { z } from 'zod';
import { invariant } from '../../result.ts';
import type { DeepReadonly } from '../schemaParts.ts';
import { alongModel } from './along.ts';
import { angleModel } from './angle.ts';
import type { Binder } from './binder.ts';
import { constraintModel } from './constraint.ts';
import { coordinateModel } from './coordinate.ts';
import { distanceModel } from './distance.ts';
import { dropModel } from './drop.ts';
import { heightModel } from './height.ts';
import type { BoundReading } from './model.ts';
import { offsetModel } from './offset.ts';
import { poseModel } from './pose.ts';
import { tiltModel } from './tilt.ts';

/** One line per kind: its name in documents, and its model. */
export const readingModels = {
  drop: dropModel,
  distance: distanceModel,
  offset: offsetModel,
  along: alongModel,
  angle: angleModel,
  height: heightModel,
  tilt: tiltModel,
  pose: poseModel,
  coordinate: coordinateModel,
  constraint: constraintModel,
};

type Models = typeof readingModels;

/** Name of a kind of reading. */
export type ReadingKind = keyof Models;
/** The reading of one kind: `ReadingOf<'drop'>`. */
export type ReadingOf<K extends ReadingKind> = DeepReadonly<z.infer<Models[K]['schema']>>;
/** A reading of any kind; `kind` tells which. */
export type Reading = { [K in ReadingKind]: ReadingOf<K> }[ReadingKind];

const [first, ...others] = Object.values(readingModels).map((model) => model.schema);
invariant(first !== undefined, 'there is at least one kind of reading');

/** Any kind of reading; `kind` tells which. */
export const readingSchema = z.discriminatedUnion('kind', [first, ...others]);

type Table = { readonly [K in ReadingKind]: { bind(reading: ReadingOf<K>, binder: Binder): BoundReading } };

/** Looks up the ids of a reading by the model of its kind. */
export function bindReading<K extends ReadingKind>(
  reading: ReadingOf<K> & { readonly kind: K },
  binder: Binder,
): BoundReading {
  const table: Table = readingModels;
  return table[reading.kind].bind(reading, binder);
}
