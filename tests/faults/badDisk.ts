/** Disks that refuse: full, limited, not writable. The trouble must have a name, and nothing recorded may be lost. */
import { spawn, spawnSync } from 'node:child_process';
import { chmodSync, chownSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { newId } from '../../electron/service/clock.ts';
import { openJournal } from '../../electron/service/journal/index.ts';
import { faultContext, faultOptions, lookInto, numberedEntry } from './faultJournal.ts';
import type { FaultProgram, Outcome } from './faultProgram.ts';
import type { TroubleLine } from './untilTrouble.ts';

const WRITER = fileURLToPath(new URL('./untilTrouble.ts', import.meta.url));

/** Nobody: a plain user that root can become, because root may write anywhere. */
const NOBODY = 65_534;

export type Told = {
  readonly answered: readonly string[];
  readonly troubles: readonly string[];
};

/** Runs the writer through `command` (a limiting tool, or nothing) and gives what it said. */
export function tellUntilTrouble(
  command: readonly string[],
  args: readonly string[],
  asNobody = false,
): Told {
  const [program = '', ...rest] = [...command, process.execPath, WRITER, ...args];
  const drop = asNobody && process.getuid?.() === 0 ? { uid: NOBODY, gid: NOBODY } : {};
  const run = spawnSync(program, rest, { encoding: 'utf8', maxBuffer: 2 ** 26, ...drop });
  if (run.error !== undefined) throw new Error(`${program} is needed for this test: ${run.error}`);
  if (run.status !== 0) throw new Error(`the writer broke down (${run.signal ?? run.status}): ${run.stderr}`);
  return toldIn(run.stdout);
}

/** Opens the store again without the limit: all answers there, chains whole, and work goes on. */
export function problemsAfter(folder: string, job: string, told: Told): readonly string[] {
  const opened = openJournal(folder, faultOptions, faultContext());
  if (!opened.ok) return [`cannot be opened: ${JSON.stringify(opened.error)}`];
  const journal = opened.value;
  const lost = told.answered.filter((commandId) => {
    const found = journal.answerTo(commandId);
    return !found.ok || found.value === undefined;
  });
  const next = { job, commandId: newId(), entries: [numberedEntry(999_999, 10)], ctx: faultContext() };
  const goesOn = journal.append(next);
  journal.close();
  return [
    ...lost.map((commandId) => `an answered command is lost: ${commandId}`),
    ...(goesOn.ok ? [] : [`work does not go on: ${goesOn.error.code}`]),
    ...lookInto(folder).problems,
  ];
}

/** A file may not grow beyond `bytes` (util-linux prlimit). */
export function limitedFile(folder: string, job: string, bytes: number): Told {
  return tellUntilTrouble(['prlimit', `--fsize=${bytes}`], [folder, job]);
}

/** A folder for a test that other users can reach. */
export function openFolder(name: string): string {
  const folder = mkdtempSync(join(tmpdir(), name));
  chmodSync(folder, 0o755);
  return folder;
}

/** Gives a store to nobody, then takes the right to write away from file and folder. */
export function makeUnwritable(folder: string): void {
  for (const path of [folder, ...readdirSync(folder).map((name) => join(folder, name))]) {
    if (process.getuid?.() === 0) chownSync(path, NOBODY, NOBODY);
    chmodSync(path, path === folder ? 0o555 : 0o444);
  }
}

/** Makes it writable again. */
export function makeWritable(folder: string): void {
  chmodSync(folder, 0o755);
  for (const name of readdirSync(folder)) chmodSync(join(folder, name), 0o644);
}

/** A real small disk in memory, filled to its last byte. Needs the right to mount: root, or user namespaces. */
async function fullDisk(kib: number): Promise<readonly string[]> {
  const folder = openFolder('datumline-full-');
  const disk = join(folder, 'disk');
  mkdirSync(disk);
  const job = newId();
  const mount = `mount -t tmpfs -o size=${kib}k tmpfs "${disk}"`;
  const writer = `"${process.execPath}" "${WRITER}"`;
  const script = `set -e; ${mount}; ${writer} "${disk}/shop" ${job}; mount -o remount,size=64m "${disk}"; echo; cp -r "${disk}/shop" "${folder}/kept"`;
  const enter = process.getuid?.() === 0 ? ['unshare', '-m'] : ['unshare', '-Urm'];
  try {
    const run = spawnSync(enter[0] ?? '', [...enter.slice(1), 'sh', '-c', script], { encoding: 'utf8' });
    if (run.status !== 0) return [`the full disk could not be set up or broke the writer: ${run.stderr}`];
    const told = toldIn(run.stdout);
    const named = told.troubles.length > 0 && told.troubles.every((each) => each.endsWith(' journal/full'));
    return [
      ...(named ? [] : [`a full disk of ${kib} KiB was called ${told.troubles.join(', ') || 'nothing'}`]),
      ...problemsAfter(join(folder, 'kept'), job, told),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function badDisks(seed: number, count: number): Promise<Outcome> {
  const problems: string[] = [];
  for (let i = 0; i < count; i += 1) {
    const size = 200 + ((seed + i) % 97) * 41;
    problems.push(...(await fullDisk(size)));
    const folder = openFolder('datumline-limit-');
    const job = newId();
    const told = limitedFile(folder, job, size * 1_024);
    if (!told.troubles.some((trouble) => /journal\/(io|full)/.test(trouble))) {
      problems.push(`a limit of ${size} KiB was called ${told.troubles.join(', ') || 'nothing'}`);
    }
    problems.push(...problemsAfter(folder, job, told));
    rmSync(folder, { recursive: true, force: true });
  }
  return { counts: { fullDisks: count, limitedFiles: count }, problems };
}

export const badDiskProgram: FaultProgram = {
  name: 'full-disk',
  defaults: { seed: 300, count: 20 },
  batchSize: 5,
  runBatch: badDisks,
};

/** Two processes that write the same job, started at the same moment; gives what each said. */
export async function twoWriters(folder: string, job: string, commands: number): Promise<readonly Told[]> {
  const writers = [1, commands + 1].map((first) =>
    startWriter([folder, job, String(commands), String(first), '50']),
  );
  await Promise.all(writers.map((writer) => writer.ready));
  for (const writer of writers) writer.go();
  return Promise.all(writers.map((writer) => writer.told));
}

function startWriter(args: readonly string[]) {
  const child = spawn(process.execPath, [WRITER, ...args], { stdio: ['pipe', 'pipe', 'inherit'] });
  let out = '';
  const ready = new Promise<void>((resolve, reject) => {
    child.once('error', reject);
    child.stdout.setEncoding('utf8').on('data', (chunk: string) => {
      out += chunk;
      resolve();
    });
  });
  const told = new Promise<Told>((resolve) => child.once('close', () => resolve(toldIn(out))));
  return { ready, told, go: () => child.stdin.end('go') };
}

function toldIn(out: string): Told {
  const lines: readonly TroubleLine[] = out
    .split('\n')
    .filter((line) => line.startsWith('{'))
    .map((line) => JSON.parse(line));
  return {
    answered: lines.flatMap((line) => ('answered' in line ? [line.answered] : [])),
    troubles: lines.flatMap((line) => ('trouble' in line ? [`${line.at} ${line.trouble}`] : [])),
  };
}

/** What is wrong after two writers have done `commands` each. */
export function problemsAfterTwo(folder: string, told: readonly Told[], commands: number): readonly string[] {
  const { numbers, problems } = lookInto(folder);
  const missing = Array.from({ length: 2 * commands }, (_, n) => n + 1).filter((n) => !numbers.includes(n));
  return [
    ...problems,
    ...told.flatMap(({ troubles }) => troubles.map((trouble) => `a writer had trouble: ${trouble}`)),
    ...missing.map((n) => `entry ${n} is missing`),
    ...(numbers.length === 2 * commands ? [] : [`${2 * commands} entries sent, ${numbers.length} there`]),
  ];
}

/** How often the two took turns: 1 would mean that they ran one after the other. */
export function turns(numbers: readonly unknown[], commands: number): number {
  const sides = numbers.map((n) => Number(n) > commands);
  return sides.filter((side, index) => index > 0 && side !== sides[index - 1]).length;
}

export const twoWritersProgram: FaultProgram = {
  name: 'two-writers',
  defaults: { seed: 1, count: 10 },
  batchSize: 1,
  runBatch: async () => {
    const folder = openFolder('datumline-two-');
    const told = await twoWriters(folder, newId(), 300);
    const taken = turns(lookInto(folder).numbers, 300);
    const problems = problemsAfterTwo(folder, told, 300);
    rmSync(folder, { recursive: true, force: true });
    return { counts: { pairs: 1, entries: 600, turns: taken }, problems };
  },
};
