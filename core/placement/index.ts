/** Placement: from readings of one stand of the fixture to verdicts and moves. */
export { defaultUncertainties, type WorkUncertainties, workUncertainties } from './defaults.ts';
export * from './equipment.ts';
export * from './finding.ts';
export * from './found.ts';
export * from './instruction.ts';
export { moveValues } from './moves.ts';
export { knownWordKey, shareName } from './names.ts';
export { type PlacementNetwork, placementNetwork } from './network.ts';
export { readingName } from './nextAction.ts';
export * from './placementAnswer.ts';
export * from './placementError.ts';
export * from './placementInput.ts';
export * from './placementReading.ts';
export { servesQuickly } from './quick/ground.ts';
export { quickPlacement, quickSteps } from './quick/quickPlacement.ts';
export type {
  QuickAnswer,
  QuickCoordinate,
  QuickInput,
  QuickMove,
  QuickNext,
  QuickStep,
} from './quick/types.ts';
export * from './readingFinding.ts';
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
export * from './requirement.ts';
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
