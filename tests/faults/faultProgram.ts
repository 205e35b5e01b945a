/**
 * The frame of a fault program: arguments, batches that can be taken up again after an interruption, and a result file that
 * says what was run, on what, with which seed, and what came out.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cpus, release } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/** The sources that the programs try. */
const SUBJECT = [
  'core/canonical.ts',
  ...['event', 'eventChain', 'ids', 'personal'].map((name) => `core/job/${name}.ts`),
  'electron/service/journal',
];

/** What is counted; a name that starts with `most` keeps the largest, all others add up. */
export type Counts = Readonly<Record<string, number>>;

/** What a batch gives: its counts, and a sentence for everything that was not as it must be. */
export type Outcome = { readonly counts: Counts; readonly problems: readonly string[] };

export type FaultProgram = {
  readonly name: string;
  readonly defaults: { readonly seed: number; readonly count: number };
  /** How many of `count` one batch does. */
  readonly batchSize: number;
  readonly runBatch: (seed: number, count: number) => Promise<Outcome>;
};

export type Asked = { readonly seed?: number | undefined; readonly count?: number | undefined };

type Progress = {
  readonly seed: number;
  readonly count: number;
  readonly subject: string;
  readonly done: number;
  readonly counts: Counts;
  readonly problems: readonly string[];
};

/** Runs a program to its end, going on where an interrupted run with the same seed, count and sources stopped. */
export async function runProgram(program: FaultProgram, asked: Asked): Promise<Outcome> {
  const seed = asked.seed ?? program.defaults.seed;
  const count = asked.count ?? program.defaults.count;
  const subject = subjectDigest();
  const path = join(ROOT, 'tests', 'output', 'faults', `${program.name}.json`);
  let progress = interrupted(path, seed, count, subject) ?? {
    ...{ seed, count, subject, done: 0, counts: {}, problems: [] },
  };
  if (progress.done > 0) console.log(`${program.name}: going on after ${progress.done} of ${count}`);
  while (progress.done < count) {
    const size = Math.min(program.batchSize, count - progress.done);
    const outcome = await program.runBatch(seed + progress.done, size);
    progress = {
      ...progress,
      done: progress.done + size,
      counts: mergedCounts(progress.counts, outcome.counts),
      problems: [...progress.problems, ...outcome.problems],
    };
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, JSON.stringify(progress));
    console.log(`${program.name}: ${progress.done} of ${count}, ${progress.problems.length} problems`);
  }
  rmSync(path, { force: true });
  writeResult(program.name, progress);
  return { counts: progress.counts, problems: progress.problems };
}

export function mergedCounts(a: Counts, b: Counts): Counts {
  const names = new Set([...Object.keys(a), ...Object.keys(b)]);
  return Object.fromEntries(
    [...names].map((name) => {
      const [x, y] = [a[name] ?? 0, b[name] ?? 0];
      return [name, name.startsWith('most') ? Math.max(x, y) : x + y];
    }),
  );
}

function interrupted(path: string, seed: number, count: number, subject: string): Progress | undefined {
  if (!existsSync(path)) return undefined;
  const found: Progress = JSON.parse(readFileSync(path, 'utf8'));
  const same = found.seed === seed && found.count === count && found.subject === subject;
  return same && found.problems.length === 0 ? found : undefined;
}

function writeResult(name: string, { seed, count, subject, counts, problems }: Progress): void {
  const folder = join(ROOT, 'tests', 'results');
  mkdirSync(folder, { recursive: true });
  const result = {
    ...{ name, seed, count, commit: commitNow(), subject, machine: machine() },
    ...{ finishedAt: new Date().toISOString(), counts, problems },
  };
  writeFileSync(join(folder, `${name}.json`), `${JSON.stringify(result, null, 2)}\n`);
}

/** Digest over the sources that the fault programs try: a result is about exactly these. */
export function subjectDigest(): string {
  const hash = createHash('sha256');
  for (const path of SUBJECT.flatMap(filesUnder)) {
    hash.update(`${path}\n`).update(readFileSync(join(ROOT, path)));
  }
  return hash.digest('hex');
}

function filesUnder(path: string): readonly string[] {
  if (statSync(join(ROOT, path)).isFile()) return [path];
  return readdirSync(join(ROOT, path))
    .sort()
    .flatMap((name) => filesUnder(join(path, name)));
}

/** The commit that is checked out, or `unknown` outside a checkout. */
export function commitNow(): string {
  try {
    return execFileSync('git', ['rev-parse', 'HEAD'], { cwd: ROOT, encoding: 'utf8' }).trim();
  } catch {
    return 'unknown';
  }
}

/** What it was measured on. */
export function machine() {
  const [first] = cpus();
  return {
    platform: `${process.platform} ${release()} ${process.arch}`,
    processor: first?.model ?? 'unknown',
    processors: cpus().length,
    node: process.version,
  };
}
