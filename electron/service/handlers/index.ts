/** The service's composition root: opens the store and the keys, finishes what was interrupted, gives the handlers. */
import { join } from 'node:path';
import { certificateStore } from '../certificate/issue/certificateStore.ts';
import { systemClock, systemRandom } from '../clock.ts';
import { CERTIFICATE_FOLDER, type StartService } from '../host/host.ts';
import { certificateHandlers, finishInterrupted } from './certificates.ts';
import type { ServiceContext } from './context.ts';
import { instrumentHandlers, noticingHub } from './instruments.ts';
import { jobHandlers } from './jobs.ts';
import { KeyRing } from './keyRing.ts';
import { currentShop, DEMO_PASSPHRASE, shopHandlers } from './shop.ts';
import { openStore } from './store.ts';

export const startService: StartService = async (host) => {
  const clock = systemClock;
  const random = systemRandom;
  const context: ServiceContext = {
    store: openStore(host.dataFolder, clock, random),
    keys: new KeyRing(host.dataFolder, clock, random),
    clock,
    random,
    version: host.version,
    build: host.build,
    files: host.files,
    archive: certificateStore(join(host.dataFolder, CERTIFICATE_FOLDER)),
    print: host.print,
    notify: host.notify,
  };
  // The demo shop's passphrase is no secret: nothing it signs is worth anything.
  if (currentShop(context)?.demo === true) await context.keys.open(DEMO_PASSPHRASE);
  if (context.keys.state() === 'open') await finishInterrupted(context);
  const shop = shopHandlers(context);
  const hub = noticingHub(host.notify);
  return {
    handlers: {
      ...shop,
      ...jobHandlers(context),
      ...certificateHandlers(context),
      ...instrumentHandlers(hub),
      'key.open': async (input, traceId) => {
        const opened = await shop['key.open'](input, traceId);
        if (opened.ok) await finishInterrupted(context);
        return opened;
      },
    },
    close() {
      hub.close();
      context.store.reads?.close();
    },
  };
};
