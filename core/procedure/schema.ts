/**
 * A procedure: the vehicle maker's placement data for one sensor, as entered and reviewed in this shop, with its
 * source. A versioned JSON document. Each coordinate of a station names its own datum. Every length and angle is an
 * expression text (`1350 mm`, `53 1/8 in`, `faceSetBack + 1500 mm`, `180 deg`) over units and the named inputs, so
 * that what the maker wrote stays readable; `resolve.ts` turns it into millimetres and radians.
 */
import { z } from 'zod';

const id = z.string().regex(/^[A-Za-z][A-Za-z0-9._-]{0,39}$/);
const title = z.string().min(1).max(120);
const words = z.string().max(1000);
const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);

/** An expression text; its grammar is in `expression.ts`. */
export const expressionTextSchema = z.string().min(1).max(300);

/** Something measured on this car that the stations depend on. */
export const procedureInputSchema = z.strictObject({
  name: z.string().regex(/^[a-z][A-Za-z0-9]{0,30}$/),
  label: title,
  quantity: z.enum(['length', 'angle']),
  least: expressionTextSchema,
  most: expressionTextSchema,
});

/** A condition the car or bay must meet; a blocking one that fails forbids the work. */
export const conditionSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('confirm'),
    id,
    text: words,
    caution: words.nullable(),
    blocking: z.boolean(),
  }),
  z.strictObject({
    kind: z.literal('value'),
    id,
    text: words,
    caution: words.nullable(),
    blocking: z.boolean(),
    unit: z.string().max(10),
    least: z.number().finite(),
    most: z.number().finite(),
  }),
  z.strictObject({
    kind: z.literal('choice'),
    id,
    text: words,
    caution: words.nullable(),
    blocking: z.boolean(),
    choices: z
      .array(z.strictObject({ value: id, text: title, fits: z.boolean() }))
      .min(2)
      .max(8),
  }),
]);

/** Permitted deviation of one coordinate, found minus required, or that the maker states none. */
export const toleranceSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('twoSided'), limit: expressionTextSchema }),
  z.strictObject({ kind: z.literal('unequal'), lower: expressionTextSchema, upper: expressionTextSchema }),
  z.strictObject({ kind: z.literal('lowerOnly'), lower: expressionTextSchema }),
  z.strictObject({ kind: z.literal('upperOnly'), upper: expressionTextSchema }),
  /** Between two values of the coordinate itself, counted from its datum: `1200 mm` to `1260 mm`. */
  z.strictObject({ kind: z.literal('range'), least: expressionTextSchema, most: expressionTextSchema }),
  /** `workingLimit` is the shop's own limit, printed as such. */
  z.strictObject({ kind: z.literal('notStated'), workingLimit: expressionTextSchema.nullable() }),
]);

/**
 * A permitted distance from the required point within a plane: seen from above (`aheadLeft`) or along the car (`leftUp`).
 * `stated` is false for the shop's own working limit.
 */
export const radialToleranceSchema = z.strictObject({
  plane: z.enum(['aheadLeft', 'leftUp']),
  limit: expressionTextSchema,
  stated: z.boolean(),
});

const coordinate = <D extends z.ZodType>(from: D) =>
  z.strictObject({ value: expressionTextSchema, from, tolerance: toleranceSchema });

const aheadFrom = z.enum(['rearAxle', 'frontAxle', 'bodyFace']);
const lineFrom = z.enum(['centreline', 'thrustLine']);
const upFrom = z.enum(['contactPlane']);

/** A floor mat: its marked points in its own frame with the u they were measured with, and how flat it must lie. mm. */
export const matSchema = z.strictObject({
  points: z
    .array(
      z.strictObject({
        id: z.string().regex(/^[A-Za-z0-9]{1,8}$/),
        xMm: z.number().finite(),
        yMm: z.number().finite(),
        uMm: z.number().finite().min(0),
      }),
    )
    .min(3)
    .max(8),
  flatWithinMm: z.number().finite().positive().optional(),
});

/**
 * One required target pose: where the face centre stands and how the face is turned. `yaw` is the heading of the
 * face's outward normal from its line, positive to the car's left: 180 deg for a target ahead that faces the car.
 */
export const stationSchema = z.strictObject({
  id,
  name: title,
  /** A slide keeps the bar where it stands; a reposition is a new stand of the fixture. */
  kind: z.enum(['reposition', 'slide']),
  place: z.enum(['ahead', 'behind', 'carLeft', 'carRight']),
  ahead: coordinate(aheadFrom),
  left: coordinate(lineFrom),
  up: coordinate(upFrom),
  yaw: coordinate(lineFrom),
  pitch: coordinate(upFrom),
  roll: coordinate(upFrom),
  /** Coordinates the procedure leaves free. */
  free: z.array(z.enum(['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'])).max(3),
  /** Absent where each coordinate is limited by itself. */
  radial: radialToleranceSchema.optional(),
  /** Where the target is a mat on the floor: its marked points about its own origin, X ahead as required with no turn. */
  mat: matSchema.optional(),
  /** What to do on the scan tool once the target is proven here. */
  capturePrompt: words,
});

/** How a review went: the day, how many values were looked at one by one or typed again, for another shop its name. */
export const reviewSchema = z.strictObject({
  on: day,
  values: z.int().min(1).max(2000),
  /** The shop of a reviewer from elsewhere. */
  shop: title.optional(),
  /** Digest of the content that was reviewed elsewhere, as in `editions.ts`. */
  content: sha256.optional(),
});
export type ProcedureReview = z.infer<typeof reviewSchema>;

/** Where the numbers come from, and who read and reviewed them. */
export const sourceSchema = z.strictObject({
  document: title,
  section: z.string().max(80),
  readOn: day,
  enteredBy: title,
  reviewedBy: title.nullable(),
  reviewWay: z.enum(['secondPerson', 'otherShop', 'ownSecondEntry', 'unreviewed']),
  /** The day it was entered here; absent in documents from before it could be told. */
  enteredOn: day.optional(),
  /** A picture or PDF of the page it was read from, kept in the archive under its digest and sent to nobody. */
  page: z.strictObject({ digest: sha256, kind: z.enum(['pdf', 'picture']) }).optional(),
  /** How the review went; absent in documents from before it could be told. */
  review: reviewSchema.optional(),
});

/**
 * What the procedure asks of the bay; a part it does not state is absent. The clear zone is an outline seen from above: mm
 * ahead of the rear axle, mm to the car's left; nothing may stand in it up to its height over the floor.
 */
export const bayNeedsSchema = z.strictObject({
  supports: z
    .array(z.enum(['floor', 'turnPlates', 'stands', 'runways', 'lift']))
    .min(1)
    .max(5)
    .optional(),
  light: z
    .strictObject({
      leastMean: z.number().finite().min(0).optional(),
      mostMean: z.number().finite().positive().optional(),
      leastLowest: z.number().finite().min(0).optional(),
      leastUniformity: z.number().finite().min(0).max(1).optional(),
    })
    .optional(),
  clearZone: z
    .strictObject({
      outlineMm: z
        .array(z.tuple([z.number().finite(), z.number().finite()]))
        .min(3)
        .max(20),
      heightMm: z.number().finite().positive().max(20_000),
    })
    .optional(),
});
export type BayNeeds = z.infer<typeof bayNeedsSchema>;

export const procedureSchema = z.strictObject({
  format: z.literal('datumline-procedure-1'),
  id,
  edition: z.int().min(1),
  title,
  fictional: z.boolean(),
  sensor: z.enum(['forwardCamera', 'frontRadar', 'cornerRadar', 'surroundCamera']),
  applicability: z.strictObject({
    make: title,
    models: z.array(title).min(1),
    fromYear: z.int(),
    toYear: z.int().nullable(),
  }),
  inputs: z.array(procedureInputSchema).max(20),
  conditions: z.array(conditionSchema).max(40),
  target: z.strictObject({
    kind: z.enum(['board', 'plate', 'mat', 'corner']),
    widthMm: z.number().positive(),
    heightMm: z.number().positive(),
    name: title,
    /** What carries it; absent, also in documents from before it could be told: a bar fixture. */
    body: z.enum(['bar', 'singleStand', 'plate', 'corner']).optional(),
  }),
  /** Where the sensor sits: ahead of the rear axle, to the car's left, above the contact plane. For consequences only. */
  sensorAt: z
    .strictObject({ ahead: expressionTextSchema, left: expressionTextSchema, up: expressionTextSchema })
    .nullable(),
  stations: z.array(stationSchema).min(1).max(12),
  steps: z.array(z.strictObject({ text: words, caution: words.nullable() })).max(60),
  decisionRule: z.enum(['guarded', 'simple', 'fullU']).nullable(),
  /** How long work may stand still before a control must agree, minutes; absent: the shop's way. */
  pauseLimitMin: z.int().min(1).max(1440).optional(),
  /** Absent where the procedure says nothing about the bay, and in documents from before it could be told. */
  bay: bayNeedsSchema.optional(),
  source: sourceSchema,
});

export type Procedure = z.infer<typeof procedureSchema>;
export type ProcedureStation = z.infer<typeof stationSchema>;
export type ProcedureCondition = z.infer<typeof conditionSchema>;
export type ProcedureTolerance = z.infer<typeof toleranceSchema>;
