/**
 * The answer of the adjuster. Everything a certificate needs of it is plain data; `derive` and `deriveAll`
 * (core/adjust/derive.ts) carry the covariance into any quantity computed from points and poses.
 * Millimetres, radians, bay frame, Z up. u is one standard deviation, a priori: never scaled by the residuals.
 */
import type { PointInBay, PoseInBay } from '../frames.ts';
import type { Result } from '../result.ts';
import type { CorrelatedRows } from './correlation.ts';
import type { AdjustError } from './errors.ts';
import type { Network, ReadingKind } from './network.ts';

/** The numbers a derived quantity may be computed from. An id that is not in the network throws: that is a bug. */
export interface Estimates {
  /** A point of the network, or a point of a body carried into the bay frame by the body's pose. */
  point(id: string): PointInBay;
  body(id: string): PoseInBay;
  /** Value of a shared unknown, mm, rad or a pure number as declared. */
  shared(id: string): number;
}

/** Which number of its owner a coordinate, an angle or a shared unknown is. */
export type SlotComponent = 'x' | 'y' | 'z' | 'yaw' | 'pitch' | 'roll' | 'value';

/**
 * Which number of its owner an unknown is. The turns are those of a body that points steeply up or down, where yaw and
 * roll become one: small turns about the bay's axes from the attitude found (`estimates.body` has it); their value is 0.
 */
export type UnknownComponent = SlotComponent | 'turnX' | 'turnY' | 'turnZ';

/** One unknown of the solution; its place in the list is its row in the covariance. */
export interface Unknown {
  /** `owner/component`, such as `hubFL/x`. */
  readonly id: string;
  /** The point, body, body point (own-frame coordinate) or shared unknown it belongs to. */
  readonly owner: string;
  readonly of: 'point' | 'body' | 'bodyPoint' | 'shared';
  readonly component: UnknownComponent;
  readonly unit: 'mm' | 'rad' | 'ratio';
  readonly value: number;
  readonly u: number;
}

/** Where a row came from: a reading, or something known beforehand with a u, which is observed like a reading. */
export type SourceKind =
  | ReadingKind
  | 'knownCoordinate'
  | 'knownPose'
  | 'bodyPoint'
  | 'shared'
  /** A group of correlated rows: what it puts into a variance cannot be split among its members. */
  | 'correlated';

/** One scalar observation after the adjustment. A drop has two (`along`, `across`), most kinds one (`value`). */
export interface RowResult {
  /** `source/component`, such as `dropFL/across`. */
  readonly id: string;
  /** Id of the reading, or of the thing known beforehand. */
  readonly source: string;
  readonly kind: SourceKind;
  readonly component: string;
  readonly instrument: string | undefined;
  readonly unit: 'mm' | 'rad' | 'ratio';
  readonly observed: number;
  readonly computed: number;
  /** Observed minus computed. */
  readonly residual: number;
  /** Standard uncertainty of the reading; 0 for an exact constraint. */
  readonly u: number;
  /**
   * Share of an error in this reading that shows in its own residual: 0 none (uncontrolled), 1 all. They add up to the
   * degrees of freedom. Of correlated rows, whose errors spread to each other, a single one may lie outside 0..1.
   */
  readonly redundancy: number;
  /**
   * Residual over its own standard deviation; undefined where the reading is not controlled by any other. Of a row
   * correlated with others the test for an error in this row alone, (P v)_i over its standard deviation.
   */
  readonly standardised: number | undefined;
  /** Smallest error in this reading the tests would find (see `testLevels`); undefined where not controlled. */
  readonly minimalDetectable: number | undefined;
}

/** Do the readings agree with their stated uncertainties as a whole? Passed: weighted squares below the limit. */
export interface GlobalTest {
  readonly chiSquare: number;
  readonly dof: number;
  /** Probability of a chi-square at least as large, were all uncertainties right; 1 with no dof. */
  readonly p: number;
  readonly limit: number;
  readonly alpha: number;
  readonly passed: boolean;
}

/** Readings one of which is probably wrong. More than one source: their tests cannot be told apart. */
export interface Suspicion {
  /** The likeliest first. */
  readonly sources: readonly string[];
  readonly rows: readonly string[];
  /** Standardised residual of the first. */
  readonly standardised: number;
  /** What the first reading would be wrong by, in its unit: observed minus right. */
  readonly likelyError: number;
  /** With several: the one whose independent repetition would best tell them apart. */
  readonly repeatToSeparate: string | undefined;
}

/** A motion of the whole layout: shifts along the bay axes, turn about the vertical, tilts about x and y. */
export type GaugeFreedom = 'x' | 'y' | 'z' | 'turn' | 'tiltX' | 'tiltY';

/** How the iteration ended; damping changes the way, never the answer. */
export type StopReason = 'converged' | 'converged after damping';

/** A solved network. */
export interface Solution {
  readonly network: Network;
  readonly estimates: Estimates;
  readonly unknowns: readonly Unknown[];
  /**
   * Full covariance of the unknowns, row by row, `unknowns.length` squared; mixed units mm, rad, ratio. Of a large network
   * it is computed when first read: u, redundancies and tests do not need all of it.
   */
  readonly covariance: Float64Array;
  readonly rows: readonly RowResult[];
  readonly globalTest: GlobalTest;
  /** Empty when nothing is suspected. The engine never drops a suspect by itself. */
  readonly suspicions: readonly Suspicion[];
  /** How the whole layout may still move: no datum was given for these, and the smallest-norm one was taken. */
  readonly gauge: readonly GaugeFreedom[];
  readonly iterations: number;
  readonly stopReason: StopReason;
  /** 1-norm condition of the scaled normal matrix (of a large network a lower bound, nearly always exact); 1e10 and above deserves a warning. */
  readonly condition: number;
  /** What `derive` needs of the linearised problem; nothing else reads it. */
  readonly linearised: Linearised;
}

/**
 * The linearised problem at the solution: sparse rows over the unknowns, in compressed form; correlated rows whitened,
 * so that all rows are independent.
 */
export interface Linearised {
  readonly rowStart: Int32Array;
  readonly column: Int32Array;
  readonly coefficient: Float64Array;
  /** 1 / u^2 of each row; 0 for an exact constraint, which has no variance to hand on. */
  readonly weight: Float64Array;
  /** dof behind each row's u; Infinity when well known. */
  readonly dof: Float64Array;
  /** Rows that were whitened together: one input of a derived quantity. */
  readonly groups: readonly CorrelatedRows[];
  /** Values of the unknowns. */
  readonly x: Float64Array;
  /** Largest coordinate distance of a point from the middle of the layout, mm: the size differences are taken by. */
  readonly reach: number;
  /** How each freedom of `gauge` moves the unknowns, one row of `x.length` per freedom. */
  readonly freeMotions: Float64Array;
  /** Estimates read from another parameter vector, for differences; reports each unknown it reads to `onRead`. */
  readonly estimatesAt: (x: Float64Array, onRead?: (unknown: number) => void) => Estimates;
}

/** What one reading (or known thing) puts into the variance of a derived quantity. */
export interface Contribution {
  /** Id of the reading, of the thing known beforehand, or of the group of correlated rows. */
  readonly source: string;
  readonly kind: SourceKind;
  readonly instrument: string | undefined;
  /** Part of the variance, 0..1; all contributions add up to 1. */
  readonly share: number;
  /** Standard uncertainty it contributes, in the quantity's unit. */
  readonly u: number;
}

/** A quantity computed from the estimates, with its uncertainty. */
export interface Derived {
  readonly value: number;
  /** Standard uncertainty. */
  readonly u: number;
  /** Effective degrees of freedom, Welch-Satterthwaite (JCGM 100 G.4); Infinity when all inputs are well known. */
  readonly dof: number;
  /** Coverage factor for 95.45 % at that dof, and expanded uncertainty U = k u. */
  readonly k: number;
  readonly U: number;
  /** True when the value depends on where the whole layout lies and no datum says so: it is then not a finding. */
  readonly needsDatum: boolean;
  /** The largest first. */
  readonly contributions: readonly Contribution[];
  /** The same summed by kind: { drop: 0.7, distance: 0.25, shared: 0.05 }. */
  readonly shareByKind: Readonly<Partial<Record<SourceKind, number>>>;
}

/** Several quantities derived together, with their joint covariance. */
export interface DerivedSet {
  readonly values: readonly number[];
  /** Row by row, `values.length` squared. */
  readonly covariance: Float64Array;
  readonly quantities: readonly Derived[];
}

/** Signature of `derive` in derive.ts: propagates one function of the estimates. `fn` must be pure. */
export type Derive = (solution: Solution, fn: (estimates: Estimates) => number) => Derived;
/** Signature of `deriveAll` in derive.ts. */
export type DeriveAll = (solution: Solution, fn: (estimates: Estimates) => readonly number[]) => DerivedSet;

/** How to begin and when to give up. */
export interface SolveOptions {
  /** Start from these unknowns where present (`hubFL/x` -> 12.5), such as the last solution's, else construct. */
  readonly start?: ReadonlyMap<string, number>;
  /** Gauss-Newton steps before giving up; 50 when absent. */
  readonly maxIterations?: number;
}

/** Signature of `solve` in solve.ts. Failures are expected outcomes, typed and named. */
export type Solve = (network: Network, options?: SolveOptions) => Result<Solution, AdjustError>;
/** Signature of `parseNetwork` in parseNetwork.ts: the only way in for a document from outside. */
export type ParseNetwork = (document: unknown) => Result<Network, AdjustError>;
