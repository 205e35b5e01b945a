/**
 * Cuts the power at random points of a recorded run: the disk then holds what had been flushed, and of the rest whatever chance
 * leaves. Everything that had been answered before the cut must be there, and the chains whole.
 */
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Durability } from '../../electron/service/journal/connection.ts';
import { type Journal, openJournal, STORE_FILE } from '../../electron/service/journal/index.ts';
import { type FaultRow, faultContext, faultOptions } from './faultJournal.ts';
import { type FaultProgram, mergedCounts, type Outcome } from './faultProgram.ts';
import { type CutKind, type DiskImage, modelDisk } from './modelDisk.ts';
import type { Said } from './recordedRun.ts';
import { seededRandom } from './seededRandom.ts';
import { type DiskCall, recordCalls } from './systemCalls.ts';

/** Images are only read back: where the system has a folder in memory they go there. */
const IN_MEMORY = existsSync('/dev/shm') ? '/dev/shm' : tmpdir();

const KINDS: readonly CutKind[] = ['flushedOnly', 'someWrites', 'someSectors'];

/** Records one run of the journal with the given durability. */
export function recordRun(durability: Durability): readonly DiskCall[] {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-power-'));
  const store = join(folder, 'store');
  mkdirSync(store);
  try {
    const run = fileURLToPath(new URL('./recordedRun.ts', import.meta.url));
    return recordCalls([run, store, durability], store, join(folder, 'calls.txt'));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What a recording contains, to show that it is worth cutting. */
export function recordingCounts(calls: readonly DiskCall[]) {
  const database = calls.filter((call) => call.kind === 'write' && call.name === STORE_FILE);
  return {
    calls: calls.length,
    answers: calls.filter((call) => call.kind === 'say').length,
    flushes: calls.filter((call) => call.kind === 'flush').length,
    databaseWrites: database.length,
    logsMade: calls.filter((call) => call.kind === 'make' && call.name === `${STORE_FILE}-wal`).length,
  };
}

/** Cuts a recording at `cuts` random points, each in three ways, and opens what is left. */
export function cutPower(calls: readonly DiskCall[], seed: number, cuts: number): Outcome {
  const random = seededRandom(seed);
  const points = Array.from({ length: cuts }, () => random.whole(1, calls.length)).sort((a, b) => a - b);
  const disk = modelDisk();
  const said: Said[] = [];
  let taken = 0;
  let outcome: Outcome = { counts: { cuts }, problems: [] };
  for (const point of points) {
    for (const call of calls.slice(taken, point)) {
      disk.take(call);
      if (call.kind === 'say') said.push(JSON.parse(call.text));
    }
    taken = point;
    for (const kind of KINDS) {
      const problems = problemsOf(disk.cut(kind, random), said);
      outcome = {
        counts: mergedCounts(outcome.counts, {
          ...{ images: 1, answersLooked: said.length },
          ...{ badImages: problems.length > 0 ? 1 : 0 },
        }),
        problems: [
          ...outcome.problems,
          ...problems.map((problem) => `seed ${seed}, call ${point}, ${kind}: ${problem}`),
        ],
      };
    }
  }
  return outcome;
}

/** Puts an image into a folder, opens it as the program would after the power came back, and compares. */
function problemsOf(image: DiskImage, said: readonly Said[]): readonly string[] {
  const folder = mkdtempSync(join(IN_MEMORY, 'datumline-image-'));
  try {
    for (const [name, content] of image) writeFileSync(join(folder, name), content);
    const opened = openJournal(folder, faultOptions, faultContext());
    if (!opened.ok) return [`cannot be opened: ${JSON.stringify(opened.error)}`];
    const problems = [
      ...recordProblems(opened.value),
      ...said.flatMap((each) => lost(opened.value, each, said)),
    ];
    opened.value.close();
    return problems;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function recordProblems(journal: Journal<FaultRow>): readonly string[] {
  const verified = journal.verify();
  if (!verified.ok) return [`cannot be verified: ${JSON.stringify(verified.error)}`];
  const { findings, damage } = verified.value;
  return [...findings.map((finding) => JSON.stringify(finding)), ...damage];
}

function lost(journal: Journal<FaultRow>, each: Said, all: readonly Said[]): readonly string[] {
  if ('commandId' in each) {
    const found = journal.answerTo(each.commandId);
    const hashes = found.ok ? found.value?.events.map((event) => event.hash) : undefined;
    return hashes?.join() === each.hashes.join() ? [] : [`an answered command is lost: ${each.commandId}`];
  }
  const last = all.findLast((other) => 'field' in other && other.field === each.field);
  if (last !== each) return [];
  const drafts = journal.drafts(each.job);
  const draft = drafts.ok ? drafts.value.find((kept) => kept.field === each.field) : undefined;
  // A draft saved after the answer and before the cut may be newer than the one answered.
  const isOlder = draft === undefined || numberIn(draft.text) < numberIn(each.text);
  return isOlder ? [`an answered draft is lost: ${each.text}`] : [];
}

function numberIn(text: string): number {
  return Number(/\d+/.exec(text)?.[0]);
}

let recorded: readonly DiskCall[] | undefined;

export const powerLossProgram: FaultProgram = {
  name: 'power-loss',
  defaults: { seed: 7_000, count: 100 },
  batchSize: 25,
  runBatch: async (seed, count) => {
    recorded ??= recordRun('full');
    return cutPower(recorded, seed, count);
  },
};

let recordedOff: readonly DiskCall[] | undefined;

/** The same on a run that never flushes: it must lose entries, or the test above could not notice a loss. */
export const powerLossOffProgram: FaultProgram = {
  name: 'power-loss-not-flushed',
  defaults: { seed: 7_000, count: 100 },
  batchSize: 25,
  runBatch: async (seed, count) => {
    recordedOff ??= recordRun('notDurable');
    const { counts } = cutPower(recordedOff, seed, count);
    const noticed = (counts.badImages ?? 0) > 0;
    return { counts, problems: noticed ? [] : ['a run that never flushed lost nothing: the test is blind'] };
  },
};
