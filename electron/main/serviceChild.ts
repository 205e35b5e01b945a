/** How the service's process is started: the pinned Node, the built file, a log file it can keep writing to. */
import { type ChildProcess, fork } from 'node:child_process';
import { join } from 'node:path';
import type { BuildKind } from '../service/host/host.ts';

export interface ServiceChildParts {
  readonly appFolder: string;
  readonly dataFolder: string;
  readonly build: BuildKind;
  /** An open file: a pipe to a parent that has died would be one more way to die. */
  readonly logFile: number;
}

/** Variables that would change how the child's Node runs. */
const notForTheService = /^(NODE_|ELECTRON_|PLAYWRIGHT_)/;

export function serviceEnvironment(
  env: NodeJS.ProcessEnv,
  { dataFolder, build }: Pick<ServiceChildParts, 'dataFolder' | 'build'>,
): NodeJS.ProcessEnv {
  const kept = Object.entries(env).filter(([name]) => !notForTheService.test(name));
  return { ...Object.fromEntries(kept), DATUMLINE_DATA: dataFolder, DATUMLINE_BUILD: build };
}

export function forkService(parts: ServiceChildParts): ChildProcess {
  const nodeName = process.platform === 'win32' ? 'node.exe' : 'node';
  return fork(join(parts.appFolder, 'electron', 'build', 'service', 'main.mjs'), [], {
    execPath: join(parts.appFolder, 'node_modules', 'node', 'bin', nodeName),
    // Stacks in the log name the source.
    execArgv: ['--enable-source-maps'],
    env: serviceEnvironment(process.env, parts),
    cwd: parts.dataFolder,
    serialization: 'json',
    stdio: ['ignore', parts.logFile, parts.logFile, 'ipc'],
  });
}
