/**
 * The file of the command `plan`: a car, the equipment, the stations and the decision rule, lengths in millimetres and angles
 * in degrees. A tolerance is one number for equal limits, or lower and upper limits of found minus required.
 */
import { z } from 'zod';
import type {
  Datum,
  PermittedDeviation,
  RequiredCoordinate,
  StationRequirement,
} from '../../core/placement/requirement.ts';
import type { PlanSetUp, RecipeId } from '../../core/planning/index.ts';
import { err, ok, type Result } from '../../core/result.ts';
import { radFromDeg } from '../../core/units.ts';
import { parseTyreSize, tyreDiameterMm } from '../../core/vehicle/index.ts';

const length = z.strictObject({ mm: z.number(), uMm: z.number().min(0).max(1000) });
const positive = z.number().positive().max(1e5);
const tolerance = z.union([
  z.number().positive(),
  z.strictObject({ lower: z.number().optional(), upper: z.number().optional() }),
]);
const stated = z.boolean().default(true);

const lengthFrom = <const D extends readonly [string, ...string[]]>(from: D) =>
  z.strictObject({ mm: z.number(), from: z.enum(from), tolerance: tolerance.optional(), stated });
const angleFrom = <const D extends readonly [string, ...string[]]>(from: D) =>
  z.strictObject({ deg: z.number(), from: z.enum(from), tolerance: tolerance.optional(), stated });

const stationSchema = z.strictObject({
  id: z.string().min(1).max(80),
  kind: z.enum(['reposition', 'slide']).default('reposition'),
  place: z.enum(['ahead', 'behind', 'carLeft', 'carRight']).default('ahead'),
  ahead: lengthFrom(['rearAxle', 'frontAxle', 'bodyFace']),
  left: lengthFrom(['centreline', 'thrustLine']),
  up: lengthFrom(['contactPlane']),
  yaw: angleFrom(['centreline', 'thrustLine']),
  pitch: angleFrom(['contactPlane']),
  roll: angleFrom(['contactPlane']),
  free: z
    .array(z.enum(['ahead', 'left', 'up', 'yaw', 'pitch', 'roll']))
    .max(6)
    .optional(),
});

const instrumentSchema = z.strictObject({
  id: z.string().min(1).max(80),
  kind: z.enum(['tape', 'plumbBob', 'level', 'inclinometer', 'rule', 'alignmentReport']),
  accuracyClass: z.enum(['I', 'II', 'III']).optional(),
  resolutionMm: z.number().min(0).max(100).default(1),
  hook: z.boolean().optional(),
});

/** The whole file. */
export const planFileSchema = z.strictObject({
  format: z.literal('datumline-plan-1'),
  title: z.string().max(200).optional(),
  car: z.strictObject({
    wheelbaseMm: positive,
    trackFrontMm: positive,
    trackRearMm: positive,
    hubHeightMm: positive,
    bodyFaceAheadMm: z.number().max(1e5),
    /** As on the side wall: 205/55 R16. */
    tyre: z.string().max(40).optional(),
    rimSpanMm: positive.optional(),
    body: z
      .strictObject({ widthMm: positive, behindMm: z.number(), undersideMm: positive, topMm: positive })
      .optional(),
  }),
  equipment: z.strictObject({
    work: z.enum(['typical', 'careful', 'best']),
    barLength: length,
    face: z.strictObject({
      outMm: z.number(),
      acrossMm: z.number(),
      upMm: z.number(),
      uMm: z.number().min(0).max(1000),
    }),
    sideArms: z.strictObject({ left: length, right: length }),
    instruments: z.array(instrumentSchema).max(50).default([]),
  }),
  /** Which instrument serves a kind, by id. */
  use: z.partialRecord(instrumentSchema.shape.kind, z.string()).default({}),
  stations: z.array(stationSchema).min(1).max(20),
  rule: z.enum(['guarded', 'simple', 'fullU']).default('guarded'),
  recipe: z.enum(['default', 'oneDiagonal', 'rimHeadings', 'rearOnly']).default('default'),
  /** How often each reading is planned; absent ones once. */
  times: z.record(z.string().max(100), z.int().min(0).max(1000)).default({}),
  beyondAheadMm: positive.optional(),
  beyondBehindMm: positive.optional(),
  bodyFaceHeight: length.optional(),
  standBase: z
    .strictObject({
      widthMm: positive,
      towardCarMm: z.number(),
      awayMm: z.number(),
      heightMm: positive,
    })
    .optional(),
});

type PlanFile = z.infer<typeof planFileSchema>;

/** What a file asks for. */
export interface PlanRequest {
  readonly title: string | undefined;
  readonly setUp: PlanSetUp;
  readonly recipe: RecipeId;
  readonly times: ReadonlyMap<string, number>;
}

function permitted(
  given: z.infer<typeof tolerance> | undefined,
  isStated: boolean,
  unit: (value: number) => number,
): { readonly permitted?: PermittedDeviation } {
  if (given === undefined) return {};
  const { lower, upper } = typeof given === 'number' ? { lower: -given, upper: given } : given;
  return {
    permitted: {
      ...(lower === undefined ? {} : { lower: unit(lower) }),
      ...(upper === undefined ? {} : { upper: unit(upper) }),
      stated: isStated,
    },
  };
}

const asMm = (value: number): number => value;

function stationOf(given: PlanFile['stations'][number]): StationRequirement {
  const { id, kind, place, ahead, left, up, yaw, pitch, roll, free } = given;
  const lengthOf = <D extends Datum>(one: {
    mm: number;
    from: D;
    tolerance?: PlanTolerance;
    stated: boolean;
  }): RequiredCoordinate<D> => ({
    value: one.mm,
    from: one.from,
    ...permitted(one.tolerance, one.stated, asMm),
  });
  const angleOf = <D extends Datum>(one: {
    deg: number;
    from: D;
    tolerance?: PlanTolerance;
    stated: boolean;
  }): RequiredCoordinate<D> => ({
    value: radFromDeg(one.deg),
    from: one.from,
    ...permitted(one.tolerance, one.stated, radFromDeg),
  });
  return {
    id,
    kind,
    place,
    ahead: lengthOf(ahead),
    left: lengthOf(left),
    up: lengthOf(up),
    yaw: angleOf(yaw),
    pitch: angleOf(pitch),
    roll: angleOf(roll),
    ...(free === undefined ? {} : { free }),
  };
}

type PlanTolerance = z.infer<typeof tolerance> | undefined;

/** Every limit runs from lower to upper; the schema alone cannot say so. */
function crossedLimits(file: PlanFile): readonly string[] {
  return file.stations.flatMap((station) =>
    (['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const).flatMap((name) => {
      const given = station[name].tolerance;
      if (given === undefined || typeof given === 'number') return [];
      const { lower, upper } = given;
      const open = lower === undefined && upper === undefined;
      const crossed = lower !== undefined && upper !== undefined && !(lower < upper);
      return open || crossed ? [`stations ${station.id} ${name}: lower and upper are no tolerance`] : [];
    }),
  );
}

/** Parses a document, or says what is wrong with it, one line each. */
export function parsePlanFile(document: unknown): Result<PlanRequest, readonly string[]> {
  const parsed = planFileSchema.safeParse(document);
  if (!parsed.success) {
    return err(parsed.error.issues.map(({ path, message }) => `${path.join(' ')}: ${message}`));
  }
  const file = parsed.data;
  const crossed = crossedLimits(file);
  if (crossed.length > 0) return err(crossed);
  const tyre = file.car.tyre === undefined ? undefined : parseTyreSize(file.car.tyre);
  if (tyre?.ok === false) return err([`car tyre: ${file.car.tyre} is no metric tyre size`]);
  const { rimSpanMm, body, tyre: _text, ...dimensions } = file.car;
  const { work, barLength, face, sideArms, instruments } = file.equipment;
  return ok({
    title: file.title,
    recipe: file.recipe,
    times: new Map(Object.entries(file.times)),
    setUp: {
      car: {
        ...dimensions,
        ...(tyre === undefined
          ? {}
          : { tyre: { widthMm: tyre.value.widthMm, diameterMm: tyreDiameterMm(tyre.value) } }),
        ...(rimSpanMm === undefined ? {} : { rimSpanMm }),
        ...(body === undefined ? {} : { body }),
      },
      equipment: {
        work,
        fixture: { barLength, face },
        sideArms,
        instruments: instruments.map(({ id, kind, accuracyClass, resolutionMm, hook }) => ({
          id,
          kind,
          resolution: resolutionMm,
          ...(accuracyClass === undefined ? {} : { accuracyClass }),
          ...(hook === undefined ? {} : { hook }),
        })),
      },
      instruments: Object.fromEntries(Object.entries(file.use).filter(([, id]) => id !== undefined)),
      stations: file.stations.map(stationOf),
      decisionRule: file.rule,
      ...(file.beyondAheadMm === undefined ? {} : { beyondAheadMm: file.beyondAheadMm }),
      ...(file.beyondBehindMm === undefined ? {} : { beyondBehindMm: file.beyondBehindMm }),
      ...(file.bodyFaceHeight === undefined ? {} : { bodyFaceHeight: file.bodyFaceHeight }),
      ...(file.standBase === undefined ? {} : { standBase: file.standBase }),
    },
  });
}
