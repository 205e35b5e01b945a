/**
 * Kills the process that writes the journal, at random moments and between commit and answer, opens the store again and
 * looks: no recorded entry lost, none doubled when it is sent again, drafts older than 500 ms there, chains whole.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { newId } from '../../electron/service/clock.ts';
import { openReader } from '../../electron/service/journal/index.ts';
import { faultOptions, lookInto, numberedEntry } from './faultJournal.ts';
import { type FaultProgram, mergedCounts, type Outcome } from './faultProgram.ts';
import type { Flaw, FromWriter, ToWriter } from './journalWriter.ts';
import { type SeededRandom, seededRandom } from './seededRandom.ts';

/** A draft goes to the service this long after the last key, as the window does it. */
const DRAFT_AFTER_MS = 300;

/** A draft whose last key is older than this must survive a kill. */
const DRAFT_SAFE_MS = 500;

/** So many commands may be under way at once. */
const UNDER_WAY = 3;

type Append = Extract<ToWriter, { kind: 'append' }>;

type Command = { readonly message: Append; hashes: readonly string[] | undefined };

/** `seen`: it was in the store after an earlier kill, so it must be there for good. */
type Typed = { readonly text: string; readonly sentMs: number; readonly seen: boolean };

/** What the parent knows, over all kills of a batch. */
type Knowledge = {
  readonly folder: string;
  readonly flaw: Flaw | undefined;
  readonly jobs: readonly string[];
  readonly commands: Map<string, Command>;
  /** By field: texts sent, oldest first. Fields are used once and never cleared by a command. */
  readonly typed: Map<string, Typed[]>;
  nextNumber: number;
  /** When each message was sent that has not been answered yet. */
  readonly underWay: Map<string, number>;
  repeated: number;
  mostDraftMs: number;
};

/** How a life ended: when, and whether the machine kept up until then. */
type Death = { readonly atMs: number; readonly keptUp: boolean };

/** A writer that has left a message unanswered for so long, or a timer this late, shows a machine that is not keeping up. */
const KEEPING_UP_MS = 100;

/** Runs `kills` kills on one store. */
export async function killBatch(seed: number, kills: number, flaw?: Flaw): Promise<Outcome> {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-kill-'));
  const known: Knowledge = {
    ...{ folder, flaw, jobs: [newId(), newId(), newId()], commands: new Map(), typed: new Map() },
    ...{ nextNumber: 1, underWay: new Map(), repeated: 0, mostDraftMs: 0 },
  };
  let outcome: Outcome = { counts: {}, problems: [] };
  try {
    for (let kill = 1; kill <= kills; kill += 1) {
      const death = await runUntilKilled(
        known,
        seededRandom(seed * 1_000 + kill),
        diesBeforeAnswer(kill, flaw),
      );
      const looked = lookAfterKill(known, death);
      outcome = {
        counts: mergedCounts(outcome.counts, looked.counts),
        problems: [
          ...outcome.problems,
          ...looked.problems.map((problem) => `seed ${seed}, kill ${kill}: ${problem}`),
        ],
      };
    }
    const ended = await resendAndEnd(known);
    const commands = known.commands.size;
    return {
      counts: mergedCounts(outcome.counts, {
        ...{ kills, commands, entries: known.nextNumber - 1, answeredAgain: known.repeated },
        mostDraftMs: known.mostDraftMs,
      }),
      problems: [...outcome.problems, ...ended.map((problem) => `seed ${seed}, at the end: ${problem}`)],
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Every third kill falls between commit and answer; a writer with a flaw dies where the flaw shows. */
function diesBeforeAnswer(kill: number, flaw: Flaw | undefined): boolean {
  return flaw === undefined ? kill % 3 === 0 : flaw !== 'forgetsDrafts';
}

/** One life of the writer: resend what was not answered, then new work until it dies. */
async function runUntilKilled(known: Knowledge, random: SeededRandom, byItself: boolean): Promise<Death> {
  const writer = await startWriter(known);
  const ended = endOf(writer);
  const lag = monitorEventLoopDelay({ resolution: 5 });
  lag.enable();
  known.underWay.clear();
  for (const command of unanswered(known)) send(known, writer, command);
  const liveMs = random.whole(20, 900);
  const typing = typeDrafts(known, writer, liveMs);
  const startMs = performance.now();
  while (performance.now() - startMs < liveMs) {
    if (unanswered(known).length < UNDER_WAY) send(known, writer, newCommand(known, random));
    await pause(random.whole(0, 6));
  }
  const atMs = performance.now();
  const longestMs = Math.max(lag.max / 1e6, ...[...known.underWay.values()].map((sentMs) => atMs - sentMs));
  if (byItself) send(known, writer, newCommand(known, random), true);
  else writer.kill('SIGKILL');
  typing.abort();
  await ended;
  return { atMs, keptUp: longestMs < KEEPING_UP_MS };
}

function send(known: Knowledge, writer: ChildProcess, { message }: Command, dieBeforeAnswer = false): void {
  known.underWay.set(message.commandId, performance.now());
  writer.send({ ...message, dieBeforeAnswer } satisfies ToWriter);
}

/** The process is gone, and everything it had said has been heard. */
async function endOf(writer: ChildProcess): Promise<void> {
  const gone = new Promise((resolve) => writer.once('exit', resolve));
  const heard = new Promise((resolve) => writer.once('disconnect', resolve));
  await Promise.all([gone, heard]);
}

function startWriter(known: Knowledge): Promise<ChildProcess> {
  const path = fileURLToPath(new URL('./journalWriter.ts', import.meta.url));
  const args = known.flaw === undefined ? [known.folder] : [known.folder, known.flaw];
  const writer = fork(path, args, { execArgv: [] });
  writer.on('error', () => undefined);
  return new Promise((resolve, reject) => {
    writer.once('exit', (code) => reject(new Error(`the writer ended by itself: ${code}`)));
    writer.on('message', (message: FromWriter) => {
      if (message.kind === 'ready') resolve(writer);
      else hear(known, message);
    });
  });
}

function hear(known: Knowledge, message: FromWriter): void {
  if (message.kind === 'answer') {
    known.underWay.delete(message.commandId);
    const command = known.commands.get(message.commandId);
    if (command !== undefined) command.hashes = message.hashes;
    if (message.repeated) known.repeated += 1;
  } else if (message.kind === 'saved') {
    const sent = known.typed.get(message.field)?.find((typed) => typed.text === message.text);
    if (sent !== undefined) known.mostDraftMs = Math.max(known.mostDraftMs, performance.now() - sent.sentMs);
  } else if (message.kind === 'trouble') {
    throw new Error(`the writer had trouble: ${message.code}`);
  }
}

function unanswered(known: Knowledge): readonly Command[] {
  return [...known.commands.values()].filter((command) => command.hashes === undefined);
}

function newCommand(known: Knowledge, random: SeededRandom): Command {
  const { jobs } = known;
  const entries = Array.from({ length: random.whole(1, 3) }, () => {
    const entry = numberedEntry(known.nextNumber, random.whole(0, 2_000));
    known.nextNumber += 1;
    return entry;
  });
  const message: Append = {
    ...{ kind: 'append', job: jobs[random.whole(0, jobs.length - 1)] ?? '', commandId: newId() },
    ...{ entries, clearsDrafts: [], dieBeforeAnswer: false },
  };
  const command: Command = { message, hashes: undefined };
  known.commands.set(message.commandId, command);
  return command;
}

/** Types into fresh fields; each text is sent when its last key is 300 ms old, unless a later key came. */
function typeDrafts(known: Knowledge, writer: ChildProcess, liveMs: number): AbortController {
  const stop = new AbortController();
  const field = `field ${known.typed.size}`;
  const typed: Typed[] = [];
  known.typed.set(field, typed);
  const type = async () => {
    for (let round = 1; round * 100 < liveMs; round += 1) {
      await pause(DRAFT_AFTER_MS, undefined, { signal: stop.signal });
      const text = `${field} as typed ${round}`;
      if (!writer.connected) return;
      typed.push({ text, sentMs: performance.now(), seen: false });
      writer.send({ kind: 'draft', job: known.jobs[0] ?? '', field, text } satisfies ToWriter);
    }
  };
  type().catch(() => undefined);
  return stop;
}

/** Compares the store with what the parent knows. */
function lookAfterKill(known: Knowledge, death: Death): Outcome {
  const { numbers, problems } = lookInto(known.folder);
  const drafts = missingDrafts(known, death);
  return {
    counts: drafts.counts,
    problems: [...problems, ...lostCommands(known), ...doubled(numbers), ...drafts.problems],
  };
}

function lostCommands(known: Knowledge): readonly string[] {
  const opened = openReader(known.folder, faultOptions);
  if (!opened.ok) return [];
  const reader = opened.value;
  const problems: string[] = [];
  for (const { message, hashes } of known.commands.values()) {
    const found = reader.answerTo(message.commandId);
    const events = found.ok ? found.value?.events : undefined;
    if (hashes !== undefined && events?.map((event) => event.hash).join() !== hashes.join()) {
      problems.push(`a recorded command is lost or another: ${message.commandId}`);
    }
    if (events !== undefined && events.length !== message.entries.length) {
      problems.push(`half a command: ${message.commandId}`);
    }
  }
  reader.close();
  return problems;
}

function doubled(numbers: readonly unknown[]): readonly string[] {
  const twice = numbers.filter((n, index) => numbers.indexOf(n) !== index);
  return twice.map((n) => `entry ${n} is there twice`);
}

/**
 * A field's newest text that was old enough at the kill must be there, or a later one. What is there after the kill must
 * be there after all later ones. A draft that is not there while the machine was not keeping up is counted apart: the
 * promise of 500 ms needs a machine that runs.
 */
function missingDrafts(known: Knowledge, { atMs, keptUp }: Death): Outcome {
  const opened = openReader(known.folder, faultOptions);
  if (!opened.ok) return { counts: {}, problems: [] };
  const kept = opened.value.drafts(known.jobs[0] ?? '');
  opened.value.close();
  if (!kept.ok) return { counts: {}, problems: ['drafts cannot be read'] };
  const problems: string[] = [];
  let draftsLooked = 0;
  let draftsNotJudged = 0;
  for (const [field, typed] of known.typed) {
    const safe = typed.findLastIndex(({ sentMs }) => atMs - sentMs >= DRAFT_SAFE_MS - DRAFT_AFTER_MS);
    const found = typed.findIndex(({ text }) =>
      kept.value.some((draft) => draft.field === field && draft.text === text),
    );
    if (safe >= 0) draftsLooked += 1;
    const due = typed[safe];
    if (due !== undefined && found < safe) {
      const age = Math.round(atMs - due.sentMs + DRAFT_AFTER_MS);
      if (due.seen || keptUp) problems.push(`draft of ${field}, ${age} ms old, lost`);
      else draftsNotJudged += 1;
    }
    known.typed.set(
      field,
      typed.slice(Math.max(found, 0), found + 1).map((each) => ({ ...each, seen: true })),
    );
  }
  return { counts: { draftsLooked, draftsNotJudged }, problems };
}

/** A last life without a kill: everything unanswered is sent again, then all must be there once. */
async function resendAndEnd(known: Knowledge): Promise<readonly string[]> {
  const writer = await startWriter(known);
  const ended = endOf(writer);
  for (const command of unanswered(known)) send(known, writer, command);
  const deadline = performance.now() + 20_000;
  while (unanswered(known).length > 0 && performance.now() < deadline) await pause(10);
  writer.kill('SIGKILL');
  await ended;
  const { numbers, problems } = lookInto(known.folder);
  const waiting = unanswered(known).map(({ message }) => `never answered: ${message.commandId}`);
  const count = known.nextNumber - 1;
  const all = numbers.length === count ? [] : [`${count} entries sent, ${numbers.length} there`];
  return [...problems, ...lostCommands(known), ...doubled(numbers), ...waiting, ...all];
}

export const killProgram: FaultProgram = {
  name: 'kill-journal',
  defaults: { seed: 9_000, count: 200 },
  batchSize: 20,
  runBatch: (seed, count) => killBatch(seed, count),
};
