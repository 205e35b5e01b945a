/** Placement: from readings of one stand of the fixture to verdicts and moves. */
export { defaultUncertainties, type WorkUncertainties } from './defaults.ts';
export { moveValues } from './moves.ts';
export { knownWordKey, shareName } from './names.ts';
export { type PlacementNetwork, placementNetwork } from './network.ts';
export { readingName } from './nextAction.ts';
export { quickPlacement, quickSteps } from './quick/quickPlacement.ts';
export type {
  QuickAnswer,
  QuickCoordinate,
  QuickInput,
  QuickMove,
  QuickNext,
  QuickStep,
} from './quick/types.ts';
export { slotValues } from './readings.ts';
export {
  defaultRecipe,
  type ReadingKind,
  type ReadingPoint,
  type ReadingSpec,
  type ReadingStage,
  slotKey,
  specOf,
} from './recipe.ts';
export {
  fixtureMovedTo,
  heldReadings,
  holds,
  keptByAll,
  missingSlots,
  opensSetUpOf,
  retakeAfter,
  type SetUpEvent,
} from './setups.ts';
export { solvePlacement } from './solvePlacement.ts';
export * from './types.ts';
