/**
 * What the readings say about each station: the required pose, the pose found (or expected on a slide that is not read
 * yet), six deviations against their own datums with u, the readings' shares and a verdict each.
 */
import { deriveAll } from '../adjust/derive.ts';
import type { Contribution, Derived, Estimates, Solution } from '../adjust/solution.ts';
import { COORDINATES, type Coordinate } from '../frames.ts';
import { invariant } from '../result.ts';
import { coverageFactor } from '../uncertainty/coverage.ts';
import { offsetFromLineMm } from '../vehicle/datum.ts';
import { aimErrorOf, consequenceOf } from './consequence.ts';
import type { AimError, CoordinateFinding, RadialFinding, ReadingShare, StationFinding } from './finding.ts';
import { judge, judgeWithinCircle, worstVerdict } from './judge.ts';
import {
  deviations,
  frameOf,
  lineHeadingRad,
  requiredPose,
  type Slid,
  type TargetPose,
  targetAtCentre,
  targetSlid,
  turnBetween,
} from './model.ts';
import { shareName, slideErrorId, slideHeightErrorId } from './names.ts';
import type { PlacementInput } from './placementInput.ts';
import { asPose, covarianceBlock } from './poses.ts';
import type { SlotValues } from './readings.ts';
import type { RadialPlane, StationRequirement } from './requirement.ts';

/** Shares of the variance by what a person knows them as, the largest first. */
export function sharesOf(contributions: readonly Contribution[]): readonly ReadingShare[] {
  const sums = new Map<string, number>();
  for (const { source, share } of contributions) {
    const name = shareName(source);
    sums.set(name, (sums.get(name) ?? 0) + share);
  }
  return [...sums].map(([readingId, share]) => ({ readingId, share })).sort((a, b) => b.share - a.share);
}

/** Which way a slide station lies from the station the bar is placed for: +1 toward the car's left. */
function slideSign(base: StationRequirement, station: StationRequirement): 1 | -1 {
  return station.left.value >= base.left.value ? 1 : -1;
}

/**
 * What the slide must read, toward the car's left: the target then comes where the station wants it sideways, because the
 * bar's own side error is taken off. Sideways grows evenly along the bar, so two places of the slide are enough.
 */
export function requiredSlideMm(
  estimates: Estimates,
  input: PlacementInput,
  station: StationRequirement,
): number {
  const frame = frameOf(estimates);
  const line = lineHeadingRad(estimates, station.left.from);
  const sidewaysAt = (towardCarLeftMm: number): number => {
    const slid = { station: station.id, towardCarLeftMm };
    const { at } = targetSlid(estimates, frame, input.equipment.fixture, station.yaw.value, slid);
    return offsetFromLineMm(at[0], at[1], line);
  };
  const [atZero, atOneMetre] = [sidewaysAt(0), sidewaysAt(1000)];
  return ((station.left.value - atZero) * 1000) / (atOneMetre - atZero);
}

interface StationBasis {
  readonly basis: 'found' | 'expected';
  readonly slid?: Slid;
  readonly slide?: StationFinding['slide'];
}

function basisOf(
  estimates: Estimates,
  input: PlacementInput,
  values: SlotValues,
  station: StationRequirement,
): StationBasis {
  const base = input.stations[0];
  if (station.kind === 'reposition' || base === undefined) return { basis: 'found' };
  const setMm = requiredSlideMm(estimates, input, station);
  const slide = { side: setMm >= 0 ? 'carLeft' : 'carRight', setMm: Math.abs(setMm) } as const;
  const read = values.get(slideErrorId(station.id));
  const height = values.get(slideHeightErrorId(station.id));
  const towardCarLeftMm = read === undefined ? setMm : slideSign(base, station) * read.value;
  const slid: Slid = {
    station: station.id,
    towardCarLeftMm,
    ...(height === undefined ? {} : { heightMm: height.value }),
  };
  return { basis: read !== undefined && height !== undefined ? 'found' : 'expected', slid, slide };
}

function findingOf(
  input: PlacementInput,
  station: StationRequirement,
  coordinate: Coordinate,
  derived: Derived,
  required: TargetPose,
  consistent: boolean,
): CoordinateFinding {
  const requirement = station[coordinate];
  const permitted = station.free?.includes(coordinate) ? undefined : requirement.permitted;
  const { value: deviation, u, dof, k, U } = derived;
  // Pitch and roll are told as deviations about the car's axes, so what is required of them is zero.
  const target = coordinate === 'pitch' || coordinate === 'roll' ? 0 : requirement.value;
  const consequence = consequenceOf(coordinate, deviation, required.at, input.sensor);
  return {
    coordinate,
    datum: requirement.from,
    required: target,
    found: target + deviation,
    deviation,
    u,
    dof,
    k,
    U,
    ...(permitted === undefined ? {} : { permitted }),
    ...judge({ deviation, u, U, permitted, rule: input.decisionRule, consistent }),
    shares: sharesOf(derived.contributions),
    ...(consequence === undefined ? {} : { consequence }),
  };
}

/** Which two of the six coordinates a plane has. */
const PLANE_AXES: Readonly<Record<RadialPlane, readonly [number, number]>> = {
  aheadLeft: [0, 1],
  leftUp: [1, 2],
};

/** The distance within a plane against the circle a station permits; undefined where it permits none. */
function radialOf(
  station: StationRequirement,
  derived: {
    readonly quantities: readonly Derived[];
    readonly values: ArrayLike<number>;
    readonly covariance: Float64Array;
  },
  input: PlacementInput,
  consistent: boolean,
): RadialFinding | undefined {
  const { radial } = station;
  if (radial === undefined) return undefined;
  const { plane, radiusMm, stated } = radial;
  const [i, j] = PLANE_AXES[plane];
  const [first, second] = [derived.quantities[i], derived.quantities[j]];
  invariant(first !== undefined && second !== undefined, 'a station has six derived deviations');
  const size = derived.values.length;
  const shared = derived.covariance[i * size + j] ?? 0;
  const r = first.u * second.u === 0 ? 0 : Math.max(-1, Math.min(1, shared / (first.u * second.u)));
  const found = { x: first.value, y: second.value, uX: first.u, uY: second.u, r };
  const judged = judgeWithinCircle({ found, radiusMm, rule: input.decisionRule, consistent });
  // Two coordinates, one distance: the smaller number of degrees of freedom never understates U.
  const dof = Math.min(first.dof, second.dof);
  const k = coverageFactor(dof);
  return {
    plane,
    deviation: [first.value, second.value],
    distanceMm: Math.hypot(first.value, second.value),
    dof,
    k,
    U: k * judged.u,
    radiusMm,
    stated,
    ...judged,
    shares: sharesOf((first.u >= second.u ? first : second).contributions),
  };
}

/** The station's deviations as one error of aim. A coordinate the station leaves free is not the sensor's matter. */
function aimOf(
  input: PlacementInput,
  coordinates: readonly CoordinateFinding[],
  required: TargetPose,
  free: readonly Coordinate[],
): AimError | undefined {
  const deviation = { ahead: 0, left: 0, up: 0, yaw: 0, pitch: 0, roll: 0 };
  for (const each of coordinates) {
    if (!free.includes(each.coordinate)) deviation[each.coordinate] = each.deviation;
  }
  return aimErrorOf(input.aimSource ?? 'camera', deviation, required.at, input.sensor);
}

/** One station's finding. `consistent` is the global test: where it fails nothing is proven. */
export function stationFinding(
  solution: Solution,
  input: PlacementInput,
  values: SlotValues,
  station: StationRequirement,
  consistent: boolean,
): StationFinding {
  const { estimates } = solution;
  const { basis, slid, slide } = basisOf(estimates, input, values, station);
  const poseAt = (e: Estimates, frame: ReturnType<typeof frameOf>): TargetPose =>
    slid === undefined
      ? targetAtCentre(e, frame)
      : targetSlid(e, frame, input.equipment.fixture, station.yaw.value, slid);
  const frame = frameOf(estimates);
  const target = poseAt(estimates, frame);
  const required = requiredPose(estimates, frame, station);
  const derived = deriveAll(solution, (e) => {
    const frameThere = frameOf(e);
    const there = poseAt(e, frameThere);
    const turn = turnBetween(target.rotation, there.rotation);
    return [
      ...deviations(e, frameThere, there, station),
      ...there.at,
      turn.yawRad,
      turn.pitchRad,
      turn.rollRad,
    ];
  });
  const coordinates = COORDINATES.flatMap((coordinate, i) => {
    const quantity = derived.quantities[i];
    return quantity === undefined
      ? []
      : [findingOf(input, station, coordinate, quantity, required, consistent)];
  });
  const radial = radialOf(station, derived, input, consistent);
  const verdicts = coordinates.map((each) => each.verdict);
  const aim = aimOf(input, coordinates, required, station.free ?? []);
  return {
    station: station.id,
    kind: station.kind,
    basis,
    required: asPose(required),
    target: asPose(target),
    covariance: covarianceBlock(derived.covariance, derived.values.length, 6),
    coordinates,
    ...(radial === undefined ? {} : { radial }),
    worst: worstVerdict(radial === undefined ? verdicts : [...verdicts, radial.verdict]),
    ...(aim === undefined ? {} : { aim }),
    ...(slide === undefined ? {} : { slide }),
  };
}
