/**
 * The pieces every network schema is built from: ids, uncertainties, and what is known of one number beforehand.
 * Units: millimetres and radians. A standard uncertainty (u) is one standard deviation, never an expanded U.
 */
import { z } from 'zod';

/** Makes a parsed tree read-only in the types: a network is never changed after it was read. */
export type DeepReadonly<T> = T extends readonly (infer U)[]
  ? readonly DeepReadonly<U>[]
  : T extends object
    ? { readonly [K in keyof T]: DeepReadonly<T[K]> }
    : T;

/** Name of a point, body, shared unknown or reading; unique in its network. No slash: row ids use it. */
export const idSchema = z
  .string()
  .min(1)
  .max(120)
  .regex(/^[^/\s]+$/, 'an id has no blank and no slash');

const labelSchema = z.string().max(200);

/** Degrees of freedom behind a standard uncertainty; absent means well known (infinite). JCGM 100 G.4. */
export const dofSchema = z.number().positive();

/** A standard uncertainty. Zero passes here and is refused by `solve` with a typed error that names the reading. */
export const uSchema = z.number().nonnegative();

/** Fields that every kind of reading carries beside its own. */
export const readingFields = {
  id: idSchema,
  label: labelSchema.optional(),
  /** The instrument it was read with; used to group shares of variance. */
  instrument: idSchema.optional(),
  dof: dofSchema.optional(),
};

/** What is known of a length beforehand: nothing, all, or a value with its uncertainty. Millimetres. */
export const lengthKnowledgeSchema = z.discriminatedUnion('state', [
  z.strictObject({ state: z.literal('free'), startMm: z.number().optional() }),
  z.strictObject({ state: z.literal('fixed'), valueMm: z.number() }),
  z.strictObject({
    state: z.literal('known'),
    valueMm: z.number(),
    uMm: uSchema,
    dof: dofSchema.optional(),
  }),
]);

/** What is known of an angle beforehand. Radians. */
export const angleKnowledgeSchema = z.discriminatedUnion('state', [
  z.strictObject({ state: z.literal('free'), startRad: z.number().optional() }),
  z.strictObject({ state: z.literal('fixed'), valueRad: z.number() }),
  z.strictObject({
    state: z.literal('known'),
    valueRad: z.number(),
    uRad: uSchema,
    dof: dofSchema.optional(),
  }),
]);

/** What is known of a pure number beforehand, such as a tape's scale error (0.0002 is 0.2 mm in a metre). */
export const ratioKnowledgeSchema = z.discriminatedUnion('state', [
  z.strictObject({ state: z.literal('free'), start: z.number().optional() }),
  z.strictObject({ state: z.literal('fixed'), value: z.number() }),
  z.strictObject({ state: z.literal('known'), value: z.number(), u: uSchema, dof: dofSchema.optional() }),
]);

/** A directed plan line through two points, from the first to the second. Left of it is positive. */
export const lineSchema = z.strictObject({ from: idSchema, to: idSchema });

/** The horizontal direction of a body's own axis. */
export const bodyAxisSchema = z.strictObject({ body: idSchema, axis: z.enum(['x', 'y']) });

/** A plan direction: a line through two points, or a body's axis seen from above. */
export const directionSchema = z.union([lineSchema, bodyAxisSchema]);

/** Name and label of a thing in the network. */
export const namedFields = { id: idSchema, label: labelSchema.optional() };

/** What is known of a length beforehand, mm. */
export type LengthKnowledge = DeepReadonly<z.infer<typeof lengthKnowledgeSchema>>;
/** What is known of an angle beforehand, radians. */
export type AngleKnowledge = DeepReadonly<z.infer<typeof angleKnowledgeSchema>>;
/** What is known of a pure number beforehand. */
export type RatioKnowledge = DeepReadonly<z.infer<typeof ratioKnowledgeSchema>>;
/** A directed plan line through two points. */
export type Line = DeepReadonly<z.infer<typeof lineSchema>>;
/** A plan direction: through two points, or a body's axis. */
export type Direction = DeepReadonly<z.infer<typeof directionSchema>>;
