/** The messages between main process and service: JSON values over the fork's channel. */
import type { Envelope } from '../../../core/contract/index.ts';

/** Main to service. Inputs travel as text: measured once, parsed once. */
export type Request =
  | { readonly kind: 'call'; readonly name: string; readonly inputText: string; readonly traceId: string }
  | { readonly kind: 'locateFile'; readonly digest: string }
  | { readonly kind: 'adoptFile'; readonly path: string; readonly digest: string };

export type ToService =
  | { readonly type: 'request'; readonly id: number; readonly request: Request }
  | { readonly type: 'close' };

export type FromService =
  | { readonly type: 'ready' }
  | { readonly type: 'answer'; readonly id: number; readonly envelope: Envelope<unknown> }
  | { readonly type: 'notice'; readonly name: string; readonly value: unknown };

/** Where a stored file is and what it is served as. */
export interface LocatedFile {
  readonly path: string;
  readonly mediaType: string;
}
