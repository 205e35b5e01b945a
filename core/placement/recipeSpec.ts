/** What one reading of a recipe is: the row that window, solver, certificate and tests read. Data and look-ups only. */
import type { InstrumentKind } from './equipment.ts';
import type { VehiclePoint } from './found.ts';
import type {
  FixturePart,
  ReadingPurpose,
  ReadingSlot,
  SetUpBody,
  TiltDirection,
} from './placementReading.ts';
import type { StationRequirement } from './requirement.ts';

/** Where in the job a reading is taken. */
export type ReadingStage = 'bay' | 'datum' | 'placement' | 'stations';

/** What a reading is: which model it enters by. */
export type ReadingKind =
  | 'floorHeight'
  | 'drop'
  | 'distance'
  | 'offset'
  | 'height'
  | 'tilt'
  | 'toe'
  | 'slide';

/** One reading to take. `limits` are plausible values in `unit`; outside them it is questioned, never refused. */
export interface ReadingSpec {
  readonly id: string;
  readonly station?: string;
  readonly purpose: ReadingPurpose;
  readonly stage: ReadingStage;
  readonly kind: ReadingKind;
  /** Key of the label in the catalogue; it needs no values. */
  readonly label: string;
  readonly unit: 'mm' | 'deg';
  readonly decimals: number;
  readonly limits: { readonly min: number; readonly max: number };
  /** The same reading at the other side of the car: a swap of the two is recognised by it. */
  readonly pairId?: string;
  readonly dependsOn: readonly SetUpBody[];
  /** What of the fixture it knows, where it depends on it: a move that leaves that part leaves the reading. */
  readonly part?: FixturePart;
  /** What it joins, for highlighting in the drawing. */
  readonly points: readonly ReadingPoint[];
  readonly instrument: InstrumentKind;
  /** True when the certificate rests on it and it is read blind. */
  readonly proof: boolean;
  /** True when the recipe is whole without it. */
  readonly optional: boolean;
  /** The two ways a tilt can go; the person picks one, the value is never negative. */
  readonly directions?: readonly [TiltDirection, TiltDirection];
}

/** A point a reading touches: of the car, of the floor under the fixture, or of the target. */
export type ReadingPoint = VehiclePoint | 'floor.carLeftEnd' | 'floor.carRightEnd' | 'target' | 'barCentre';

/** A row before its usual values are filled in. */
export type Draft = Omit<ReadingSpec, 'purpose' | 'label' | 'proof' | 'optional' | 'decimals'> &
  Partial<Pick<ReadingSpec, 'purpose' | 'label' | 'proof' | 'optional' | 'decimals'>>;

/** A row with its usual values: proof, named after its id, one decimal for lengths and two for angles. */
export function spec(draft: Draft): ReadingSpec {
  return {
    purpose: 'proof',
    label: `reading.${draft.id}`,
    proof: draft.stage === 'placement' || draft.stage === 'stations',
    optional: false,
    decimals: draft.unit === 'deg' ? 2 : 1,
    ...draft,
  };
}

/** The pair of extended points a fixture is measured from: behind only for a target that stands behind the car. */
export function nearPoints(stations: readonly StationRequirement[]): 'ahead' | 'behind' {
  const first = stations[0];
  if (first === undefined) return 'ahead';
  if (first.place === 'ahead' || first.place === 'behind') return first.place;
  return first.ahead.from === 'rearAxle' && first.ahead.value < 0 ? 'behind' : 'ahead';
}

/** What of the fixture a quantity of the recipe knows; undefined for readings of the floor and the car. */
export function fixturePartOf(quantity: string): FixturePart | undefined {
  if (/^(bar|stand|corner)\./.test(quantity)) return 'plan';
  if (quantity.startsWith('target.')) return 'height';
  if (/^(fixture|plate)\./.test(quantity)) return 'tilt';
  return quantity === 'slide' ? 'slide' : undefined;
}

/** One text for a slot, for maps and lists: `target.height`, `slide@east`, `bar.sameL!control`. */
export function slotKey(slot: ReadingSlot): string {
  const at = slot.station === undefined ? '' : `@${slot.station}`;
  return `${slot.id}${at}${slot.purpose === 'proof' ? '' : `!${slot.purpose}`}`;
}

/** The reading of a recipe that belongs to a slot. */
export function specOf(recipe: readonly ReadingSpec[], slot: ReadingSlot): ReadingSpec | undefined {
  const key = slotKey(slot);
  return recipe.find((reading) => slotKey(reading) === key);
}

/** A tilt of the fixture by inclinometer. */
export const tiltReading = (id: string, directions: readonly [TiltDirection, TiltDirection]): ReadingSpec =>
  spec({
    id,
    stage: 'placement',
    kind: 'tilt',
    unit: 'deg',
    limits: { min: 0, max: 5 },
    dependsOn: ['fixture'],
    part: 'tilt',
    points: ['target'],
    instrument: 'inclinometer',
    directions,
  });

/** The height of the target's centre over the floor, at the placed station or at a slide. */
export const targetHeight = (station?: string): ReadingSpec =>
  spec({
    id: 'target.height',
    ...(station === undefined ? {} : { station }),
    stage: station === undefined ? 'placement' : 'stations',
    kind: 'height',
    unit: 'mm',
    limits: { min: 50, max: 3000 },
    dependsOn: ['fixture'],
    part: 'height',
    points: ['target'],
    instrument: 'tape',
  });
