/** Instruments that send lines: try a format, connect, disconnect; values and states go to every window. */
import { tryFormat } from '../../../core/instruments/index.ts';
import { ok } from '../../../core/result.ts';
import type { Handlers } from '../host/handlers.ts';
import type { Host } from '../host/host.ts';
import { type InstrumentHub, instrumentHub } from '../instruments/hub.ts';

/** A hub whose news are notices. */
export function noticingHub(notify: Host['notify']): InstrumentHub {
  return instrumentHub({
    onValue: (instrument, news) => notify('instrument.value', { instrument, ...news }),
    onState: (instrument, news) => notify('instrument.state', { instrument, ...news }),
  });
}

/** The handlers of this topic. */
export function instrumentHandlers(
  hub: InstrumentHub,
): Pick<
  Handlers,
  | 'instrument.test'
  | 'instrument.ports'
  | 'instrument.connect'
  | 'instrument.disconnect'
  | 'instrument.states'
> {
  return {
    'instrument.test': ({ format, lines }) => {
      const trial = tryFormat(format, lines);
      return ok({ ...trial, lines: [...trial.lines] });
    },
    'instrument.ports': async () => ok({ ports: [...(await hub.ports())] }),
    'instrument.connect': ({ instrument, source, format }) =>
      ok({ problem: hub.connect(instrument, source, format) ?? null }),
    'instrument.disconnect': ({ instrument }) => {
      hub.disconnect(instrument);
      return ok({});
    },
    'instrument.states': () =>
      ok({ connections: hub.states().map(([instrument, news]) => ({ instrument, ...news })) }),
  };
}
