// A store as a person would have left it: a script played by the service itself, in this process, before the window opens.

import { localHost } from '../../electron/cli/demo.ts';
import type { DemoScript, DemoStep } from '../../electron/cli/demoScript.ts';
import { callOrThrow, playScript } from '../../electron/cli/playScript.ts';
import { newId } from '../../electron/service/clock.ts';
import { startService } from '../../electron/service/handlers/index.ts';
import { createDispatch } from '../../electron/service/host/dispatch.ts';

/** Plays these steps of a script into a new store with the demo shop. Returns the job's id. */
export async function prepareStore(
  folder: string,
  script: DemoScript,
  steps: readonly DemoStep[] = script.steps,
): Promise<string> {
  const service = await startService(localHost(folder));
  const dispatch = createDispatch(service.handlers, (_trace, name, fault) => {
    throw new Error(`${name}: ${fault instanceof Error ? fault.stack : String(fault)}`);
  });
  try {
    const { shop } = await callOrThrow(dispatch, 'shop.openDemo', { commandId: newId() });
    if (shop === null) throw new Error('the demo shop did not open');
    const nobody = { shown: () => undefined, signed: () => undefined };
    const job = await playScript(dispatch, { ...script, steps: [...steps] }, shop, nobody);
    return job.id;
  } finally {
    await service.close();
  }
}
