/** `demo`: the demo job without a window, from first entry to a signed and checked PDF. */
import { mkdtempSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { newId } from '../service/clock.ts';
import { startService } from '../service/handlers/index.ts';
import { createDispatch } from '../service/host/dispatch.ts';
import { createFileStore } from '../service/host/fileStore.ts';
import { CERTIFICATE_FOLDER, type Host } from '../service/host/host.ts';
import { surroundingsFrom } from '../service/host/surroundings.ts';
import { printJob } from '../service/printing/printJob.ts';
import { checkLines } from './check.ts';
import type { CommandIo } from './commandIo.ts';
import { placementReport } from './placementReport.ts';
import { callOrThrow, playScript, readScript, ScriptError } from './playScript.ts';

const DEMO_SCRIPT = new URL('../../assets/demo/demo-job.json', import.meta.url);

/** A host in this process, over a folder of its own. */
export function localHost(folder: string): Host {
  const files = createFileStore(join(folder, 'files'), join(folder, CERTIFICATE_FOLDER));
  const surroundings = surroundingsFrom({ ...process.env, DATUMLINE_DATA: folder });
  return { ...surroundings, files, print: printJob, notify: () => undefined };
}

function folderOf(args: readonly string[]): string {
  const at = args.indexOf('--data');
  const given = at < 0 ? undefined : args[at + 1];
  return given === undefined ? mkdtempSync(join(tmpdir(), 'datumline-demo-')) : resolve(given);
}

/** Runs the demo job; prints each placement, then the certificate's path and its check. Exit code 0 when all is yes. */
export async function runDemo(args: readonly string[], io: CommandIo): Promise<number> {
  const folder = folderOf(args);
  await mkdir(folder, { recursive: true });
  const host = localHost(folder);
  const service = await startService(host);
  const dispatch = createDispatch(service.handlers, (traceId, name, fault) =>
    io.error(`${traceId} ${name} ${fault instanceof Error ? fault.stack : String(fault)}`),
  );
  try {
    const script = readScript(DEMO_SCRIPT);
    const { shop } = await callOrThrow(dispatch, 'shop.openDemo', { commandId: newId() });
    if (shop === null) throw new ScriptError('shop.openDemo', 'no shop');
    io.print(`${shop.name}: ${script.title}`);
    let digest = '';
    await playScript(dispatch, script, shop, {
      shown: (job, sensor) => io.print(placementReport(job, sensor).join('\n')),
      signed: (certificate) => {
        io.print(`Certificate ${certificate.number}, edition ${certificate.edition}: ${certificate.kind}`);
        digest = certificate.fileDigest;
      },
    });
    const file = await host.files.locate(digest);
    if (file === undefined) throw new ScriptError('certificate', 'the signed file is not there');
    io.print(`Signed PDF: ${file.path}`);
    const checked = await callOrThrow(dispatch, 'certificate.check', { file: digest });
    io.print(checkLines(checked.lines).join('\n'));
    return checked.exitCode;
  } catch (fault) {
    if (!(fault instanceof ScriptError)) throw fault;
    io.error(fault.message);
    return 1;
  } finally {
    await service.close();
  }
}
