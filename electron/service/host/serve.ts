/** The service as a child process: answers its parent's requests, and ends when the parent ends. */
import { mkdirSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Envelope } from '../../../core/contract/index.ts';
import { err, invariant, ok } from '../../../core/result.ts';
import { print } from '../printing/printer.ts';
import { createDispatch, type Dispatch, newTraceId } from './dispatch.ts';
import { droppedPictureProblem } from './droppedPicture.ts';
import { createFileStore, type FileStore } from './fileStore.ts';
import { CERTIFICATE_FOLDER, type StartService } from './host.ts';
import { surroundingsFrom } from './surroundings.ts';
import type { FromService, Request, ToService } from './wire.ts';

const CLOSE_LIMIT_MS = 5_000;

function send(message: FromService): void {
  // The parent may be gone between the check and the write: then nobody is left to tell.
  if (process.connected) process.send?.(message, undefined, undefined, () => undefined);
}

function log(text: string): void {
  console.error(`${new Date().toISOString()} ${text}`);
}

async function answer(request: Request, dispatch: Dispatch, files: FileStore): Promise<Envelope<unknown>> {
  if (request.kind === 'call') return dispatch.call(request.name, request.inputText, request.traceId);
  const traceId = newTraceId();
  try {
    if (request.kind === 'locateFile') return ok((await files.locate(request.digest)) ?? null);
    const problem = await droppedPictureProblem(request.path);
    if (problem === undefined) return ok(await files.adopt(request.path, request.digest));
    await rm(request.path, { force: true });
    return err({ code: problem, details: {}, traceId });
  } catch (fault) {
    log(`${traceId} ${request.kind} ${fault instanceof Error ? fault.stack : fault}`);
    return err({ code: 'service/fault', details: { name: request.kind }, traceId });
  }
}

/** Runs the service until its parent says close or is gone. */
export async function serve(start: StartService): Promise<void> {
  invariant(process.send !== undefined, 'the service is started by fork');
  const surroundings = surroundingsFrom(process.env);
  mkdirSync(surroundings.dataFolder, { recursive: true });
  const files = createFileStore(
    join(surroundings.dataFolder, 'files'),
    join(surroundings.dataFolder, CERTIFICATE_FOLDER),
  );
  const service = await start({
    ...surroundings,
    files,
    print,
    notify: (name, value) => send({ type: 'notice', name, value }),
  });
  const dispatch = createDispatch(service.handlers, (traceId, name, fault) =>
    log(`${traceId} ${name} ${fault instanceof Error ? fault.stack : fault}`),
  );

  let closing = false;
  const close = async (why: string) => {
    if (closing) return;
    closing = true;
    log(`closing: ${why}`);
    setTimeout(() => process.exit(1), CLOSE_LIMIT_MS).unref();
    await dispatch.settled();
    await service.close();
    process.exit(0);
  };

  process.on('disconnect', () => void close('the parent is gone'));
  process.on('message', (message: ToService) => {
    if (message.type === 'close') return void close('asked to');
    if (closing) return;
    void answer(message.request, dispatch, files).then((envelope) =>
      send({ type: 'answer', id: message.id, envelope }),
    );
  });
  if (!process.connected) return close('the parent is gone');
  log(`ready, process ${process.pid}, Node ${process.versions.node}`);
  send({ type: 'ready' });
}
