/** Quantities, coverage, propagation, simulation, uncertainty of readings, and the verdict. */
export {
  type AdaptiveOptions,
  type AdaptiveRun,
  numericalTolerance,
  runAdaptively,
  type TrialSource,
} from './adaptive.ts';
export { type Agreement, linearAgrees } from './agreement.ts';
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
export type { Interval, Summary } from './coverageInterval.ts';
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
  firstDerivative,
  type Limit,
  limitOfDifference,
  secondDerivative,
  thirdDerivative,
} from './differences.ts';
export {
  type Distribution,
  distributionDeviation,
  distributionMean,
  distributionOf,
} from './distribution.ts';
export { fTail, tProbability } from './fDistribution.ts';
export {
  type GlobalRisk,
  gammaPrior,
  globalRisk,
  guardBandForRisk,
  normalPrior,
  type Prior,
} from './globalRisk.ts';
export {
  differenceU,
  distanceMeter,
  type InstrumentUncertainty,
  instrumentU,
  plumbBob,
  type Reversed,
  reversed,
  rotatingLaser,
  ruleInstrument,
  type TiltAfterReversal,
  tapeInstrument,
  tiltAfterReversal,
  tiltInstrument,
} from './instruments.ts';
export {
  type AdaptivelySimulated,
  type JointNormal,
  resultSource,
  type Simulated,
  type SimulationModel,
  simulate,
  simulateAdaptively,
} from './monteCarlo.ts';
export { type OneWay, oneWay, type VarianceLine, varianceLine } from './oneWay.ts';
export {
  type Correlation,
  type ExpandOptions,
  type Inputs,
  type JointBudget,
  type MeasurementModel,
  propagate,
  propagateJointly,
  type Values,
} from './propagate.ts';
export { integral } from './quadrature.ts';
export {
  dofFromDoubt,
  fromResolution,
  type Quantity,
  quantity,
  rectangular,
  triangular,
} from './quantity.ts';
export { GENERATOR, type Random, type RandomState, randomFrom, randomFromState } from './random.ts';
export {
  certificateUncertainty,
  LEAST_POOLED_DOF,
  type ReadingParts,
  readingUncertainty,
  repeatabilityLimit,
  tapeUncertainty,
} from './readingUncertainty.ts';
export {
  conciseStatement,
  type RoundedUncertainty,
  roundUncertainty,
  type Statement,
  statement,
} from './report.ts';
export { jointNormalSampler, sampler, standardNormal } from './sampler.ts';
export { type SecondOrder, type SecondOrderTerm, secondOrder } from './secondOrder.ts';
export { intervalLimitMm, type TapeClass, tapeLimitMm } from './tapeClass.ts';
export {
  outOfLineMm,
  STEEL_EXPANSION_PER_K,
  sagMm,
  TAPE_REFERENCE_C,
  thermalGrowthMm,
} from './tapeCorrections.ts';
export {
  correlationOfReadings,
  doubtOfDeviation,
  lagOneCorrelation,
  mean,
  pooledDeviation,
  standardDeviation,
  typeA,
} from './typeA.ts';
export { arcsine, inexactLimits, trapezoidal } from './typeB.ts';
export { effectiveDof, type WeighedContribution } from './welchSatterthwaite.ts';
export { tFromNormal, ZIGGURAT_GENERATOR, zigguratNormal } from './ziggurat.ts';
