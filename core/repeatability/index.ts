/** Crossed repeatability studies: people, set-ups, trials. */
export { type AverageRange, averageRange, type NoConstants } from './averageRange.ts';
export { type Component, type Components, componentsOf } from './components.ts';
export { type CrossedAnova, crossedAnova, POOL_ABOVE, type TestedLine } from './crossedAnova.ts';
export {
  acrossPeople,
  type PooledDeviation,
  pooledStudies,
  repeatabilityPart,
  type ShopRepeatability,
  shopRepeatability,
} from './shopRepeatability.ts';
export { crossedStudy, type Study, type StudyError, type StudyReadings } from './study.ts';
