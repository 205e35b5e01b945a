/** A solution as plain data: what the command line prints as JSON, and a certificate may keep. */
import { at } from '../linalg/at.ts';
import type { GlobalTest, RowResult, Solution, Suspicion, Unknown } from './solution.ts';

/** One unknown or row with everything undefined left out, so that it survives JSON unchanged. */
export interface SolutionSummary {
  readonly format: 'datumline-solution-1';
  readonly title?: string;
  readonly iterations: number;
  readonly stopReason: string;
  readonly condition: number;
  readonly freedoms: readonly string[];
  readonly globalTest: GlobalTest;
  readonly suspicions: readonly Suspicion[];
  readonly unknowns: readonly Unknown[];
  /** Where every body stands, mm, and how it is turned, radians, in the bay frame. */
  readonly bodies: readonly BodySummary[];
  /** Full covariance in the order of the unknowns, row by row. */
  readonly covariance: readonly (readonly number[])[];
  readonly rows: readonly RowResult[];
}

/** The pose of one body: R = Rz(yaw) Ry(pitch) Rx(roll). */
export interface BodySummary {
  readonly id: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly zMm: number;
  readonly yawRad: number;
  readonly pitchRad: number;
  readonly rollRad: number;
}

/** Plain data of a solution; numbers are not rounded. */
export function summarise(solution: Solution): SolutionSummary {
  const n = solution.unknowns.length;
  return {
    format: 'datumline-solution-1',
    ...(solution.network.title === undefined ? {} : { title: solution.network.title }),
    iterations: solution.iterations,
    stopReason: solution.stopReason,
    condition: solution.condition,
    freedoms: solution.gauge,
    globalTest: solution.globalTest,
    suspicions: solution.suspicions,
    unknowns: solution.unknowns,
    bodies: solution.network.bodies.map(({ id }) => ({ id, ...solution.estimates.body(id) })),
    covariance: Array.from({ length: n }, (_, i) =>
      Array.from({ length: n }, (_unused, j) => at(solution.covariance, i * n + j)),
    ),
    rows: solution.rows,
  };
}
