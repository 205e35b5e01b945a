/** What can be wrong with a format, with a line, or with a connection: a key of the catalogue with its values. */
import type { INSTRUMENT_WORDS } from '../words/instruments.ts';

/** Every kind of fault; a closed list, each with its words. */
export type InstrumentFaultKey = keyof typeof INSTRUMENT_WORDS;

/** One fault, with the values of its wording. */
export type InstrumentFault = {
  readonly key: InstrumentFaultKey;
  readonly values: Readonly<Record<string, string>>;
};

/** Makes a fault. */
export function instrumentFault(
  key: InstrumentFaultKey,
  values: Readonly<Record<string, string>> = {},
): InstrumentFault {
  return { key, values };
}
