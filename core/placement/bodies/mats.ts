/**
 * Floor mats for surround cameras. A mat is flat and lies on the floor: two coordinates and a turn are judged. Mats are
 * tied by tape to wheel marks and to each other, so that an error in one tie does not wander from mat to mat; staff heights
 * at its points give its slope and how flat it lies. One network with the car, through the same adjuster. Lengths mm,
 * angles rad, vehicle frame; a mat's own frame has its X ahead when it lies as required with no turn.
 */
import { deriveAll } from '../../adjust/derive.ts';
import type { Body, Network, Reading } from '../../adjust/network.ts';
import type { Derived, Estimates, Solution } from '../../adjust/solution.ts';
import { solve } from '../../adjust/solve.ts';
import { rotationMatrix, yawPitchRoll } from '../../geometry/rotation.ts';
import { err, ok, type Result } from '../../result.ts';
import { wrapRad } from '../../units.ts';
import { pointToVehicle, rotationToVehicle } from '../../vehicle/frame.ts';
import { carPart } from '../carNetwork.ts';
import { globalTestOf, suspectsOf } from '../checks.ts';
import { workUncertainties } from '../defaults.ts';
import type { ReadingShare, VerdictName } from '../finding.ts';
import { judge, worstVerdict } from '../judge.ts';
import { frameOf } from '../model.ts';
import { markId, pointId } from '../names.ts';
import { floorReading } from '../networkPart.ts';
import type { PlacementError } from '../placementError.ts';
import type { PlacementInput } from '../placementInput.ts';
import type { Wheel } from '../placementReading.ts';
import { WHEELS } from '../placementReading.ts';
import type { GlobalTestFinding, SuspectFinding } from '../readingFinding.ts';
import type { SlotValue, SlotValues } from '../readings.ts';
import type { PermittedDeviation } from '../requirement.ts';
import { type CarStarts, carStarts } from '../starts.ts';
import { sharesOf } from '../stations.ts';
import { tapeDistance, tapeUnknowns } from '../tape.ts';

/** One mat: its marked points in its own frame, where its origin must lie and how it must be turned. */
export interface Mat {
  readonly id: string;
  readonly points: readonly {
    readonly id: string;
    readonly xMm: number;
    readonly yMm: number;
    readonly uMm: number;
  }[];
  readonly required: { readonly aheadMm: number; readonly leftMm: number; readonly yawRad: number };
  readonly permitted: Readonly<Partial<Record<MatCoordinate, PermittedDeviation>>>;
  /** How far the floor may lie off a plane under its points, mm; absent: reported only. */
  readonly flatWithinMm?: number;
}

/** The coordinates of a mat that can be judged: it lies on the floor. */
export type MatCoordinate = 'ahead' | 'left' | 'yaw';

/** An end of a tape: the mark of a wheel, or a point of a mat. */
export type MatPlace = { readonly wheel: Wheel } | { readonly mat: string; readonly point: string };

/** One tape to take. */
export interface MatTie {
  readonly from: MatPlace;
  readonly to: MatPlace;
}

/** What is read: tapes by `tieKey`, staff heights by `heightKey`. */
export interface MatsInput {
  readonly car: PlacementInput;
  readonly carValues: SlotValues;
  readonly mats: readonly Mat[];
  readonly ties: readonly (MatTie & { readonly value: SlotValue })[];
  readonly heights: readonly { readonly mat: string; readonly point: string; readonly value: SlotValue }[];
}

/** One coordinate of a mat, found minus required. */
export interface MatFinding {
  readonly coordinate: MatCoordinate;
  readonly deviation: number;
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  readonly U: number;
  readonly shares: readonly ReadingShare[];
  readonly verdict: VerdictName;
  readonly probability?: number;
}

/** A mat as it lies. */
export interface MatFound {
  readonly id: string;
  readonly aheadMm: number;
  readonly leftMm: number;
  readonly yawRad: number;
  readonly coordinates: readonly MatFinding[];
  /** Three by three, row by row, of ahead, left and turn; mm and rad. */
  readonly covariance: readonly (readonly number[])[];
  /** Highest less lowest of its points over the plane through them, mm. */
  readonly flatnessMm: number;
  /** Absent where nothing limits it. */
  readonly flat?: boolean;
  readonly worst: VerdictName;
}

/** All mats, and whether the readings agree with each other. */
export interface MatsAnswer {
  readonly mats: readonly MatFound[];
  readonly globalTest?: GlobalTestFinding;
  /** Readings that do not fit, by `tieKey`, `heightKey` and the car's slot keys. */
  readonly suspects: readonly SuspectFinding[];
  readonly iterations: number;
}

/** Why mats cannot be solved: the car is open, or ties or heights of these mats are missing. */
export type MatsError =
  | PlacementError
  | { readonly code: 'mats/undetermined'; readonly mats: readonly string[] }
  | { readonly code: 'mats/unknownPlace'; readonly places: readonly string[] };

const placeId = (place: MatPlace): string =>
  'wheel' in place ? markId(place.wheel) : `@mat.${place.mat}.${place.point}`;

/** The name of a tie: `mark.FL to left.A`. */
export const tieKey = ({ from, to }: MatTie): string => `mat.${[from, to].map(placeId).join('-')}`;

/** The name of a staff height under a point of a mat. */
export const heightKey = (mat: string, point: string): string => `floor.mat.${mat}.${point}`;

/** Rough plan place of a mat's point in the frame of `carStarts`, as required. */
function roughPlace(mat: Mat, xMm: number, yMm: number, car: CarStarts): readonly [number, number] {
  const [, rightMm] = car.plan['mark.RR'] ?? [0, 0];
  const { aheadMm, leftMm, yawRad } = mat.required;
  const [c, s] = [Math.cos(yawRad), Math.sin(yawRad)];
  return [aheadMm + c * xMm - s * yMm, leftMm + rightMm / 2 + s * xMm + c * yMm];
}

/**
 * The tapes worth taking: from each mat's two farthest points to the two nearest wheel marks, and to the next mat's two
 * farthest points. Each mat then has at least four ties for its three coordinates.
 */
export function matRecipe(
  mats: readonly Mat[],
  wheels: Readonly<Record<Wheel, readonly [number, number]>>,
): readonly MatTie[] {
  const ends = (mat: Mat): readonly MatPlace[] => {
    const pairs = mat.points.flatMap((a, i) => mat.points.slice(i + 1).map((b) => [a, b] as const));
    const apart = ([a, b]: (typeof pairs)[number]): number => Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm);
    const [farthest] = [...pairs].sort((p, q) => apart(q) - apart(p));
    return (farthest ?? []).map((point) => ({ mat: mat.id, point: point.id }));
  };
  const near = ({ required }: Mat): readonly Wheel[] => {
    const far = (wheel: Wheel): number =>
      Math.hypot(wheels[wheel][0] - required.aheadMm, wheels[wheel][1] - required.leftMm);
    return [...WHEELS].sort((a, b) => far(a) - far(b)).slice(0, 2);
  };
  return mats.flatMap((mat, i) => {
    const next = mats[i + 1];
    const toWheels = near(mat).flatMap((wheel) => ends(mat).map((to) => ({ from: { wheel }, to })));
    const toNext =
      next === undefined ? [] : ends(mat).flatMap((from) => ends(next).map((to) => ({ from, to })));
    return [...toWheels, ...toNext];
  });
}

function matBody(mat: Mat, car: CarStarts, floorZMm: number): Body {
  const [x, y] = roughPlace(mat, 0, 0, car);
  return {
    id: `mat.${mat.id}`,
    pose: {
      x: { state: 'free', startMm: x },
      y: { state: 'free', startMm: y },
      z: { state: 'free', startMm: floorZMm },
      yaw: { state: 'free', startRad: mat.required.yawRad },
      pitch: { state: 'free', startRad: 0 },
      roll: { state: 'free', startRad: 0 },
    },
    points: mat.points.map(({ id, xMm, yMm, uMm }) => ({
      id: placeId({ mat: mat.id, point: id }),
      xMm,
      yMm,
      zMm: 0,
      uXMm: uMm,
      uYMm: uMm,
      uZMm: 0,
    })),
  };
}

/** Mats whose three coordinates or whose plane cannot be found from what is read. */
function openMats({ mats, ties, heights }: MatsInput): readonly string[] {
  const of =
    (id: string) =>
    (place: MatPlace): boolean =>
      'mat' in place && place.mat === id;
  return mats
    .filter(({ id }) => {
      const tied = ties.filter(({ from, to }) => of(id)(from) !== of(id)(to)).length;
      return tied < 3 || heights.filter(({ mat }) => mat === id).length < 3;
    })
    .map(({ id }) => id);
}

function unknownPlaces({ mats, ties, heights }: MatsInput): readonly string[] {
  const known = new Set([
    ...WHEELS.map(markId),
    ...mats.flatMap(({ id, points }) => points.map((point) => placeId({ mat: id, point: point.id }))),
  ]);
  const used = [...ties.flatMap(({ from, to }) => [from, to]), ...heights].map((place) => placeId(place));
  return [...new Set(used.filter((id) => !known.has(id)))];
}

function matsNetwork(input: MatsInput, starts: CarStarts): Network {
  const work = workUncertainties(input.car.equipment);
  const car = carPart(input.car, input.carValues, starts);
  const ties: readonly Reading[] = input.ties.map((tie) =>
    tapeDistance(tieKey(tie), tie.value, placeId(tie.from), placeId(tie.to), work),
  );
  const heights: readonly Reading[] = input.heights.map(({ mat, point, value }) =>
    floorReading(heightKey(mat, point), value, placeId({ mat, point })),
  );
  const taped = [
    ...input.ties.map(({ value }) => value),
    ...car.readings.flatMap((each) => (each.kind === 'distance' ? (input.carValues.get(each.id) ?? []) : [])),
  ];
  const { FL, FR, RL, RR } = starts.floorZMm;
  return {
    format: 'datumline-network-1',
    points: car.points,
    bodies: input.mats.map((mat) => matBody(mat, starts, (FL + FR + RL + RR) / 4)),
    shared: [...car.shared, ...tapeUnknowns(taped, work)],
    readings: [...car.readings, ...ties, ...heights],
    sides: car.sides,
  };
}

/** Ahead, left and turn of a mat in the vehicle frame of these estimates. */
function lies(estimates: Estimates, mat: Mat): readonly [number, number, number] {
  const frame = frameOf(estimates);
  const pose = estimates.body(`mat.${mat.id}`);
  const [ahead, left] = pointToVehicle(frame, [pose.xMm, pose.yMm, pose.zMm]);
  const { yawRad } = yawPitchRoll(rotationToVehicle(frame, rotationMatrix(pose)));
  return [ahead, left, yawRad];
}

/** How far the staff heights of a mat's points lie off the plane through them: highest less lowest residual. */
function flatness(solution: Solution, mat: Mat): number {
  const prefix = `floor.mat.${mat.id}.`;
  const off = solution.rows.filter((row) => row.source.startsWith(prefix)).map((row) => row.residual);
  return off.length === 0 ? 0 : Math.max(...off) - Math.min(...off);
}

const MAT_COORDINATES = ['ahead', 'left', 'yaw'] as const satisfies readonly MatCoordinate[];

/** A 3 by 3 block as rows. */
const covarianceRows = (flat: Float64Array): readonly (readonly number[])[] =>
  [0, 3, 6].map((from) => [...flat.subarray(from, from + 3)]);

function matFound(solution: Solution, input: MatsInput, mat: Mat, consistent: boolean): MatFound {
  const { aheadMm, leftMm, yawRad } = mat.required;
  const derived = deriveAll(solution, (e) => {
    const [ahead, left, yaw] = lies(e, mat);
    return [ahead - aheadMm, left - leftMm, wrapRad(yaw - yawRad)];
  });
  const coordinates = MAT_COORDINATES.flatMap((coordinate, i): readonly MatFinding[] => {
    const quantity: Derived | undefined = derived.quantities[i];
    if (quantity === undefined) return [];
    const { value: deviation, u, dof, k, U } = quantity;
    const permitted = mat.permitted[coordinate];
    const judged = judge({ deviation, u, U, permitted, rule: input.car.decisionRule, consistent });
    return [{ coordinate, deviation, u, dof, k, U, shares: sharesOf(quantity.contributions), ...judged }];
  });
  const flatnessMm = flatness(solution, mat);
  const [ahead, left, yaw] = lies(solution.estimates, mat);
  return {
    id: mat.id,
    aheadMm: ahead,
    leftMm: left,
    yawRad: yaw,
    coordinates,
    covariance: covarianceRows(derived.covariance),
    flatnessMm,
    ...(mat.flatWithinMm === undefined ? {} : { flat: flatnessMm <= mat.flatWithinMm }),
    worst: worstVerdict(coordinates.map((each) => each.verdict)),
  };
}

/** Everything that can be read again, by the name its residual has. */
function everyValue({ carValues, ties, heights }: MatsInput): SlotValues {
  return new Map([
    ...carValues,
    ...ties.map((tie) => [tieKey(tie), tie.value] as const),
    ...heights.map(({ mat, point, value }) => [heightKey(mat, point), value] as const),
  ]);
}

/** Where the mats lie, from the car's readings, the ties and the heights. */
export function solveMats(input: MatsInput): Result<MatsAnswer, MatsError> {
  const unknown = unknownPlaces(input);
  if (unknown.length > 0) return err({ code: 'mats/unknownPlace', places: unknown });
  const open = openMats(input);
  if (open.length > 0) return err({ code: 'mats/undetermined', mats: open });
  const starts = carStarts(input.carValues);
  if (!starts.ok) return starts;
  const solved = solve(matsNetwork(input, starts.value), { maxIterations: 25 });
  if (!solved.ok) {
    return err({
      code: 'placement/unsolvable',
      cause: `${solved.error.code}: ${solved.error.ids.join(', ')}`,
    });
  }
  const globalTest = globalTestOf(solved.value);
  const consistent = globalTest?.passed !== false;
  return ok({
    mats: input.mats.map((mat) => matFound(solved.value, input, mat, consistent)),
    ...(globalTest === undefined ? {} : { globalTest }),
    suspects: suspectsOf(solved.value, everyValue(input)),
    iterations: solved.value.iterations,
  });
}

/** The car's rear-axle marks and front marks as a recipe needs them: ahead and left of the rear-axle midpoint, roughly. */
export function roughWheels(
  values: SlotValues,
): Result<Readonly<Record<Wheel, readonly [number, number]>>, PlacementError> {
  const starts = carStarts(values);
  if (!starts.ok) return starts;
  const { plan } = starts.value;
  const [, rightMm] = plan['mark.RR'] ?? [0, 0];
  const at = (wheel: Wheel): readonly [number, number] => {
    const [x, y] = plan[pointId(`mark.${wheel}`).slice(1)] ?? [0, 0];
    return [x, y - rightMm / 2];
  };
  return ok({ FL: at('FL'), FR: at('FR'), RL: at('RL'), RR: at('RR') });
}
