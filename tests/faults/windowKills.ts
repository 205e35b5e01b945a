/**
 * Kills the real window while somebody types: the whole process tree at a random moment, some right after Enter. The
 * application is started again on the same data; store and window must hold what was shown as recorded, once, and every
 * draft older than 500 ms in its field, marked as typed and not recorded.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Electron } from '@playwright/test';
import type { JobEvent } from '../../core/job/reduce.ts';
import { readScript } from '../../electron/cli/playScript.ts';
import type {} from '../../renderer/api.ts';
import { type Launched, openWithPage } from '../e2e/launch.ts';
import { HomePage } from '../e2e/pages/homePage.ts';
import { JobPage } from '../e2e/pages/jobPage.ts';
import { prepareStore } from '../e2e/preparedStore.ts';
import { type StoredJob, storedJob } from '../e2e/storedJob.ts';
import { mergedCounts, type Outcome } from './faultProgram.ts';
import { killTree } from './processTree.ts';
import { type SeededRandom, seededRandom } from './seededRandom.ts';
import {
  afterLook,
  type Death,
  type FieldKnowledge,
  judgeField,
  type StoreLook,
  type WindowLook,
} from './windowKnowledge.ts';

const SCRIPT = readScript(new URL('../../assets/demo/demo-job.json', import.meta.url));

/** Fields of Intake that are typed in, and readings of the floor. */
const FORM_FIELDS = [
  'intake.model',
  'intake.claim',
  'intake.payer',
  'intake.remarks',
  'intake.odometerIn',
] as const;
const SLOTS = ['floor.FL', 'floor.FR', 'floor.RL', 'floor.RR'] as const;

/** The key under which the window keeps what is typed for a reading that all sensors share. */
const draftKey = (slot: string): string => `reading::${slot}`;

/** A service that leaves a question of the window unanswered this long shows a machine that is not keeping up. */
const KEEPING_UP_MS = 100;

interface Bench {
  readonly electron: Electron;
  readonly folder: string;
  readonly job: string;
  readonly fields: ReadonlyMap<string, FieldKnowledge>;
  /** Makes every text the only one of its kind. */
  nextNumber: number;
}

/** One life of the application, and how well it answers. */
interface Life {
  readonly launched: Launched;
  readonly page: JobPage;
  readonly pid: number;
  dead: boolean;
  /** When the question that has no answer yet was asked, and the longest wait of the last answers. */
  askedAtMs: number;
  lastWaitMs: number;
}

const plate = SCRIPT.steps.find((step) => step.do === 'field' && step.field === 'intake.plate');

async function openedLife({ electron, folder }: Bench): Promise<Life> {
  const launched = await openWithPage(electron, folder);
  const { mainProcess, page } = launched;
  if (mainProcess.pid === undefined) throw new Error('the application has no process number');
  await new HomePage(page).openJob(plate?.do === 'field' ? plate.text : '');
  return {
    launched,
    page: new JobPage(page),
    pid: mainProcess.pid,
    dead: false,
    askedAtMs: 0,
    lastWaitMs: 0,
  };
}

/** Asks the service through the window all the time: how long an answer takes tells whether the machine keeps up. */
async function watch(life: Life): Promise<void> {
  while (!life.dead) {
    life.askedAtMs = performance.now();
    await life.launched.page.evaluate(() => window.datumline.call('app.status', {}));
    life.lastWaitMs = performance.now() - life.askedAtMs;
    await pause(20);
  }
}

/** Types a text key by key and notes when each state of the box was reached. */
async function typeInto(life: Life, field: FieldKnowledge, text: string): Promise<void> {
  const { keyboard } = life.launched.page;
  await keyboard.press('ControlOrMeta+A');
  for (const [index, key] of [...text].entries()) {
    await keyboard.type(key);
    field.typed = [...field.typed, { text: text.slice(0, index + 1), atMs: performance.now() }];
  }
}

function fieldOf(bench: Bench, key: string): FieldKnowledge {
  const field = bench.fields.get(key);
  if (field === undefined) throw new Error(`no field ${key}`);
  return field;
}

const lastText = (field: FieldKnowledge): string => field.typed.at(-1)?.text ?? '';

/** Sends what stands in the field by Enter, or by leaving it, and waits until it is shown as recorded. */
async function sendForm(life: Life, field: FieldKnowledge, how: 'enter' | 'leave'): Promise<void> {
  const { form } = life.page;
  const text = lastText(field);
  field.sent.set(text, false);
  if (how === 'enter') await life.launched.page.keyboard.press('Enter');
  else await form.input('intake.make').click();
  await form.isRecorded(field.key);
  field.sent.set(text, true);
  field.typed = [];
}

async function typeInForm(bench: Bench, life: Life, random: SeededRandom): Promise<void> {
  const { form } = life.page;
  await life.page.openStage('intake');
  const field = fieldOf(bench, FORM_FIELDS[random.whole(0, FORM_FIELDS.length - 1)] ?? '');
  const number = bench.nextNumber;
  bench.nextNumber += 1;
  const text = field.key === 'intake.odometerIn' ? `${20_000 + number}` : `typed ${number} in the bay`;
  await form.input(field.key).click();
  await typeInto(life, field, text);
  await pause(random.whole(0, 900));
  await sendForm(life, field, random.chance(0.6) ? 'enter' : 'leave');
}

/** How a reading ends: sent by Enter, sent by going elsewhere, or left as a draft because it is doubtful. */
type Ending = 'enter' | 'leave' | 'doubtful';

async function typeReading(bench: Bench, life: Life, random: SeededRandom): Promise<void> {
  const { desk } = life.page;
  await life.page.openStage('bay');
  const at = random.whole(0, SLOTS.length - 1);
  const [slot = '', other = ''] = [SLOTS[at], SLOTS[(at + 1) % SLOTS.length]];
  const field = fieldOf(bench, draftKey(slot));
  const number = bench.nextNumber;
  bench.nextNumber += 1;
  const ending: Ending = random.chance(0.4) ? 'doubtful' : random.chance(0.6) ? 'enter' : 'leave';
  await desk.open(slot);
  // A staff of twelve metres is asked about; a hair off 1220 mm is not, and is near all the others.
  await typeInto(
    life,
    field,
    ending === 'doubtful' ? `${12_000 + number}` : `1220.${String(number).padStart(4, '0')}`,
  );
  await pause(random.whole(0, 600));
  if (ending === 'doubtful') {
    await desk.open(other);
    return;
  }
  const text = lastText(field);
  field.sent.set(text, false);
  if (ending === 'enter') await desk.enter();
  else await desk.open(other);
  await life.page.allSent();
  await desk.isRecorded(slot);
  field.sent.set(text, true);
  field.typed = [];
}

/** Types without end; the kill ends it. */
async function typeOn(bench: Bench, life: Life, random: SeededRandom): Promise<void> {
  while (!life.dead) {
    if (random.chance(0.6)) await typeInForm(bench, life, random);
    else await typeReading(bench, life, random);
  }
}

/** Lets somebody type until the kill: after a random time, or a random moment after a text was sent. */
async function liveUntilKilled(
  bench: Bench,
  life: Life,
  random: SeededRandom,
  afterEnter: boolean,
): Promise<Death> {
  const ended = new Promise((resolve) => life.launched.mainProcess.once('exit', resolve));
  // What they were doing when they were killed fails with the window: that is what is being tried.
  const typing = typeOn(bench, life, random).catch((error) => error);
  const watching = watch(life).catch((error) => error);
  const isSending = (): boolean =>
    [...bench.fields.values()].some(({ sent }) => [...sent.values()].includes(false));
  await pause(random.whole(300, 6_000));
  if (afterEnter) {
    const deadline = performance.now() + 20_000;
    while (!isSending() && performance.now() < deadline) await pause(1);
    await pause(random.whole(0, 12));
  }
  const now = performance.now();
  const waiting = now - life.askedAtMs;
  life.dead = true;
  killTree(life.pid);
  await ended;
  await Promise.all([typing, watching]);
  return { atMs: now, keptUp: waiting < KEEPING_UP_MS && life.lastWaitMs < KEEPING_UP_MS };
}

function textOf(event: JobEvent, stored: StoredJob): string {
  if (event.type === 'readingRecorded') return event.payload.text;
  if (event.type !== 'fieldRecorded') return '';
  const { value, text } = event.payload;
  return typeof value === 'object' && 'personalId' in value
    ? (stored.personal[value.personalId] ?? '')
    : text;
}

/** What the store holds of a field since the window was first opened on it. */
function lookAt(stored: StoredJob, key: string, since: number): StoreLook {
  const recorded = stored.events
    .filter((event) => event.seq > since)
    .filter(
      (event) =>
        (event.type === 'fieldRecorded' && event.payload.field === key) ||
        (event.type === 'readingRecorded' && draftKey(event.payload.quantity) === key),
    )
    .map((event) => textOf(event, stored));
  return { recorded, draft: stored.drafts[key] };
}

/** What the window shows of every field. */
async function shownFields(life: Life): Promise<ReadonlyMap<string, WindowLook>> {
  const shown = new Map<string, WindowLook>();
  const { form, desk } = life.page;
  await life.page.openStage('intake');
  for (const key of FORM_FIELDS) {
    const mark = form.field(key).locator('[data-mark]').first();
    shown.set(key, {
      text: await form.input(key).inputValue(),
      mark: (await mark.getAttribute('data-mark')) ?? '',
    });
  }
  await life.page.openStage('bay');
  for (const slot of SLOTS) {
    await desk.open(slot);
    const marks = desk.panel.locator('[data-mark]');
    const mark = (await marks.count()) === 0 ? '' : await marks.first().getAttribute('data-mark');
    shown.set(draftKey(slot), { text: await desk.input.inputValue(), mark: mark ?? '' });
  }
  return shown;
}

/** Holds store and window against what is known, then goes on from what the store holds. */
async function lookAfterKill(
  bench: Bench,
  life: Life,
  stored: StoredJob,
  since: number,
  death: Death,
): Promise<Outcome> {
  let outcome: Outcome = { counts: {}, problems: stored.problems };
  const shown = await shownFields(life);
  for (const field of bench.fields.values()) {
    const look = lookAt(stored, field.key, since);
    const judged = judgeField(field, look, shown.get(field.key), death);
    outcome = {
      counts: mergedCounts(outcome.counts, judged.counts),
      problems: [...outcome.problems, ...judged.problems],
    };
    afterLook(field, look);
  }
  return outcome;
}

/** Kills the window `kills` times on one store. */
export async function killWindows(electron: Electron, seed: number, kills: number): Promise<Outcome> {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-window-kill-'));
  const job = await prepareStore(
    folder,
    SCRIPT,
    SCRIPT.steps.slice(
      0,
      SCRIPT.steps.findIndex((step) => step.do === 'reading'),
    ),
  );
  const since = storedJob(folder, job).events.length;
  const keys = [...FORM_FIELDS, ...SLOTS.map(draftKey)];
  const fields = new Map(keys.map((key) => [key, { key, sent: new Map<string, boolean>(), typed: [] }]));
  const bench: Bench = { electron, folder, job, fields, nextNumber: 1 };
  let outcome: Outcome = { counts: {}, problems: [] };
  let life = await openedLife(bench);
  try {
    for (let kill = 1; kill <= kills; kill += 1) {
      const random = seededRandom(seed * 1_000 + kill);
      const death = await liveUntilKilled(bench, life, random, kill % 2 === 0);
      const stored = storedJob(folder, job);
      life = await openedLife(bench);
      const looked = await lookAfterKill(bench, life, stored, since, death);
      outcome = {
        counts: mergedCounts(mergedCounts(outcome.counts, looked.counts), {
          kills: 1,
          notKeepingUp: death.keptUp ? 0 : 1,
        }),
        problems: [
          ...outcome.problems,
          ...looked.problems.map((each) => `kill ${kill} of seed ${seed}: ${each}`),
        ],
      };
    }
    const entries = [...fields.values()].reduce((sum, { sent }) => sum + sent.size, 0);
    return { ...outcome, counts: { ...outcome.counts, entries } };
  } finally {
    killTree(life.pid);
    rmSync(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}
