/**
 * Kills a process that records (the real service, or the bare journal) at random moments and between commit and answer, opens the store again and
 * looks: no recorded entry lost, none doubled when it is sent again, drafts older than 500 ms there, chains whole.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { monitorEventLoopDelay } from 'node:perf_hooks';
import { setTimeout as pause } from 'node:timers/promises';
import { newId } from '../../electron/service/clock.ts';
import { openReader } from '../../electron/service/journal/index.ts';
import { faultOptions, lookInto } from './faultJournal.ts';
import { type FaultProgram, mergedCounts, type Outcome } from './faultProgram.ts';
import { journalTarget } from './journalTarget.ts';
import { endOf, type KillCommand, type KillTarget, type LivingWriter } from './killTarget.ts';
import { type SeededRandom, seededRandom } from './seededRandom.ts';
import { serviceTarget } from './serviceTarget.ts';

/** A draft goes to the service this long after the last key, as the window does it. */
const DRAFT_AFTER_MS = 300;

/** A draft whose last key is older than this must survive a kill. */
const DRAFT_SAFE_MS = 500;

/** So many commands may be under way at once. */
const UNDER_WAY = 3;

type Command = { readonly message: KillCommand; hashes: readonly string[] | undefined };

/** `seen`: it was in the store after an earlier kill, so it must be there for good. */
type Typed = { readonly text: string; readonly sentMs: number; readonly seen: boolean };

/** What the parent knows, over all kills of a batch. */
type Knowledge = {
  readonly folder: string;
  readonly target: KillTarget;
  readonly jobs: readonly string[];
  readonly commands: Map<string, Command>;
  /** By field: texts sent, oldest first. Fields are used once and never cleared by a command. */
  readonly typed: Map<string, Typed[]>;
  nextNumber: number;
  /** When each message was sent that has not been answered yet. */
  readonly underWay: Map<string, number>;
  mostDraftMs: number;
};

/** How a life ended: when, and whether the machine kept up until then. */
type Death = { readonly atMs: number; readonly keptUp: boolean };

/** A writer that has left a message unanswered for so long, or a timer this late, shows a machine that is not keeping up. */
const KEEPING_UP_MS = 100;

/** Which kills fall between commit and answer, by their number from 1. */
export type BeforeAnswer = (kill: number) => boolean;

/** Every third, as long as nothing else is asked for. */
const everyThird: BeforeAnswer = (kill) => kill % 3 === 0;

/** Runs `kills` kills on one store. */
export async function killBatch(
  target: KillTarget,
  seed: number,
  kills: number,
  beforeAnswer: BeforeAnswer = everyThird,
): Promise<Outcome> {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-kill-'));
  const known: Knowledge = {
    ...{ folder, target, jobs: await target.prepare(folder), commands: new Map(), typed: new Map() },
    ...{ nextNumber: 1, underWay: new Map(), mostDraftMs: 0 },
  };
  let outcome: Outcome = { counts: {}, problems: [] };
  try {
    for (let kill = 1; kill <= kills; kill += 1) {
      const random = seededRandom(seed * 1_000 + kill);
      const death = await runUntilKilled(known, random, beforeAnswer(kill));
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
        ...{ kills, commands, entries: known.nextNumber - 1 },
        mostDraftMs: known.mostDraftMs,
      }),
      problems: [...outcome.problems, ...ended.map((problem) => `seed ${seed}, at the end: ${problem}`)],
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** One life of the writer: resend what was not answered, then new work until it dies. */
async function runUntilKilled(known: Knowledge, random: SeededRandom, byItself: boolean): Promise<Death> {
  const writer = await startWriter(known);
  const ended = endOf(writer.process);
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
  else writer.process.kill('SIGKILL');
  typing.abort();
  await ended;
  return { atMs, keptUp: longestMs < KEEPING_UP_MS };
}

function send(known: Knowledge, writer: LivingWriter, { message }: Command, dieBeforeAnswer = false): void {
  known.underWay.set(message.commandId, performance.now());
  writer.append(message, dieBeforeAnswer);
}

function startWriter(known: Knowledge): Promise<LivingWriter> {
  return known.target.start(known.folder, {
    answered(commandId, hashes) {
      known.underWay.delete(commandId);
      const command = known.commands.get(commandId);
      if (command !== undefined) command.hashes = hashes;
    },
    saved(field, text) {
      const sent = known.typed.get(field)?.find((typed) => typed.text === text);
      if (sent !== undefined)
        known.mostDraftMs = Math.max(known.mostDraftMs, performance.now() - sent.sentMs);
    },
  });
}

function unanswered(known: Knowledge): readonly Command[] {
  return [...known.commands.values()].filter((command) => command.hashes === undefined);
}

function newCommand(known: Knowledge, random: SeededRandom): Command {
  const { jobs } = known;
  const entries = Array.from({ length: random.whole(1, 3) }, () => {
    const entry = known.target.entry(known.nextNumber, random.whole(0, 2_000));
    known.nextNumber += 1;
    return entry;
  });
  const job = jobs[random.whole(0, jobs.length - 1)] ?? '';
  const message: KillCommand = { job, commandId: newId(), entries };
  const command: Command = { message, hashes: undefined };
  known.commands.set(message.commandId, command);
  return command;
}

/** Types into fresh fields; each text is sent when its last key is 300 ms old, unless a later key came. */
function typeDrafts(known: Knowledge, writer: LivingWriter, liveMs: number): AbortController {
  const stop = new AbortController();
  const field = `field ${known.typed.size}`;
  const typed: Typed[] = [];
  known.typed.set(field, typed);
  const type = async () => {
    for (let round = 1; round * 100 < liveMs; round += 1) {
      await pause(DRAFT_AFTER_MS, undefined, { signal: stop.signal });
      const text = `${field} as typed ${round}`;
      if (!writer.process.connected) return;
      typed.push({ text, sentMs: performance.now(), seen: false });
      writer.saveDraft(known.jobs[0] ?? '', field, text);
    }
  };
  type().catch(() => undefined);
  return stop;
}

/** Compares the store with what the parent knows. */
function lookAfterKill(known: Knowledge, death: Death): Outcome {
  const { numbers, problems } = lookInto(known.folder, known.jobs);
  const commands = lostCommands(known);
  const drafts = missingDrafts(known, death);
  return {
    counts: { ...drafts.counts, ...commands.counts },
    problems: [...problems, ...commands.problems, ...doubled(numbers), ...drafts.problems],
  };
}

/** Commands answered and not there, or half there; and how many are there that were never answered. */
function lostCommands(known: Knowledge): Outcome {
  const opened = openReader(known.folder, faultOptions);
  if (!opened.ok) return { counts: {}, problems: [] };
  const reader = opened.value;
  const problems: string[] = [];
  let recordedUnanswered = 0;
  for (const { message, hashes } of known.commands.values()) {
    const found = reader.answerTo(message.commandId);
    const events = found.ok ? found.value?.events : undefined;
    if (hashes !== undefined && events?.map((event) => event.hash).join() !== hashes.join()) {
      problems.push(`a recorded command is lost or another: ${message.commandId}`);
    }
    if (events !== undefined && events.length !== message.entries.length) {
      problems.push(`half a command: ${message.commandId}`);
    }
    if (hashes === undefined && events !== undefined) recordedUnanswered += 1;
  }
  reader.close();
  return { counts: { recordedUnanswered }, problems };
}

function doubled(numbers: readonly unknown[]): readonly string[] {
  const twice = numbers.filter((n, index) => numbers.indexOf(n) !== index);
  return twice.map((n) => `entry ${n} is there twice`);
}

/**
 * A field's newest text that was old enough at the kill must be there, or a later one. What is there after the kill must
 * be there after all later ones. A draft that is not there while the machine was not keeping up is counted apart: the
 * promise of 500 ms needs a machine that runs. `draftsDue` are those of the life that just ended, `draftsKept` older ones.
 */
function missingDrafts(known: Knowledge, { atMs, keptUp }: Death): Outcome {
  const opened = openReader(known.folder, faultOptions);
  if (!opened.ok) return { counts: {}, problems: [] };
  const kept = opened.value.drafts(known.jobs[0] ?? '');
  opened.value.close();
  if (!kept.ok) return { counts: {}, problems: ['drafts cannot be read'] };
  const problems: string[] = [];
  let draftsDue = 0;
  let draftsKept = 0;
  let draftsNotJudged = 0;
  for (const [field, typed] of known.typed) {
    const safe = typed.findLastIndex(({ sentMs }) => atMs - sentMs >= DRAFT_SAFE_MS - DRAFT_AFTER_MS);
    const found = typed.findIndex(({ text }) =>
      kept.value.some((draft) => draft.field === field && draft.text === text),
    );
    const due = typed[safe];
    if (due?.seen === true) draftsKept += 1;
    else if (due !== undefined) draftsDue += 1;
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
  return { counts: { draftsDue, draftsKept, draftsNotJudged }, problems };
}

/** A last life without a kill: everything unanswered is sent again, then all must be there once. */
async function resendAndEnd(known: Knowledge): Promise<readonly string[]> {
  const writer = await startWriter(known);
  const ended = endOf(writer.process);
  for (const command of unanswered(known)) send(known, writer, command);
  const deadline = performance.now() + 20_000;
  while (unanswered(known).length > 0 && performance.now() < deadline) await pause(10);
  writer.process.kill('SIGKILL');
  await ended;
  const { numbers, problems } = lookInto(known.folder, known.jobs);
  const waiting = unanswered(known).map(({ message }) => `never answered: ${message.commandId}`);
  const count = known.nextNumber - 1;
  const all = numbers.length === count ? [] : [`${count} entries sent, ${numbers.length} there`];
  return [...problems, ...lostCommands(known).problems, ...doubled(numbers), ...waiting, ...all];
}

export const killServiceProgram: FaultProgram = {
  name: 'kill-service',
  defaults: { seed: 8_000, count: 200 },
  batchSize: 20,
  runBatch: (seed, count) => killBatch(serviceTarget, seed, count),
};

export const killJournalProgram: FaultProgram = {
  name: 'kill-journal',
  defaults: { seed: 9_000, count: 60 },
  batchSize: 20,
  runBatch: (seed, count) => killBatch(journalTarget(), seed, count),
};
