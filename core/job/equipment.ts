/**
 * The measuring equipment of a shop as it is frozen into a job: what a certificate lists, and what the
 * solver needs to know of each thing. Lengths in millimetres; `u...` are standard uncertainties.
 */
import { z } from 'zod';
import { lineStreamSchema } from '../instruments/schema.ts';
import { equipmentChecksSchema } from './equipmentChecks.ts';
import { repeatabilitySchema } from './repeatability.ts';

const id = z.string().regex(/^[A-Za-z0-9._-]{1,40}$/);
const name = z.string().min(1).max(120);
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const lengthMm = z.number().finite().min(0).max(20_000);
const uMm = z.number().finite().positive().max(100);

/** Identity and traceability that every piece of equipment carries. */
const traced = {
  id,
  name,
  serial: z.string().max(60),
  certificate: z.string().max(120),
  dueOn: day,
};

export const instrumentKind = z.enum([
  'tape',
  'plumbBob',
  'level',
  'inclinometer',
  'luxMeter',
  'rule',
  'other',
]);

/** One instrument; `accuracyClass` is the EU tape class, `resolution` in the unit it shows (mm or degrees). */
export const instrumentSchema = z.strictObject({
  ...traced,
  kind: instrumentKind,
  accuracyClass: z.enum(['I', 'II', 'III']).nullable(),
  resolution: z.number().finite().positive().max(100),
  startsAt: z.enum(['zero', 'hook', 'hundred']),
  numbersIn: z.enum(['mm', 'cm', 'in']),
  /** How it sends its readings; absent for one that is read by eye, and in records made before it could be told. */
  stream: lineStreamSchema.optional(),
});

/** One adjustable part: its two ends, the smallest change that can be set, mm per turn of its screw. */
const travel = {
  leastMm: z.number().finite(),
  mostMm: z.number().finite(),
  stepMm: z.number().finite().min(0).max(100),
  perTurnMm: z.number().finite().positive().max(1000).optional(),
};
const travelSchema = z.strictObject(travel);
const pivotSchema = z.strictObject({ outMm: z.number().finite(), acrossMm: z.number().finite() });
const tiltSchema = z.strictObject({
  ...travel,
  where: z.enum(['feet', 'head']),
  axisMm: z.number().finite(),
  screwAtMm: z.number().finite().positive(),
});

/** How a fixture moves, as far as its owner measured it (`core/placement/kinematics`). */
export const kinematicsSchema = z.strictObject({
  basePivot: pivotSchema.optional(),
  turn: z.strictObject({ ...travel, pivot: pivotSchema }).optional(),
  roll: travelSchema.optional(),
  shift: travelSchema.optional(),
  mast: travelSchema.optional(),
  lean: tiltSchema.optional(),
  level: tiltSchema.optional(),
  slide: travelSchema.optional(),
  offCentre: z
    .strictObject({
      sinksMmPerM: z.number().finite(),
      tiltRadPerM: z.number().finite(),
      uTiltRad: z.number().finite().positive(),
    })
    .optional(),
});

/**
 * A bar fixture: the two painted ends, the bar's length between its end marks, and where the target's face
 * centre sits in the fixture frame (X outward normal of the face, towards the car; origin the bar's centre mark).
 */
export const fixtureSchema = z.strictObject({
  ...traced,
  endMarks: z.tuple([z.string().min(1).max(12), z.string().min(1).max(12)]),
  barLengthMm: lengthMm,
  barLengthUMm: uMm,
  faceAheadMm: z.number().finite().min(-1000).max(1000),
  faceAboveBarMm: z.number().finite().min(-2000).max(2000),
  faceUMm: uMm,
  /** Absent for a fixture of which nothing more is known, and in records made before it could be told. */
  kinematics: kinematicsSchema.optional(),
  /** Its checks by reversal; absent before the first, and in older records. */
  checks: equipmentChecksSchema.optional(),
});

/** A target board, by its size and identity. */
export const targetSchema = z.strictObject({
  ...traced,
  widthMm: lengthMm,
  heightMm: lengthMm,
  /** Of width and height; absent where nobody measured them, and in older records. */
  uMm: uMm.optional(),
  /** Its checks against a rule; absent before the first, and in older records. */
  checks: equipmentChecksSchema.optional(),
});

/** A side arm that carries the plumb line past the tyre: its length from the hub centre to the line. */
export const sideArmSchema = z.strictObject({ ...traced, side: z.enum(['left', 'right']), lengthMm, uMm });

/** Everything one job measures with, frozen when it is chosen. */
export const equipmentSchema = z.strictObject({
  fixture: fixtureSchema,
  target: targetSchema,
  sideArms: z.array(sideArmSchema).length(2),
  instruments: z.array(instrumentSchema).min(1).max(20),
  work: z.enum(['typical', 'careful', 'best']),
  /** The shop's own studies; absent for a shop without any, and in records made before they could be told. */
  repeatability: repeatabilitySchema.optional(),
});

export type Instrument = z.infer<typeof instrumentSchema>;
export type Fixture = z.infer<typeof fixtureSchema>;
export type Target = z.infer<typeof targetSchema>;
export type SideArm = z.infer<typeof sideArmSchema>;
export type Equipment = z.infer<typeof equipmentSchema>;

/** The lengths of a fixture with its target that are drawn, mm, in the fixture frame. */
export function fixtureShape(equipment: Pick<Equipment, 'fixture' | 'target'>): {
  readonly barLengthMm: number;
  readonly boardWidthMm: number;
  readonly faceOutMm: number;
  readonly faceAcrossMm: number;
} {
  return {
    barLengthMm: equipment.fixture.barLengthMm,
    boardWidthMm: equipment.target.widthMm,
    faceOutMm: equipment.fixture.faceAheadMm,
    faceAcrossMm: 0,
  };
}
