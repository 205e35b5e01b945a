/** The real handlers in this process, over a folder of their own that goes when the test ends. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { CallName, Input, Output } from '../../../../core/contract/index.ts';
import type { Shop } from '../../../../core/job/shop.ts';
import { localHost } from '../../../../electron/cli/demo.ts';
import { callOrThrow, playScript, readScript } from '../../../../electron/cli/playScript.ts';
import { newId } from '../../../../electron/service/clock.ts';
import { startService } from '../../../../electron/service/handlers/index.ts';
import { createDispatch, type Dispatch } from '../../../../electron/service/host/dispatch.ts';
import type { Host } from '../../../../electron/service/host/host.ts';

export interface OpenService {
  readonly host: Host;
  readonly dispatch: Dispatch;
  readonly close: () => Promise<void>;
}

/** A folder that is removed when the test ends. */
export function testFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Starts the service over `folder`, in a host changed by `other`. A fault of a handler fails the test. */
export async function openService(folder: string, other: Partial<Host> = {}): Promise<OpenService> {
  const host = { ...localHost(folder), ...other };
  const service = await startService(host);
  let open = true;
  const close = async () => {
    if (open) await service.close();
    open = false;
  };
  onTestFinished(close);
  const dispatch = createDispatch(service.handlers, (_trace, name, fault) => {
    throw new Error(`fault in ${name}: ${fault instanceof Error ? fault.stack : String(fault)}`);
  });
  return { host, dispatch, close };
}

/** The demo shop opened in a running service. */
export async function openDemoShop(service: OpenService): Promise<Shop> {
  const { shop } = await callOrThrow(service.dispatch, 'shop.openDemo', { commandId: newId() });
  if (shop === null) throw new Error('no demo shop');
  return shop;
}

/** Plays a shipped script, wholly or its first steps, and answers the job's id and the certificate if one was signed. */
export async function playDemo(
  service: OpenService,
  shop: Shop,
  name: 'demo-job.json' | 'demo-job-stopped.json',
  steps?: (step: { readonly do: string }) => boolean,
): Promise<{
  readonly job: string;
  readonly seq: number;
  readonly certificate: Output<'certificate.issue'> | undefined;
}> {
  const script = readScript(new URL(`../../../../assets/demo/${name}`, import.meta.url));
  let certificate: Output<'certificate.issue'> | undefined;
  const played = { ...script, steps: steps === undefined ? script.steps : script.steps.filter(steps) };
  const job = await playScript(service.dispatch, played, shop, {
    shown: () => undefined,
    signed: (issued) => {
      certificate = issued;
    },
  });
  return { job: job.id, seq: job.last.seq, certificate };
}

/** The code a call is refused with; `accepted` when it is not refused. */
export async function refusalOf<N extends CallName>(
  dispatch: Dispatch,
  name: N,
  input: Input<N>,
): Promise<string> {
  const envelope = await dispatch.call(name, JSON.stringify(input));
  return envelope.ok ? 'accepted' : envelope.error.code;
}
