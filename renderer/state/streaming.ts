/**
 * The window's side of instruments that send lines: which it has connected, and what it hears of them. News come up to
 * sixty times a second and instrument; they are laid down at most once a frame, the newest of each, so that a slow frame
 * never makes the next one late.
 */
import type { Input, Notice, Output } from '../../core/contract/index.ts';
import type { InstrumentFault, LineStream, StreamSource } from '../../core/instruments/index.ts';
import { ok, type Result } from '../../core/result.ts';
import type { CallError, Ports } from './ports.ts';
import { type LiveInstrument, NOTHING_HEARD, withConnection, withLine } from './streams.ts';
import type { WindowStore } from './windowState.ts';

/** Under this name an instrument is listened to while its format is made. */
export const SAMPLE = 'settings.sample';

export interface StreamingActions {
  /** Connects what is not connected in this way yet; what is, stays as it is. */
  readonly connectInstruments: (
    wanted: readonly { readonly instrument: string; readonly stream: LineStream }[],
  ) => Promise<void>;
  /** Disconnects everything this window has connected. */
  readonly disconnectInstruments: () => void;
  /** Listens to a source without reading its lines; answers what is wrong, or null. */
  readonly listenTo: (source: StreamSource) => Promise<InstrumentFault | CallError | null>;
  readonly stopListening: () => void;
  readonly instrumentPorts: () => Promise<readonly string[]>;
  readonly tryFormat: (
    input: Input<'instrument.test'>,
  ) => Promise<Result<Output<'instrument.test'>, CallError>>;
}

export interface Streaming {
  readonly actions: StreamingActions;
  /** Begins to hear. */
  readonly start: () => void;
  /** The service came back: it knows of no connection any more. */
  readonly again: () => void;
}

export function createStreaming(store: WindowStore, ports: Ports): Streaming {
  const { setState } = store;
  const wanted = new Map<string, { readonly text: string; readonly connect: () => Promise<unknown> }>();
  const waiting = new Map<string, { readonly notice: Notice<'instrument.value'>; readonly atMs: number }>();
  let isDue = false;

  const put = (instrument: string, change: (live: LiveInstrument) => LiveInstrument): void =>
    setState((state) => ({
      live: { ...state.live, [instrument]: change(state.live[instrument] ?? NOTHING_HEARD) },
    }));

  const forget = (instrument: string): void => {
    wanted.delete(instrument);
    waiting.delete(instrument);
    setState((state) => ({
      live: Object.fromEntries(Object.entries(state.live).filter(([each]) => each !== instrument)),
    }));
  };

  const layDown = (): void => {
    isDue = false;
    const news = [...waiting];
    waiting.clear();
    setState((state) => {
      const live = { ...state.live };
      for (const [instrument, { notice, atMs }] of news) {
        live[instrument] = withLine(live[instrument] ?? NOTHING_HEARD, notice, atMs);
      }
      return { live };
    });
  };

  const heardLine = (notice: Notice<'instrument.value'>): void => {
    if (!wanted.has(notice.instrument)) return;
    const before = waiting.get(notice.instrument)?.notice;
    // Garbage after a value that is not laid down yet must not hide it.
    const kept =
      notice.value === null && before !== undefined && before.value !== null
        ? { ...notice, value: before.value, take: before.take, line: before.line }
        : notice;
    waiting.set(notice.instrument, { notice: kept, atMs: ports.nowUtcMs() });
    if (isDue) return;
    isDue = true;
    ports.frame(layDown);
  };

  const connect = async (
    instrument: string,
    text: string,
    input: Omit<Input<'instrument.connect'>, 'instrument'>,
  ): Promise<InstrumentFault | CallError | null> => {
    const call = () => ports.call('instrument.connect', { instrument, ...input });
    wanted.set(instrument, { text, connect: call });
    put(instrument, () => NOTHING_HEARD);
    const answer = await call();
    if (!answer.ok) return answer.error;
    const { problem } = answer.value;
    if (problem !== null) put(instrument, (live) => ({ ...live, fault: problem }));
    return problem;
  };

  const disconnect = (instrument: string): void => {
    if (!wanted.has(instrument)) return;
    forget(instrument);
    void ports.call('instrument.disconnect', { instrument });
  };

  return {
    start: () => {
      ports.onNotice('instrument.value', heardLine);
      ports.onNotice('instrument.state', (notice) => {
        if (wanted.has(notice.instrument)) put(notice.instrument, (live) => withConnection(live, notice));
      });
    },
    again: () => {
      for (const { connect: call } of wanted.values()) void call();
    },
    actions: {
      connectInstruments: async (list) => {
        for (const { instrument, stream } of list) {
          const text = JSON.stringify(stream);
          if (wanted.get(instrument)?.text === text) continue;
          await connect(instrument, text, stream);
        }
      },
      disconnectInstruments: () => {
        for (const instrument of [...wanted.keys()]) disconnect(instrument);
      },
      listenTo: (source) => connect(SAMPLE, JSON.stringify(source), { source, format: null }),
      stopListening: () => disconnect(SAMPLE),
      instrumentPorts: async () => {
        const answer = await ports.call('instrument.ports', {});
        return answer.ok ? answer.value.ports : [];
      },
      tryFormat: async (input) => {
        const answer = await ports.call('instrument.test', input);
        return answer.ok ? ok(answer.value) : answer;
      },
    },
  };
}
