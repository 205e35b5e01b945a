/** Typed entries: text to quantity, and the questions a doubtful one raises. */

export { localMsOf, type MomentRefusal, momentMs, momentText, parseMoment } from './moment.ts';
export {
  type Cure,
  type CureKey,
  ENTRY_TEXT_LIMIT,
  type EntryQuestion,
  type EntryRefusal,
  type EntrySpec,
  parseQuantity,
  type QuestionKey,
  type RefusalKey,
  type TypedQuantity,
} from './quantity.ts';
export { type PairReading, questionReading, type ReadingContext } from './question.ts';
export { type CodesRefusal, MOST_CODES, NO_CODES, parseTroubleCodes } from './troubleCodes.ts';
export { type EntryKind, KEPT_UNIT, knownUnits } from './unitSuffixes.ts';
export { type VinScanFault, vinFromScan } from './vinScan.ts';
