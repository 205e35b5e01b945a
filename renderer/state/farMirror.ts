/**
 * What the distance view shows, handed from the window that is worked in to the one that hangs across the bay. The second
 * window computes nothing and asks the service nothing: it shows what the first one shows, typed digits included.
 */
import type { DistanceRow } from '../ui/DistanceView.tsx';

/** One state of the distance view. */
export interface FarFacts {
  readonly line: string;
  readonly rows: readonly DistanceRow[];
  readonly empty: string;
  /** Said of numbers that are typed and not recorded; empty otherwise. */
  readonly note: string;
}

type Message = { readonly kind: 'facts'; readonly facts: FarFacts } | { readonly kind: 'ask' };

/** Both ends are our own page on our own origin; a message of an older window is still looked at before it is taken. */
function messageOf(data: unknown): Message | undefined {
  if (typeof data !== 'object' || data === null || !('kind' in data)) return undefined;
  if (data.kind === 'ask') return { kind: 'ask' };
  if (data.kind !== 'facts' || !('facts' in data)) return undefined;
  return { kind: 'facts', facts: data.facts as FarFacts };
}

/** The end of the window that is worked in: sends each new state, and the last one to a window that has just opened. */
export function farSender(channel: BroadcastChannel): { send(facts: FarFacts): void; close(): void } {
  let last: FarFacts | undefined;
  channel.onmessage = ({ data }) => {
    if (messageOf(data)?.kind === 'ask' && last !== undefined) {
      channel.postMessage({ kind: 'facts', facts: last } satisfies Message);
    }
  };
  return {
    send(facts) {
      if (last !== undefined && JSON.stringify(last) === JSON.stringify(facts)) return;
      last = facts;
      channel.postMessage({ kind: 'facts', facts } satisfies Message);
    },
    close: () => channel.close(),
  };
}

/** The end of the distance view: asks for the state there is, then follows. Returns the function that stops. */
export function farReceiver(channel: BroadcastChannel, onFacts: (facts: FarFacts) => void): () => void {
  channel.onmessage = ({ data }) => {
    const message = messageOf(data);
    if (message?.kind === 'facts') onFacts(message.facts);
  };
  channel.postMessage({ kind: 'ask' } satisfies Message);
  return () => channel.close();
}

/** Name of the channel, and of the second window: `farName` of the main process. */
export const FAR_CHANNEL = 'datumline-far';

/** Opens the second window, or brings it up again. Where it goes is the main process's business. */
export function openFarWindow(): void {
  window.open('#/far', FAR_CHANNEL);
}
