/**
 * The centreline from marks on the body whose places in the car are known (its maker's body dimensions): the turn and shift
 * that carry the known places best onto those read, by least squares with the full covariance of both. Two marks fix it;
 * more also show whether they fit each other. A bent or repaired body is the risk of this datum: the misfit tells.
 */

import { planFit } from '../geometry/planFit.ts';
import { at, item } from '../linalg/at.ts';
import { choleskyInPlace, packedIndex, packedSize } from '../linalg/cholesky.ts';
import { entry, matrixFromRows } from '../linalg/matrix.ts';
import { leastSquares } from '../linalg/qr.ts';
import { err, ok, type Result } from '../result.ts';
import { chiSquareTail } from '../uncertainty/coverage.ts';
import { propagateJointly } from '../uncertainty/propagate.ts';
import { wrapRad } from '../units.ts';
import type { DatumError, DatumLine } from './datumLine.ts';
import { jointInputs, type KnownPlaces } from './knownPlaces.ts';

/** Where a mark belongs in the car: ahead of and to the left of the datum's origin, mm, with the u of either. */
export interface BodyMark {
  readonly aheadMm: number;
  readonly leftMm: number;
  readonly uMm: number;
}

/** The line, and how well the marks fit their known places. */
export interface BodyMarkDatum {
  readonly line: DatumLine;
  /** Weighted sum of squared misfits, and its degrees of freedom: 1 for two marks (their distance), 2 more for each further. */
  readonly chiSquare: number;
  readonly dof: number;
  /** Probability of a misfit this large or larger when everything is as stated. */
  readonly probability: number;
  /** Each mark's read place minus its fitted one, in the car's ahead and left, mm. */
  readonly misfitMm: readonly { readonly id: string; readonly aheadMm: number; readonly leftMm: number }[];
}

/** Marks closer together than this give no direction, mm. */
const SHORTEST_MM = 100;

/** Rounds of re-linearising: from the plain fit the weighted one is reached in two or three. */
const ROUNDS = 10;

/** The lower Cholesky factor of the marks' covariance, read and known places together; none where a mark is exact. */
function factorOf<Id extends string>(
  read: KnownPlaces<Id>,
  marks: Readonly<Record<Id, BodyMark>>,
): Float64Array | undefined {
  const n = 2 * read.ids.length;
  const packed = new Float64Array(packedSize(n));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) packed[packedIndex(i, j)] = entry(read.covariance, i, j);
    const id = read.ids[i >> 1];
    const own = id === undefined ? 0 : marks[id].uMm;
    packed[packedIndex(i, i)] = entry(read.covariance, i, i) + own * own;
  }
  return choleskyInPlace(packed, n, 1e-14) < 0 ? packed : undefined;
}

/** L^-1 v: what has unit covariance. */
function whitened(factor: Float64Array, v: readonly number[]): number[] {
  const out: number[] = [];
  v.forEach((b, i) => {
    let rest = b;
    for (let k = 0; k < i; k++) rest -= at(factor, packedIndex(i, k)) * item(out, k);
    out.push(rest / at(factor, packedIndex(i, i)));
  });
  return out;
}

/** The centreline of the body, its origin where the marks' own datum has it. */
export function centrelineFromBodyMarks<Id extends string>(
  read: KnownPlaces<Id>,
  marks: Readonly<Record<Id, BodyMark>>,
): Result<BodyMarkDatum, DatumError> {
  const { ids } = read;
  if (ids.length < 2) return err({ code: 'vehicle/tooFewMarks', count: ids.length });
  const known = ids.map((id) => [marks[id].aheadMm, marks[id].leftMm] as const);
  const found = ids.map((id) => [read.places[id].xMm, read.places[id].yMm] as const);
  const reach = Math.max(...known.flatMap((a) => known.map((b) => Math.hypot(a[0] - b[0], a[1] - b[1]))));
  const start = planFit(known, found);
  if (!start.ok || !(reach > SHORTEST_MM)) return err({ code: 'vehicle/marksTooClose' });
  const factor = factorOf(read, marks);
  if (factor === undefined) return err({ code: 'vehicle/marksExact' });
  let [x, y, turn] = [start.value.shift[0], start.value.shift[1], start.value.turnRad];
  let [chiSquare, cofactor] = [0, new Float64Array(9)];
  for (let round = 0; round < ROUNDS; round++) {
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const rows = known.flatMap(([a, l]) => [
      [1, 0, -s * a - c * l],
      [0, 1, c * a - s * l],
    ]);
    const misfit = known.flatMap(([a, l], i) => {
      const [px, py] = found[i] ?? [0, 0];
      return [px - (x + c * a - s * l), py - (y + s * a + c * l)];
    });
    const columns = [0, 1, 2].map((k) =>
      whitened(
        factor,
        rows.map((row) => item(row, k)),
      ),
    );
    const design = matrixFromRows(rows.map((_, i) => columns.map((column) => item(column, i))));
    const fit = leastSquares(design, whitened(factor, misfit));
    if (!fit.ok) return err({ code: 'vehicle/marksTooClose' });
    [x, y, turn] = [x + at(fit.value.x, 0), y + at(fit.value.x, 1), turn + at(fit.value.x, 2)];
    chiSquare = fit.value.residualSquares;
    cofactor = Float64Array.from(fit.value.cofactor);
    if (Math.abs(at(fit.value.x, 2)) * reach < 1e-9) break;
  }
  const dof = 2 * ids.length - 3;
  return ok({
    line: lineFrom(x, y, turn, cofactor, read.dof),
    chiSquare,
    dof,
    probability: chiSquareTail(chiSquare, dof),
    misfitMm: misfitsOf(ids, known, found, x, y, turn),
  });
}

function lineFrom(x: number, y: number, turn: number, cofactor: Float64Array, dof: number): DatumLine {
  const covariance = { rows: 3, columns: 3, data: cofactor };
  const known = jointInputs(['x', 'y', 'heading'], [x, y, turn], covariance, dof);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const joint = propagateJointly(known, {
    heading: (v) => v.heading ?? 0,
    across: (v) => c * ((v.y ?? 0) - y) - s * ((v.x ?? 0) - x),
  });
  const headingRad = wrapRad(turn);
  return {
    source: 'bodyMarks',
    origin: { xMm: x, yMm: y },
    headingRad,
    covariance,
    heading: { ...joint.results.heading, value: headingRad },
    originAcross: joint.results.across,
  };
}

function misfitsOf(
  ids: readonly string[],
  known: readonly (readonly [number, number])[],
  found: readonly (readonly [number, number])[],
  x: number,
  y: number,
  turn: number,
): BodyMarkDatum['misfitMm'] {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return ids.map((id, i) => {
    const [a, l] = known[i] ?? [0, 0];
    const [px, py] = found[i] ?? [0, 0];
    const [dx, dy] = [px - x, py - y];
    return { id, aheadMm: c * dx + s * dy - a, leftMm: c * dy - s * dx - l };
  });
}
