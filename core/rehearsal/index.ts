/** The simulated bay of a rehearsal. */
export { draggedBy, movedAsAsked } from './hand.ts';
export { bumperAhead, type RehearsalState, requiredPose, startState } from './rehearsalBay.ts';
export {
  type RehearsalWork,
  type SimulatedReading,
  shownText,
  simulatedReading,
} from './simulatedReading.ts';
