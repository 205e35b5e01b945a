/** Instruments that send lines: reading them, trying a format, taking a value. */
export { type InstrumentFault, type InstrumentFaultKey, instrumentFault } from './fault.ts';
export {
  type LineAnswer,
  type LineReader,
  lineReader,
  type StreamedUnit,
  type StreamedValue,
} from './lineReader.ts';
export {
  type LineFormat,
  type LineStream,
  lineFormatSchema,
  lineStreamSchema,
  MOST_LINE,
  MOST_PATTERN,
  portNameSchema,
  type StreamedKind,
  type StreamSource,
  streamedKindSchema,
  streamSourceSchema,
} from './schema.ts';
export { MOST_TAKEN, type RecentValues, recentValues, TAKE_MS, type Take, takeOf } from './take.ts';
export { type Trial, type TriedLine, tryFormat } from './tryFormat.ts';
