/** The surveying adjuster: a network of readings in, estimates with covariance and diagnostics out. */
export { derive, deriveAll } from './derive.ts';
export type {
  AdjustCure,
  AdjustError,
  AdjustErrorCode,
  CovarianceFault,
  Undetermined,
  UndeterminedPart,
} from './errors.ts';
export {
  type Body,
  type BodyPoint,
  type Correlation,
  type Network,
  type NetworkPoint,
  networkSchema,
  type Reading,
  type ReadingKind,
  type ReadingOf,
  type Shared,
  type Side,
} from './network.ts';
export { parseNetwork } from './parseNetwork.ts';
export type {
  AngleKnowledge,
  DeepReadonly,
  Direction,
  LengthKnowledge,
  Line,
  RatioKnowledge,
} from './schemaParts.ts';
export type {
  Contribution,
  Derived,
  DerivedSet,
  Estimates,
  GaugeFreedom,
  GlobalTest,
  RowResult,
  Solution,
  SolveOptions,
  SourceKind,
  Suspicion,
  Unknown,
} from './solution.ts';
export { solve } from './solve.ts';
export { type SolutionSummary, summarise } from './summary.ts';
