/**
 * The input of the adjuster: points, rigid bodies, shared unknowns and readings, as one JSON document.
 *
 * Frame: the bay frame, millimetres, Z up along gravity, right-handed (X, Y level). Angles in radians, turning left
 * seen from above positive. A body's pose is where its origin is and R = Rz(yaw) Ry(pitch) Rx(roll), the ISO 8855
 * order: pitch positive nose down, roll positive left side up. At a quarter turn of pitch the unknowns
 * are turns about the bay's axes instead (see UnknownComponent).
 * A point of a body is named like any other point and may stand wherever a reading wants a point.
 */
import { z } from 'zod';
import { correlationSchema } from './correlation.ts';
import { type Reading, type ReadingKind, type ReadingOf, readingSchema } from './models/table.ts';
import {
  angleKnowledgeSchema,
  type DeepReadonly,
  idSchema,
  lengthKnowledgeSchema,
  lineSchema,
  namedFields,
  ratioKnowledgeSchema,
  uSchema,
} from './schemaParts.ts';

/** A point in the bay frame. A `free` coordinate may carry a start; without one it is constructed from readings. */
export const pointSchema = z.strictObject({
  ...namedFields,
  x: lengthKnowledgeSchema,
  y: lengthKnowledgeSchema,
  z: lengthKnowledgeSchema,
});

/** A point known in its body's own frame. A `u` of zero makes that coordinate exact. */
export const bodyPointSchema = z.strictObject({
  ...namedFields,
  xMm: z.number(),
  yMm: z.number(),
  zMm: z.number(),
  uXMm: uSchema,
  uYMm: uSchema,
  uZMm: uSchema,
});

/** A rigid body: its pose in the bay frame (six knowledges) and its own points. */
export const bodySchema = z.strictObject({
  ...namedFields,
  pose: z.strictObject({
    x: lengthKnowledgeSchema,
    y: lengthKnowledgeSchema,
    z: lengthKnowledgeSchema,
    yaw: angleKnowledgeSchema,
    pitch: angleKnowledgeSchema,
    roll: angleKnowledgeSchema,
  }),
  points: z.array(bodyPointSchema).max(200),
});

/**
 * An unknown that several readings share and that therefore does not average away: a tape's scale (ratio), a hook's or
 * instrument's zero (length or angle), the length of the side arm of the hub fixtures (length).
 */
export const sharedSchema = z.discriminatedUnion('quantity', [
  z.strictObject({ ...namedFields, quantity: z.literal('length'), is: lengthKnowledgeSchema }),
  z.strictObject({ ...namedFields, quantity: z.literal('angle'), is: angleKnowledgeSchema }),
  z.strictObject({ ...namedFields, quantity: z.literal('ratio'), is: ratioKnowledgeSchema }),
]);

/** Distances alone do not tell a layout from its mirror image: on which side of a directed line a point lies. */
export const sideSchema = z.strictObject({
  point: idSchema,
  line: lineSchema,
  side: z.enum(['left', 'right']),
});

/** The whole document. Ids of points, body points, bodies, shared unknowns, readings and groups are unique together. */
export const networkSchema = z.strictObject({
  format: z.literal('datumline-network-1'),
  title: z.string().max(200).optional(),
  points: z.array(pointSchema).max(2000),
  bodies: z.array(bodySchema).max(200),
  shared: z.array(sharedSchema).max(200),
  readings: z.array(readingSchema).max(5000),
  sides: z.array(sideSchema).max(2000),
  /** Rows whose errors belong together; a row without a group is independent of all others. */
  correlations: z.array(correlationSchema).max(200).optional(),
});

/** The whole document, read-only. */
export type Network = DeepReadonly<z.infer<typeof networkSchema>>;
/** A point in the bay frame, mm. */
export type NetworkPoint = DeepReadonly<z.infer<typeof pointSchema>>;
/** A point in its body's own frame, mm. */
export type BodyPoint = DeepReadonly<z.infer<typeof bodyPointSchema>>;
/** A rigid body with its pose and its own points. */
export type Body = DeepReadonly<z.infer<typeof bodySchema>>;
/** An unknown that several readings share. */
export type Shared = DeepReadonly<z.infer<typeof sharedSchema>>;
/** On which side of a directed line a point lies. */
export type Side = DeepReadonly<z.infer<typeof sideSchema>>;
export type { Correlation } from './correlation.ts';
export type { Reading, ReadingKind, ReadingOf };
