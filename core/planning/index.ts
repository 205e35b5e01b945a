/** Planning: what readings will prove before any is taken, which to take next, the fewest that do, and what blocks them. */
export { type Alternative, alternativesFor, whatWouldProve } from './alternatives.ts';
export { planDefaults } from './defaults.ts';
export type { Design } from './design.ts';
export { type Enough, enough } from './enough.ts';
export { type Fewest, fewest, type MostTimes } from './fewest.ts';
export { type Limit, type LimitName, limitName, limitsOf } from './limits.ts';
export { type Blocked, beyondThatPasses, blockedReadings, blockersBetween } from './lineOfSight.ts';
export { type Obstacle, obstaclesOf, tyreSlices } from './obstacles.ts';
export { planDesign, predict } from './predict.ts';
export { type Aim, aimOf, type Proof, type Provable, provable, whatItProves } from './proves.ts';
export { planOfReadings, type RankedReading, type Ranking, rankNext } from './rank.ts';
export { planOnce, RECIPES, recipeById } from './recipes.ts';
export {
  alternativeSentence,
  amountText,
  blockedSentence,
  fewestSentences,
  nextSentence,
  planningErrorSentence,
  planReadingName,
  proofSentence,
  toleranceText,
} from './sentences.ts';
export { blockersOf, partInside, type SightLine } from './sightLine.ts';
export type * from './types.ts';
