/**
 * Planning in and out, before any reading is taken. A plan says how often each reading of a recipe is taken; from it, the
 * nominal geometry and the stated uncertainties follow u and U of every coordinate of every station. Lengths in mm, angles
 * in radians, signs of ISO 8855 in the vehicle frame whose origin is under the rear-axle midpoint.
 */
import type { Coordinate } from '../frames.ts';
import type { InstrumentKind, LengthWithU, PlacementEquipment } from '../placement/equipment.ts';
import type { ReadingShare } from '../placement/finding.ts';
import type { Wheel } from '../placement/placementReading.ts';
import type { DecisionRuleName, PermittedDeviation, StationRequirement } from '../placement/requirement.ts';

/** The car as its maker's data sheet has it. What is absent takes the defaults of `planDefaults`. */
export interface PlanCar {
  readonly wheelbaseMm: number;
  /** Between the middles of the tyres of an axle. */
  readonly trackFrontMm: number;
  readonly trackRearMm: number;
  /** Wheel centre above the floor under load. */
  readonly hubHeightMm: number;
  /** The front-most body point ahead of the rear axle. */
  readonly bodyFaceAheadMm: number;
  /** Section width and free diameter of the tyres. */
  readonly tyre?: { readonly widthMm: number; readonly diameterMm: number };
  /** Between the two edges of the rim that a heading is read from. */
  readonly rimSpanMm?: number;
  /** The body as a box: width, how far it reaches behind the rear axle, its underside and its roof over the floor. */
  readonly body?: {
    readonly widthMm: number;
    readonly behindMm: number;
    readonly undersideMm: number;
    readonly topMm: number;
  };
}

/** The base of the fixture's stand as a box about the foot of the bar's centre mark, in the fixture's own directions. */
export interface StandBase {
  /** Along the bar. */
  readonly widthMm: number;
  /** Out of the target's face and the other way. */
  readonly towardCarMm: number;
  readonly awayMm: number;
  readonly heightMm: number;
}

/** Everything a plan is made for: one stand of the fixture, as in `PlacementInput`, without readings. */
export interface PlanSetUp {
  readonly car: PlanCar;
  readonly equipment: PlacementEquipment;
  /** The first is of kind `reposition`; slides follow. */
  readonly stations: readonly StationRequirement[];
  readonly decisionRule: DecisionRuleName;
  readonly bodyFaceHeight?: LengthWithU;
  /** How far the car-side lines go on beyond the front and the rear marks. */
  readonly beyondAheadMm?: number;
  readonly beyondBehindMm?: number;
  /** Which instrument of the equipment serves a kind; absent is the default of its kind. */
  readonly instruments?: Readonly<Partial<Record<InstrumentKind, string>>>;
  readonly standBase?: StandBase;
}

/** How often each reading is taken, by slot key. A drop taken n times is n independent drops of that hub. */
export type Plan = ReadonlyMap<string, number>;

/** A named set of readings that together place the fixture. */
export type RecipeId = 'default' | 'oneDiagonal' | 'rimHeadings' | 'rearOnly';

/** A recipe as data: what it measures from, and what of the default recipe it leaves out. */
export interface PlanRecipe {
  readonly id: RecipeId;
  /** Which axles are dropped. The rear axle alone measures the bar straight from the two rear marks. */
  readonly axles: 'both' | 'rear';
  /** Where the rear wheels' headings come from when a station measures from the thrust line. */
  readonly headings: 'alignmentReport' | 'rim';
  readonly leaveOut: readonly string[];
}

/** One reading of a recipe as planning counts it. */
export interface PlanSlot {
  readonly key: string;
  /** Key of its label in the catalogue. */
  readonly label: string;
  readonly instrument: InstrumentKind;
  /** The fewest and the most times it may be planned. */
  readonly least: number;
  readonly most: number;
  /** Readings each time: one, or four for a rim read at two edges in two positions half a turn apart. */
  readonly cost: number;
  /** Roughly how long each time takes with the walking, seconds. */
  readonly seconds: number;
}

/** Readings of a plan with what they are called: all that naming one of them needs. */
export interface NamedSlots {
  readonly slots: readonly Pick<PlanSlot, 'key' | 'label'>[];
}

/** Why a plan has no prediction. `readingIds` are slot keys. */
export type PlanningError =
  | { readonly code: 'planning/undetermined'; readonly readingIds: readonly string[] }
  /** The recipe cannot give a datum that a station measures from. */
  | { readonly code: 'planning/datumNotGiven'; readonly recipe: RecipeId }
  /** The nominal geometry is none: lengths that are not positive, a face that looks across the car. */
  | { readonly code: 'planning/impossible'; readonly cause: string };

/** What is predicted for one coordinate of one station; mm or radians. */
export interface PredictedCoordinate {
  readonly coordinate: Coordinate;
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  readonly U: number;
  readonly permitted?: PermittedDeviation;
  /** Parts of the variance by reading or known thing, largest first; they add up to 1. */
  readonly shares: readonly ReadingShare[];
}

/** What is predicted for one station. */
export interface PredictedStation {
  readonly station: string;
  readonly coordinates: readonly PredictedCoordinate[];
}

/** A thing that can stand in the way of a tape, a string or a plumb line. */
export type ObstacleName = `tyre.${Wheel}` | 'body' | 'stand';

/** A coordinate of a station. */
export interface PlanTarget {
  readonly station: string;
  readonly coordinate: Coordinate;
}
