/**
 * The default recipe: the readings that together place a fixture, in walking order, one lap round the car. Hub
 * drops to the floor, each car-side line extended beyond the bumpers, widths and diagonals between the extended
 * points inside the tyres, then four distances to the dropped bar ends, one height and two tilts. Datum and
 * placement need 22 readings with the body face, 21 without. Data only; the models are in `network.ts`.
 */
import { invariant } from '../result.ts';
import { type BodyKind, bodyReadings } from './bodies/readings.ts';
import { nearPoints, type ReadingPoint, type ReadingSpec, spec, targetHeight } from './recipeSpec.ts';
import type { StationRequirement } from './requirement.ts';

export * from './recipeSpec.ts';

/** What a recipe is made for. */
export interface RecipeOptions {
  /** Stations of this stand of the fixture; slides add their readings. */
  readonly stations?: readonly StationRequirement[];
  /** What carries the target; absent: a bar fixture. */
  readonly body?: BodyKind;
  /** Whether the thrust line is wanted, so that rear toe belongs to the recipe. Taken from `stations` too. */
  readonly thrustLine?: boolean;
  /** Whether the body face is measured from. Taken from `stations` too. */
  readonly bodyFace?: boolean;
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

/** Under a single stand the floor is read at one place, under everything else at two. */
function floorFor(body: BodyKind): readonly ReadingSpec[] {
  if (body !== 'singleStand') return FLOOR;
  const wheels = FLOOR.filter((each) => !each.id.startsWith('floor.fixture'));
  const { pairId: _none, ...under } = floorReading('stand', 'stand', 'target');
  return [...wheels, under];
}

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

function controlReading(near: 'ahead' | 'behind', stations: readonly StationRequirement[]): ReadingSpec {
  const [first] = bodyReadings('bar', near, stations);
  invariant(first?.id === 'bar.sameL', 'the control repeats the first bar distance');
  return {
    ...first,
    stage: 'stations',
    purpose: 'control',
    label: first.label.replace('reading.', 'reading.control.'),
  };
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
  const body = options.body ?? 'bar';
  const near = nearPoints(stations);
  const slides = stations.filter((station) => station.kind === 'slide');
  const needed = (reading: ReadingSpec): ReadingSpec =>
    (reading.id === 'face' && wantsFace) || (reading.kind === 'toe' && wantsThrust)
      ? { ...reading, optional: false }
      : reading;
  return [
    ...floorFor(body),
    ...[...DATUM, toe('L'), toe('R')].map(needed),
    ...bodyReadings(body, near, stations),
    ...slides.flatMap((station) => slideReadings(station.id)),
    ...(slides.length > 0 ? [controlReading(near, stations)] : []),
  ];
}
