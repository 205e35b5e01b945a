/** What the parent process tells the service through its environment. */
import { readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { dataFolder } from './dataFolder.ts';
import type { BuildKind, Surroundings } from './host.ts';

const kinds: readonly BuildKind[] = ['release', 'development', 'test build'];

/**
 * Reads `DATUMLINE_DATA` and `DATUMLINE_BUILD`; without them the ordinary folder of this person and a development
 * build, which is what the command line is.
 */
export function surroundingsFrom(env: NodeJS.ProcessEnv): Surroundings {
  const { version }: { version: string } = JSON.parse(
    readFileSync(new URL('../../../package.json', import.meta.url), 'utf8'),
  );
  return {
    dataFolder: dataFolder(env, process.platform, homedir()),
    build: kinds.find((kind) => kind === env.DATUMLINE_BUILD) ?? 'development',
    version,
  };
}
