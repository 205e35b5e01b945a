/** A source of bytes: what a port or an address looks like to whoever reads lines off it. */
import type { InstrumentFault } from '../../../core/instruments/index.ts';

/** What a source tells. After `ended` it tells nothing more. */
export interface SourceEvents {
  readonly opened: () => void;
  readonly bytes: (chunk: Uint8Array) => void;
  /** It could not be opened, or was open and is no more. */
  readonly ended: (fault: InstrumentFault) => void;
}

/** Opens a source once; the answer closes it, after which it tells nothing more. */
export type OpenSource = (events: SourceEvents) => () => void;
