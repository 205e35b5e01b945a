/**
 * Plain data in and out of placement: the readings and the equipment of one fixture position, and what they
 * prove. Lengths in millimetres, angles in radians, signs by ISO 8855 in the vehicle frame, whose origin here is
 * the foot, on the plane of the tyre contact patches, of the normal through the rear-axle midpoint, and whose X
 * is the centreline (rear-axle midpoint to front-axle midpoint). One input is one stand of the fixture: the
 * station it is placed for, and the slide stations served from the same bar pose.
 */
import type { Coordinate, PointInVehicle, PoseInVehicle, TargetPlace } from '../frames.ts';
import type { PlacementWordKey } from '../words/placement.ts';
import type { BodyKind } from './bodies/readings.ts';
import type { FixtureKinematics } from './kinematics/fixtureKinematics.ts';

/** A wheel of the car: front or rear, car's left or car's right. */
export type Wheel = 'FL' | 'FR' | 'RL' | 'RR';
/** The four wheels in the order they are walked: along the car's left, then the car's right. */
export const WHEELS = ['FL', 'FR', 'RL', 'RR'] as const satisfies readonly Wheel[];

/** A side of the car, seen by its driver. */
export type CarSide = 'carLeft' | 'carRight';

/** A state within which readings belong together. The floor's lasts until ground works. */
export type SetUpBody = 'car' | 'fixture' | 'floor';

/** What of a fixture a reading knows: its place over the floor, its height, its tilts, where its slide is set. */
export type FixturePart = 'plan' | 'height' | 'tilt' | 'slide';
/** The parts in the order they are told. */
export const FIXTURE_PARTS = ['plan', 'height', 'tilt', 'slide'] as const satisfies readonly FixturePart[];

/**
 * The set-ups that hold now. `fixtureSince` says from which set-up on readings of a part still hold, where a move left
 * that part as it was; a part without an entry holds in the present set-up only.
 */
export interface SetUps {
  readonly car: number;
  readonly fixture: number;
  readonly fixtureSince?: Readonly<Partial<Record<FixturePart, number>>>;
}

/** Which way a tilt or toe goes, so that nobody types a minus: the top's lean, the lower end of the bar, toe. */
export type TiltDirection = 'towardCar' | 'awayFromCar' | 'carLeftLow' | 'carRightLow' | 'toeIn' | 'toeOut';

/** Why a reading was taken: proof (enters the solution), control (must agree), guide (helps moving only). */
export type ReadingPurpose = 'proof' | 'control' | 'guide';

/** Names one reading to take: its id in the recipe, the station when it is taken once per station, its purpose. */
export interface ReadingSlot {
  readonly id: string;
  readonly station?: string;
  readonly purpose: ReadingPurpose;
}

/** One recorded reading that is not struck. Several with the same slot are repeats. */
export interface PlacementReading extends ReadingSlot {
  /** Identity of the entry in the journal. */
  readonly ref: string;
  /** Millimetres or radians, never negative; a tilt's way is in `direction`. */
  readonly value: number;
  readonly direction?: TiltDirection;
  /** Id of an instrument in `PlacementEquipment.instruments`; absent means the default of its kind. */
  readonly instrument?: string;
  /** u of the value where that is known beforehand (a height out of a floor survey); absent: as the kind of reading has it. */
  readonly uMm?: number;
  readonly carSetUp: number;
  readonly fixtureSetUp: number;
}

/** What kind of instrument a reading expects. */
export type InstrumentKind = 'tape' | 'plumbBob' | 'level' | 'inclinometer' | 'rule' | 'alignmentReport';

/** A length and its standard uncertainty, mm. */
export interface LengthWithU {
  readonly mm: number;
  readonly uMm: number;
}

/** One instrument as the solver needs it. */
export interface PlacementInstrument {
  readonly id: string;
  readonly kind: InstrumentKind;
  /** EU tape class (Directive 2014/32/EU, Annex X), for tapes without a certificate value. */
  readonly accuracyClass?: 'I' | 'II' | 'III';
  /** Smallest step it shows, mm or radians. */
  readonly resolution: number;
  /** True when the tape starts at its hook, whose own play then counts. */
  readonly hook?: boolean;
}

/** How carefully the work is done: the column of default uncertainties (`defaults.ts`). */
export type WorkClass = 'typical' | 'careful' | 'best';

/** The movable stand with its target, in the fixture frame (origin the bar's centre mark, X out of the face). */
export interface PlacementFixture {
  /** Between the two end marks of the bar, which lie at equal distances from the centre mark. */
  readonly barLength: LengthWithU;
  /** The target's face centre: out of the face, across (to the left of one who looks out of it), up. */
  readonly face: {
    readonly outMm: number;
    readonly acrossMm: number;
    readonly upMm: number;
    readonly uMm: number;
  };
  /** How it moves, where that is known. */
  readonly kinematics?: FixtureKinematics;
}

/** Everything measured with. Side arms carry the plumb line past the tyre: hub centre to line. */
export interface PlacementEquipment {
  readonly work: WorkClass;
  readonly fixture: PlacementFixture;
  readonly sideArms: { readonly left: LengthWithU; readonly right: LengthWithU };
  readonly instruments: readonly PlacementInstrument[];
}

/** Where "ahead" is counted from. */
export type AheadDatum = 'rearAxle' | 'frontAxle' | 'bodyFace';
/** The line that "left" and the turn are counted from. */
export type LineDatum = 'centreline' | 'thrustLine';
/** Where "up" is counted from. */
export type UpDatum = 'contactPlane';
/** The datum of a coordinate. */
export type Datum = AheadDatum | LineDatum | UpDatum;

/** Permitted deviation found minus required; a side without limit is absent. mm or radians. */
export interface PermittedDeviation {
  readonly lower?: number;
  readonly upper?: number;
  /** True when the vehicle maker states it; false for the shop's working limit. */
  readonly stated: boolean;
}

/** One required coordinate with its own datum. mm or radians. */
export interface RequiredCoordinate<D extends Datum> {
  readonly value: number;
  readonly from: D;
  /** Absent: the coordinate is reported without a verdict. */
  readonly permitted?: PermittedDeviation;
}

/** The two coordinates of a station that a circle lies in: seen from above, or seen along the car. */
export type RadialPlane = 'aheadLeft' | 'leftUp';

/** A permitted distance from the required point within a plane, mm: the two coordinates are judged together. */
export interface RadialRequirement {
  readonly plane: RadialPlane;
  readonly radiusMm: number;
  /** True when the vehicle maker states it; false for the shop's working limit. */
  readonly stated: boolean;
}

/**
 * One required target pose. `yaw.value` is the heading of the face's outward normal counted from its line,
 * positive to the car's left: pi for a target ahead that faces the car squarely, 0 for one behind. Pitch and
 * roll are those of the face, normally 0. A coordinate the procedure leaves free is absent, except `ahead`,
 * `left` and `up`, which place the fixture.
 */
export interface StationRequirement {
  readonly id: string;
  readonly kind: 'reposition' | 'slide';
  readonly place: TargetPlace;
  readonly ahead: RequiredCoordinate<AheadDatum>;
  readonly left: RequiredCoordinate<LineDatum>;
  readonly up: RequiredCoordinate<UpDatum>;
  readonly yaw: RequiredCoordinate<LineDatum>;
  readonly pitch: RequiredCoordinate<UpDatum>;
  readonly roll: RequiredCoordinate<UpDatum>;
  /** Coordinates that are not judged at this station. */
  readonly free?: readonly Coordinate[];
  /** A circle about the required point, beside or instead of limits of its coordinates. */
  readonly radial?: RadialRequirement;
}

/** How a deviation is judged: guarded by 1.645 u (default), plain, or guarded by the whole U. */
export type DecisionRuleName = 'guarded' | 'simple' | 'fullU';

/** Everything placement needs to know. Readings of older set-ups may be in it: they are left out by set-up. */
export interface PlacementInput {
  readonly readings: readonly PlacementReading[];
  readonly setUps: SetUps;
  readonly equipment: PlacementEquipment;
  /** The first is of kind `reposition`; slides follow. Empty: only the vehicle is solved. */
  readonly stations: readonly StationRequirement[];
  /** What carries the target; absent: a bar fixture. */
  readonly body?: BodyKind;
  readonly decisionRule: DecisionRuleName;
  /** Height of the front-most body point above the floor, where its plumb line starts. */
  readonly bodyFaceHeight?: LengthWithU;
  /** Where the sensor sits in the vehicle frame, for what a deviation means in its aim. */
  readonly sensor?: { readonly aheadMm: number; readonly leftMm: number; readonly upMm: number };
  /** How that sensor takes its aim; absent: as a camera does. */
  readonly aimSource?: AimSource;
}

/** A value that came out of the adjustment, with what is known of it. mm or radians. */
export interface FoundQuantity {
  readonly value: number;
  readonly u: number;
  readonly dof: number;
}

/** Which readings made an uncertainty: parts of the variance, largest first; they add up to 1. */
export interface ReadingShare {
  /** A reading's id, or a name of what is known beforehand (`fixture.barLength`, `sideArm.left`, `tape.scale`). */
  readonly readingId: string;
  readonly share: number;
}

/** A point found on or about the car. */
export type VehiclePoint =
  | `hub.${Wheel}`
  | `mark.${Wheel}`
  | 'ahead.L'
  | 'ahead.R'
  | 'behind.L'
  | 'behind.R'
  | 'bodyFace'
  | 'barEnd.carLeft'
  | 'barEnd.carRight';

/** The thrust line against the centreline: positive to the car's left (yaw of ISO 8855). */
export interface ThrustLineFound {
  readonly angle: FoundQuantity;
  /** U at about 95 %. */
  readonly expandedRad: number;
  /** True when the angle differs from zero by more than U: alignment comes before placement. */
  readonly differs: boolean;
}

/** The car as it stands. */
export interface VehicleFound {
  readonly points: Readonly<Partial<Record<VehiclePoint, PointInVehicle>>>;
  readonly wheelbase: FoundQuantity;
  readonly trackFront: FoundQuantity;
  readonly trackRear: FoundQuantity;
  /** Slope of the contact plane against gravity, radians: positive rising ahead, and rising to the car's left. */
  readonly slopeAheadRad: number;
  readonly slopeLeftRad: number;
  /** How far each wheel's floor point lies above the common plane, mm: the rock of a warped floor. */
  readonly warpMm: Readonly<Record<Wheel, number>>;
  /** Front-axle midpoint and body face ahead of the rear-axle midpoint, mm. */
  readonly frontAxleAheadMm: number;
  readonly bodyFaceAheadMm?: number;
  /** Absent without rear toe values: a centreline is then all that is known. */
  readonly thrustLine?: ThrustLineFound;
}

/** Six by six, row by row, in the order ahead, left, up, yaw, pitch, roll; mm and radians. */
export type PoseCovariance = readonly (readonly number[])[];

/** The fixture as it stands, in the vehicle frame. */
export interface FixtureFound {
  /** The bar's centre mark and the fixture's attitude. */
  readonly bar: PoseInVehicle;
  /** The target's face centre, slide at zero; rotations in the covariance are small turns about the car's axes. */
  readonly target: PoseInVehicle;
  readonly covariance: PoseCovariance;
  readonly barEnds: { readonly carLeft: PointInVehicle; readonly carRight: PointInVehicle };
}

/** What a deviation means at the sensor and down the road. */
export interface Consequence {
  /** Turn of the sensor's aim that it can cause, radians, never negative. */
  readonly aimRad: number;
  /** The same sideways (or in height) at 50 m, metres. */
  readonly metresAt50: number;
}

/**
 * How a sensor takes its aim from a target. A camera sees where the target is and how it is turned. A radar before a
 * reflector only sees where it is. A radar before a plate or mirror aligns itself to the plate's normal: where the plate
 * stands does not matter, its turn and lean do, by as much.
 */
export type AimSource = 'camera' | 'radarReflector' | 'radarPlate';

/**
 * The aim error a misplaced target leaves, if the sensor believed it. Signed: sideways positive to the car's left, height
 * positive up, as seen along the sensor's way to the target; rad and, at 50 m, metres.
 */
export interface AimError {
  readonly sidewaysRad: number;
  readonly upRad: number;
  readonly sidewaysMetresAt50: number;
  readonly upMetresAt50: number;
}

/** The verdict on one coordinate (worded by core/uncertainty). */
export type VerdictName = 'proven' | 'within' | 'beyond' | 'cannotBeJudged' | 'outside' | 'notJudged';

/** One coordinate at one station. Lengths in mm, rotations in radians; `deviation` is found minus required. */
export interface CoordinateFinding {
  readonly coordinate: Coordinate;
  readonly datum: Datum;
  readonly required: number;
  readonly found: number;
  readonly deviation: number;
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  readonly U: number;
  readonly permitted?: PermittedDeviation;
  readonly verdict: VerdictName;
  /** Probability of conformity; absent when not judged. */
  readonly probability?: number;
  readonly shares: readonly ReadingShare[];
  readonly consequence?: Consequence;
}

/** The distance from a station's required point within a plane, judged with the whole 2 x 2 covariance. mm. */
export interface RadialFinding {
  readonly plane: RadialPlane;
  /** Found minus required along the plane's two coordinates. */
  readonly deviation: readonly [number, number];
  readonly distanceMm: number;
  /** Along the deviation; near the middle, where a distance is not normal, along the error ellipse's longer axis. */
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  readonly U: number;
  readonly radiusMm: number;
  readonly stated: boolean;
  readonly verdict: VerdictName;
  readonly probability?: number;
  readonly shares: readonly ReadingShare[];
}

/** One station: found from its own readings, or expected from the bar pose while its slide is not read yet. */
export interface StationFinding {
  readonly station: string;
  readonly kind: StationRequirement['kind'];
  readonly basis: 'found' | 'expected';
  readonly required: PoseInVehicle;
  readonly target: PoseInVehicle;
  readonly covariance: PoseCovariance;
  readonly coordinates: readonly CoordinateFinding[];
  /** Only where the station permits a circle. */
  readonly radial?: RadialFinding;
  readonly worst: VerdictName;
  /** What all its deviations together mean at the sensor; only where the sensor's place is known. */
  readonly aim?: AimError;
  /** For a slide: the number to set on the slide and the side, which takes off the bar's own side error. */
  readonly slide?: { readonly side: CarSide; readonly setMm: number };
}

/** Kinds of move in the order they are made, so that none undoes one before it. */
export type MoveKind = 'turn' | 'roll' | 'shift' | 'raise' | 'lean' | 'level' | 'setSlide';

/** One instruction to the person at the fixture. */
export interface Move {
  readonly kind: MoveKind;
  /** Key of the whole sentence in the catalogue and the values of its slots, already rounded and worded. */
  readonly wordKey: PlacementWordKey;
  readonly values: Readonly<Record<string, string>>;
  /** How far, at the place that is moved (bar end for a turn, top of the mast for a lean), never negative. */
  readonly amountMm: number;
  /** Turns of the adjuster's screw, where the fixture's data know it. */
  readonly turns?: number;
  /** Past the end of an adjuster: how far, mm. The sentence then says what to do instead. */
  readonly beyondMm?: number;
  /** What it changes in the target's coordinates, found after minus found before; mm and radians. */
  readonly predictedEffect: Readonly<Record<Coordinate, number>>;
  /** Parts of the fixture that the move leaves as they were, so that their readings still hold. */
  readonly keeps?: readonly FixturePart[];
  /** What has to be read again afterwards. */
  readonly thenRead: readonly ReadingSlot[];
}

/** The one line at the top of the screen: one action, at most twelve words. */
export interface NextAction {
  readonly wordKey: PlacementWordKey;
  readonly values: Readonly<Record<string, string>>;
  /** Where the fixture is to be put up next: the id of that stand's station. */
  readonly stand?: string;
}

/** A control against the reading it repeats. */
export interface ControlFinding {
  readonly id: string;
  readonly differenceMm: number;
  /** The largest difference that repeatability explains, mm. */
  readonly limitMm: number;
  readonly agrees: boolean;
}

/** Repeats of one reading that spread more than pooled repeatability explains (limit 2.8 s). */
export interface SpreadFinding {
  readonly id: string;
  readonly spread: number;
  readonly limit: number;
}

/** A reading that does not fit the others; several ids mean "one of these". */
export interface SuspectFinding {
  readonly readingIds: readonly string[];
  /** How far it is off if it is the only one, mm or radians, never negative. */
  readonly estimatedBlunder: number;
  /** The standardised residual, in units of its own standard deviation. */
  readonly standardisedResidual: number;
  /** The one more reading that would tell them apart. */
  readonly separatedBy?: string;
}

/** Do the readings agree with each other as well as their uncertainties say? */
export interface GlobalTestFinding {
  readonly chiSquare: number;
  readonly dof: number;
  readonly limit: number;
  readonly passed: boolean;
}

/** How far the readings carry: nothing yet, the car, the car and the fixture. */
export type PlacementStage = 'nothing' | 'datum' | 'fixture';

/** Everything that follows from the readings so far. */
export interface PlacementAnswer {
  readonly stage: PlacementStage;
  readonly vehicle?: VehicleFound;
  readonly fixture?: FixtureFound;
  readonly stations: readonly StationFinding[];
  readonly worst?: VerdictName;
  /** While the global test fails these are hints: the next action then asks for a reading to be checked first. */
  readonly moves: readonly Move[];
  readonly nextAction: NextAction;
  /** What keeps a part of the answer away, such as a thrust line without rear toe or bar distances that close no triangle. */
  readonly problems: readonly PlacementError[];
  /** The next reading that is missing, in walking order. */
  readonly nextReading?: ReadingSlot;
  readonly missing: readonly ReadingSlot[];
  readonly controls: readonly ControlFinding[];
  readonly spreads: readonly SpreadFinding[];
  readonly suspects: readonly SuspectFinding[];
  /** Absent while nothing is redundant. */
  readonly globalTest?: GlobalTestFinding;
  readonly diagnostics: {
    readonly iterations: number;
    readonly redundancy: number;
    readonly residuals: readonly ResidualFinding[];
  };
}

/** Observed minus computed of one reading, with its standardised value and redundancy number (0 to 1). */
export interface ResidualFinding {
  readonly readingId: string;
  readonly residual: number;
  readonly standardised: number;
  readonly redundancy: number;
}

/** A quantity that readings can leave open. */
export type OpenQuantity = 'vehicle' | 'fixture' | 'thrustLine' | 'bodyFace';

/**
 * Why there is no answer, or why a part of it is missing. `readingIds` are slot keys: those that would determine the
 * quantity, or those that cannot all be right.
 */
export type PlacementError =
  | {
      readonly code: 'placement/undetermined';
      readonly quantity: OpenQuantity;
      readonly readingIds: readonly string[];
    }
  | { readonly code: 'placement/impossible'; readonly readingIds: readonly string[] }
  | { readonly code: 'placement/sideContradicted'; readonly readingIds: readonly string[] }
  | { readonly code: 'placement/directionMissing'; readonly readingIds: readonly string[] }
  | { readonly code: 'placement/notConverged'; readonly iterations: number }
  | { readonly code: 'placement/faceAcrossCar' }
  /** The body's readings do not tell a coordinate that the station judges. */
  | { readonly code: 'placement/bodyLeavesOpen'; readonly coordinates: readonly Coordinate[] }
  | { readonly code: 'placement/firstStationSlides' }
  | { readonly code: 'placement/unsolvable'; readonly cause: string };
