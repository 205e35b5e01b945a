/**
 * What is read: the wheels and sides it is read at, the set-ups within which readings belong together, and one recorded reading.
 * Millimetres and radians; never a signed number, a tilt's way is named.
 */

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
