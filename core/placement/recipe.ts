/**
 * The default recipe: the readings that together place a fixture, in walking order, one lap round the car. Hub
 * drops to the floor, each car-side line extended beyond the bumpers, widths and diagonals between the extended
 * points inside the tyres, then four distances to the dropped bar ends, one height and two tilts. Datum and
 * placement need 22 readings with the body face, 21 without. Data only; the models are in `network.ts`.
 */
import { invariant } from '../result.ts';
import type {
  FixturePart,
  InstrumentKind,
  ReadingPurpose,
  ReadingSlot,
  SetUpBody,
  StationRequirement,
  TiltDirection,
  VehiclePoint,
} from './types.ts';

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

/** What a recipe is made for. */
export interface RecipeOptions {
  /** Stations of this stand of the fixture; slides add their readings. */
  readonly stations?: readonly StationRequirement[];
  /** Whether the thrust line is wanted, so that rear toe belongs to the recipe. Taken from `stations` too. */
  readonly thrustLine?: boolean;
  /** Whether the body face is measured from. Taken from `stations` too. */
  readonly bodyFace?: boolean;
}

type Draft = Omit<ReadingSpec, 'purpose' | 'label' | 'proof' | 'optional' | 'decimals'> &
  Partial<Pick<ReadingSpec, 'purpose' | 'label' | 'proof' | 'optional' | 'decimals'>>;

function spec(draft: Draft): ReadingSpec {
  return {
    purpose: 'proof',
    label: `reading.${draft.id}`,
    proof: draft.stage === 'placement' || draft.stage === 'stations',
    optional: false,
    decimals: draft.unit === 'deg' ? 2 : 1,
    ...draft,
  };
}

const floorReading = (at: string, pairId: string, point: ReadingPoint): ReadingSpec =>
  spec({
    id: `floor.${at}`,
    stage: 'bay',
    kind: 'floorHeight',
    unit: 'mm',
    limits: { min: 0, max: 3000 },
    pairId: `floor.${pairId}`,
    dependsOn: ['floor'],
    points: [point],
    instrument: 'level',
  });

const FLOOR: readonly ReadingSpec[] = [
  floorReading('FL', 'FR', 'mark.FL'),
  floorReading('FR', 'FL', 'mark.FR'),
  floorReading('RL', 'RR', 'mark.RL'),
  floorReading('RR', 'RL', 'mark.RR'),
  floorReading('fixtureLeft', 'fixtureRight', 'floor.carLeftEnd'),
  floorReading('fixtureRight', 'fixtureLeft', 'floor.carRightEnd'),
];

const drop = (wheel: 'FL' | 'FR' | 'RL' | 'RR', pair: string): ReadingSpec =>
  spec({
    id: `drop.${wheel}`,
    stage: 'datum',
    kind: 'drop',
    unit: 'mm',
    limits: { min: 200, max: 600 },
    pairId: `drop.${pair}`,
    dependsOn: ['car'],
    points: [`hub.${wheel}`, `mark.${wheel}`],
    instrument: 'plumbBob',
  });

const carDistance = (
  id: string,
  limits: readonly [number, number],
  points: readonly [ReadingPoint, ReadingPoint],
  pairId?: string,
): ReadingSpec =>
  spec({
    id,
    stage: 'datum',
    kind: 'distance',
    unit: 'mm',
    limits: { min: limits[0], max: limits[1] },
    ...(pairId === undefined ? {} : { pairId }),
    dependsOn: ['car'],
    points,
    instrument: 'tape',
  });

const FACE: ReadingSpec = spec({
  id: 'face',
  stage: 'datum',
  kind: 'offset',
  unit: 'mm',
  limits: { min: 0, max: 3000 },
  dependsOn: ['car'],
  points: ['ahead.L', 'ahead.R', 'bodyFace'],
  instrument: 'tape',
  optional: true,
});

/** One lap round the car that starts and ends where the fixture stands: along the car's left, behind, the car's right. */
const DATUM: readonly ReadingSpec[] = [
  drop('FL', 'FR'),
  carDistance('ahead.L', [200, 3000], ['mark.FL', 'ahead.L'], 'ahead.R'),
  carDistance('base.L', [1500, 4500], ['mark.RL', 'mark.FL'], 'base.R'),
  drop('RL', 'RR'),
  carDistance('behind.L', [200, 3000], ['mark.RL', 'behind.L'], 'behind.R'),
  carDistance('width.behind', [1200, 4000], ['behind.L', 'behind.R']),
  carDistance('diagonal.RL', [3000, 11000], ['behind.R', 'ahead.L'], 'diagonal.LR'),
  carDistance('diagonal.LR', [3000, 11000], ['behind.L', 'ahead.R'], 'diagonal.RL'),
  carDistance('behind.R', [200, 3000], ['mark.RR', 'behind.R'], 'behind.L'),
  drop('RR', 'RL'),
  carDistance('base.R', [1500, 4500], ['mark.RR', 'mark.FR'], 'base.L'),
  drop('FR', 'FL'),
  carDistance('ahead.R', [200, 3000], ['mark.FR', 'ahead.R'], 'ahead.L'),
  carDistance('width.ahead', [1200, 4000], ['ahead.L', 'ahead.R']),
  FACE,
];

const toe = (side: 'L' | 'R'): ReadingSpec =>
  spec({
    id: `toe.R${side}`,
    stage: 'datum',
    kind: 'toe',
    unit: 'deg',
    limits: { min: 0, max: 2 },
    pairId: `toe.R${side === 'L' ? 'R' : 'L'}`,
    dependsOn: ['car'],
    points: [`hub.R${side}`],
    instrument: 'alignmentReport',
    optional: true,
    directions: ['toeIn', 'toeOut'],
  });

const barDistance = (
  id: string,
  pairId: string,
  points: readonly [ReadingPoint, ReadingPoint],
): ReadingSpec =>
  spec({
    id,
    stage: 'placement',
    kind: 'distance',
    unit: 'mm',
    limits: { min: 100, max: 10000 },
    pairId,
    dependsOn: ['car', 'fixture'],
    part: 'plan',
    points,
    instrument: 'tape',
  });

const tilt = (id: string, directions: readonly [TiltDirection, TiltDirection]): ReadingSpec =>
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

const targetHeight = (station?: string): ReadingSpec =>
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

/** The car's lines end in points ahead and points behind; the fixture is measured from the pair it stands nearer. */
function placementReadings(near: 'ahead' | 'behind'): readonly ReadingSpec[] {
  const fromLeft: ReadingPoint = near === 'ahead' ? 'ahead.L' : 'behind.L';
  const fromRight: ReadingPoint = near === 'ahead' ? 'ahead.R' : 'behind.R';
  const distances = [
    barDistance('bar.sameL', 'bar.sameR', [fromLeft, 'barEnd.carLeft']),
    barDistance('bar.diagLR', 'bar.diagRL', [fromLeft, 'barEnd.carRight']),
    barDistance('bar.sameR', 'bar.sameL', [fromRight, 'barEnd.carRight']),
    barDistance('bar.diagRL', 'bar.diagLR', [fromRight, 'barEnd.carLeft']),
  ];
  return [
    ...distances.map((each) => (near === 'ahead' ? each : { ...each, label: `reading.behind.${each.id}` })),
    targetHeight(),
    tilt('fixture.pitch', ['towardCar', 'awayFromCar']),
    tilt('fixture.roll', ['carLeftLow', 'carRightLow']),
  ];
}

function slideReadings(station: string): readonly ReadingSpec[] {
  return [
    spec({
      id: 'slide',
      station,
      stage: 'stations',
      kind: 'slide',
      unit: 'mm',
      limits: { min: 0, max: 2000 },
      dependsOn: ['fixture'],
      part: 'slide',
      points: ['barCentre', 'target'],
      instrument: 'rule',
    }),
    targetHeight(station),
  ];
}

function controlReading(near: 'ahead' | 'behind'): ReadingSpec {
  const [first] = placementReadings(near);
  invariant(first?.id === 'bar.sameL', 'the control repeats the first bar distance');
  return {
    ...first,
    stage: 'stations',
    purpose: 'control',
    label: first.label.replace('reading.', 'reading.control.'),
  };
}

/** The pair of extended points a fixture is measured from: behind only for a target that stands behind the car. */
export function nearPoints(stations: readonly StationRequirement[]): 'ahead' | 'behind' {
  const first = stations[0];
  if (first === undefined) return 'ahead';
  if (first.place === 'ahead' || first.place === 'behind') return first.place;
  return first.ahead.from === 'rearAxle' && first.ahead.value < 0 ? 'behind' : 'ahead';
}

/**
 * The readings to take in walking order. A datum that a station measures from makes its optional reading a
 * needed one; every slide station adds its slide and the height again; one control ends the slides.
 */
export function defaultRecipe(options: RecipeOptions = {}): readonly ReadingSpec[] {
  const stations = options.stations ?? [];
  const wantsFace = options.bodyFace ?? stations.some((station) => station.ahead.from === 'bodyFace');
  const wantsThrust =
    options.thrustLine ?? stations.some((s) => s.left.from === 'thrustLine' || s.yaw.from === 'thrustLine');
  const near = nearPoints(stations);
  const slides = stations.filter((station) => station.kind === 'slide');
  const needed = (reading: ReadingSpec): ReadingSpec =>
    (reading.id === 'face' && wantsFace) || (reading.kind === 'toe' && wantsThrust)
      ? { ...reading, optional: false }
      : reading;
  return [
    ...FLOOR,
    ...[...DATUM, toe('L'), toe('R')].map(needed),
    ...placementReadings(near),
    ...slides.flatMap((station) => slideReadings(station.id)),
    ...(slides.length > 0 ? [controlReading(near)] : []),
  ];
}

/** What of the fixture a quantity of the recipe knows; undefined for readings of the floor and the car. */
export function fixturePartOf(quantity: string): FixturePart | undefined {
  if (quantity.startsWith('bar.')) return 'plan';
  if (quantity.startsWith('target.')) return 'height';
  if (quantity.startsWith('fixture.')) return 'tilt';
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
