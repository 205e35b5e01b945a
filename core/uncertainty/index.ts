/** Quantities, coverage, uncertainty of readings, and the verdict. */
export { type Budget, type BudgetLine, budget } from './budget.ts';
export {
  COVERAGE,
  chiSquareQuantile,
  chiSquareTail,
  coverageFactor,
  normalProbability,
  normalQuantile,
  tQuantile,
} from './coverage.ts';
export {
  type Decision,
  type DecisionRule,
  decide,
  GUARD_FACTOR,
  type NotProvenWording,
  probabilityWithin,
  type Tolerance,
} from './decision.ts';
export {
  dofFromDoubt,
  fromResolution,
  type Quantity,
  quantity,
  rectangular,
  triangular,
} from './quantity.ts';
export {
  certificateUncertainty,
  LEAST_POOLED_DOF,
  type ReadingParts,
  readingUncertainty,
  repeatabilityLimit,
  tapeUncertainty,
} from './readingUncertainty.ts';
export { intervalLimitMm, type TapeClass, tapeLimitMm } from './tapeClass.ts';
export { effectiveDof, type WeighedContribution } from './welchSatterthwaite.ts';
