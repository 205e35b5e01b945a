/**
 * What quick placement stands on: the car as it was measured, held still, and what a proof set would find there. Looks and
 * proof set are read against the same marks and lines, so what is wrong with those is common to both and moves nothing:
 * a look is told against the car as found, and only the proof set's guard band counts the car's own uncertainty.
 */
import type { NetworkPoint, Shared } from '../../adjust/network.ts';
import type { Estimates } from '../../adjust/solution.ts';
import { solve } from '../../adjust/solve.ts';
import { COORDINATES, type Coordinate } from '../../frames.ts';
import { err, ok, type Result } from '../../result.ts';
import { decide } from '../../uncertainty/decision.ts';
import { facingYawRad, looksAlongCar } from '../facing.ts';
import type { CoordinateFinding } from '../finding.ts';
import type { PoseCovariance } from '../found.ts';
import { bayPoint, frameOf, requiredPose, type TargetPose } from '../model.ts';
import { pointId } from '../names.ts';
import { placementNetwork } from '../network.ts';
import type { PlacementError } from '../placementError.ts';
import type { PlacementInput } from '../placementInput.ts';
import { type SlotValues, slotValues } from '../readings.ts';
import { defaultRecipe, type ReadingSpec } from '../recipe.ts';
import { fixturePartOf, nearPoints } from '../recipeSpec.ts';
import type { StationRequirement } from '../requirement.ts';
import { heldReadings } from '../setups.ts';
import { solvePlacement } from '../solvePlacement.ts';
import { readAll, uncorrelated } from './belief.ts';
import { expectedValue, linearReading, type Measured, QUICK_READINGS, readingOf } from './expected.ts';

/** What of a coordinate's tolerance is left for the hands: the deviations to bring it within. */
export interface Room {
  readonly coordinate: Coordinate;
  /**
   * What a proof set would prove by the job's rule, and never more than by the guarded one: a rule without a guard band
   * proves little by itself. The middle half of the tolerance where the guard band leaves nothing.
   */
  readonly lower: number;
  readonly upper: number;
}

/** Everything about one car and one stand of the fixture that no look changes. */
export interface QuickGround extends Measured {
  readonly input: PlacementInput;
  readonly station: StationRequirement;
  readonly recipe: readonly ReadingSpec[];
  readonly car: Estimates;
  readonly required: TargetPose;
  /** The car's points and shared unknowns, all held; those far from the fixture give the layout its size. */
  readonly heldPoints: readonly NetworkPoint[];
  readonly heldShared: readonly Shared[];
  readonly rooms: readonly Room[];
  /** Covariance of the target in a proof set, the car held still. */
  readonly proofCovariance: PoseCovariance;
}

/** Whether quick placement serves this stand: a bar that looks along the car, put up for its own station. */
export function servesQuickly({ body = 'bar', stations }: PlacementInput): boolean {
  return body === 'bar' && stations[0]?.kind === 'reposition' && looksAlongCar(facingYawRad(stations));
}

const open = (readingIds: readonly string[]): PlacementError => ({
  code: 'placement/undetermined',
  quantity: 'vehicle',
  readingIds,
});

/** Datums the station wants that the readings do not give. */
function opensDatum(station: StationRequirement, values: SlotValues): readonly string[] {
  const thrust = station.left.from === 'thrustLine' || station.yaw.from === 'thrustLine';
  const wanted = [
    ...(thrust ? ['toe.RL', 'toe.RR'] : []),
    ...(station.ahead.from === 'bodyFace' ? ['face'] : []),
    'floor.fixtureLeft',
    'floor.fixtureRight',
  ];
  return wanted.filter((id) => !values.has(id));
}

/** The ground, once the car is measured. Fails with what the car still lacks. */
export function quickGround(input: PlacementInput): Result<QuickGround, PlacementError> {
  const [station] = input.stations;
  if (station === undefined) return err(open([]));
  const recipe = defaultRecipe(input);
  const held = heldReadings(recipe, input).filter(({ id }) => fixturePartOf(id) === undefined);
  const values = slotValues(held, input);
  const lacking = opensDatum(station, values);
  if (lacking.length > 0) return err(open(lacking));
  const built = placementNetwork(input, values);
  if (!built.ok) return built;
  const solved = solve(built.value.network);
  if (!solved.ok) return err(open(solved.error.ids));
  const { estimates, network } = solved.value;
  const frame = frameOf(estimates);
  const required = requiredPose(estimates, frame, station);
  const near = nearPoints(input.stations);
  const floorZ = (id: string): number => -(values.get(id)?.value ?? 0);
  const measured: Measured = {
    frame,
    near: {
      L: bayPoint(estimates, pointId(`${near}.L`)),
      R: bayPoint(estimates, pointId(`${near}.R`)),
    },
    floorZMm: { carLeft: floorZ('floor.fixtureLeft'), carRight: floorZ('floor.fixtureRight') },
    fixture: input.equipment.fixture,
    work: input.equipment.work,
    yawRad: facingYawRad(input.stations),
  };
  const proof = proofAt(input, held, measured, required);
  return proof.ok
    ? ok({
        ...measured,
        input: { ...input, readings: held },
        station,
        recipe,
        car: estimates,
        required,
        heldPoints: network.points.map((point) => heldPoint(estimates, point.id)),
        heldShared: network.shared.map((shared) => heldUnknown(estimates, shared)),
        rooms: roomsOf(proof.value, station, input),
        proofCovariance: proofCovariance(measured, required),
      })
    : proof;
}

function heldPoint(estimates: Estimates, id: string): NetworkPoint {
  const [x, y, z] = bayPoint(estimates, id);
  return {
    id,
    x: { state: 'fixed', valueMm: x },
    y: { state: 'fixed', valueMm: y },
    z: { state: 'fixed', valueMm: z },
  };
}

function heldUnknown(estimates: Estimates, shared: Shared): Shared {
  const value = estimates.shared(shared.id);
  switch (shared.quantity) {
    case 'length':
      return { ...shared, is: { state: 'fixed', valueMm: value } };
    case 'angle':
      return { ...shared, is: { state: 'fixed', valueRad: value } };
    case 'ratio':
      return { ...shared, is: { state: 'fixed', value } };
  }
}

/** What a whole proof set would find of a target that stands where it must, with this car. */
function proofAt(
  input: PlacementInput,
  held: PlacementInput['readings'],
  measured: Measured,
  required: TargetPose,
): Result<readonly CoordinateFinding[], PlacementError> {
  const fixture = QUICK_READINGS.map((id) =>
    readingOf(id, expectedValue(measured, required, id), input.setUps, measured.yawRad),
  );
  const answer = solvePlacement({ ...input, readings: [...held, ...fixture] });
  if (!answer.ok) return answer;
  const [found] = answer.value.stations;
  const [problem = open([])] = answer.value.problems;
  return found === undefined ? err(problem) : ok(found.coordinates);
}

/** Six standard deviations that say nothing, beside any look or proof set. */
const NOTHING_KNOWN = [1e4, 1e4, 1e4, 1, 1, 1] as const;

function proofCovariance(measured: Measured, required: TargetPose): PoseCovariance {
  const readings = QUICK_READINGS.map((id) => linearReading(measured, required, id));
  return readAll(uncorrelated(NOTHING_KNOWN), readings);
}

/** A circle's radius as limits of its two coordinates: the square within it. */
function radialLimit({ radial }: StationRequirement, coordinate: Coordinate): number | undefined {
  const planes = { aheadLeft: ['ahead', 'left'], leftUp: ['left', 'up'] } as const;
  const within = radial !== undefined && planes[radial.plane].some((each) => each === coordinate);
  return radial !== undefined && within ? radial.radiusMm * Math.SQRT1_2 : undefined;
}

/** Of two limits; a single one cannot be narrower than its guard band, and never comes here. */
const middleHalf = (lower: number, upper: number): Pick<Room, 'lower' | 'upper'> => ({
  lower: (3 * lower + upper) / 4,
  upper: (lower + 3 * upper) / 4,
});

function roomsOf(
  findings: readonly CoordinateFinding[],
  station: StationRequirement,
  { decisionRule }: PlacementInput,
): readonly Room[] {
  return COORDINATES.flatMap((coordinate): readonly Room[] => {
    const finding = findings.find((each) => each.coordinate === coordinate);
    const radial = radialLimit(station, coordinate);
    if (finding === undefined || (finding.permitted === undefined && radial === undefined)) return [];
    const circle = radial ?? Number.POSITIVE_INFINITY;
    const lower = Math.max(finding.permitted?.lower ?? Number.NEGATIVE_INFINITY, -circle);
    const upper = Math.min(finding.permitted?.upper ?? Number.POSITIVE_INFINITY, circle);
    const limits = {
      ...(Number.isFinite(lower) ? { lower } : {}),
      ...(Number.isFinite(upper) ? { upper } : {}),
    };
    const guards = ([decisionRule, 'guarded'] as const).map(
      (rule) => decide(0, finding.u, limits, rule, finding.U).guard,
    );
    const guard = Math.max(...guards);
    const room = { coordinate, lower: lower + guard, upper: upper - guard };
    return [room.upper > room.lower ? room : { coordinate, ...middleHalf(lower, upper) }];
  });
}
