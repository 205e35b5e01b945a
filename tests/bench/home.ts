/**
 * The list of jobs with 100,000 jobs in it: opening it, and searching it as people do. Each call goes through the
 * service's dispatch, as from the window: schema, handler, answer's schema.
 *
 * The store is a valid one, made by the journal's own `append`; only the flush to the disk after each command is left
 * out while it is filled. Its jobs are small: opened, four fields, and for nineteen of twenty a certificate sealed and
 * issued, in one command. The list is then made from it by the same code as ever.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Input } from '../../core/contract/index.ts';
import { commutes, type EventType } from '../../core/job/events.ts';
import { payloadProblem } from '../../core/job/readEvents.ts';
import { vinCheckDigit } from '../../core/vehicle/vin.ts';
import { localHost } from '../../electron/cli/demo.ts';
import { callOrThrow } from '../../electron/cli/playScript.ts';
import { newId, systemClock, systemRandom } from '../../electron/service/clock.ts';
import { startService } from '../../electron/service/handlers/index.ts';
import { jobProjection } from '../../electron/service/handlers/jobRow.ts';
import { contextOf } from '../../electron/service/handlers/store.ts';
import { createDispatch, type Dispatch } from '../../electron/service/host/dispatch.ts';
import { type JournalEntry, openJournal } from '../../electron/service/journal/index.ts';
import { type SeededRandom, seededRandom } from '../faults/seededRandom.ts';
import { type Timing, timed, timingOf } from './timing.ts';

const JOBS = 100_000;
const LIMIT_MS = 100;
const WARM_UPS = 3;
const RUNS = 31;
const SEED = 20_261_125;

const LETTERS = 'ABCDEFGHJKLMNPRSTUVWXYZ';
const MAKES = ['Tidewell', 'Quayline', 'Haven', 'Skerry'];
const MODELS = ['Petrel', 'Plover', 'Guillemot', 'Tern', 'Dunlin', 'Avocet', 'Knot', 'Smew'];
const DIGEST = 'a'.repeat(64);

interface SmallJob {
  readonly plate: string;
  readonly vin: string;
  readonly reference: string;
  readonly number: string;
}

function letters(random: SeededRandom, count: number): string {
  return Array.from({ length: count }, () => LETTERS[random.whole(0, LETTERS.length - 1)]).join('');
}

/** Invented, with a check digit that fits. */
function inventedVin(random: SeededRandom, n: number): string {
  const [start, rest] = [`1DEM0${letters(random, 3)}`, `T${letters(random, 1)}${String(n).padStart(6, '0')}`];
  return `${start}${vinCheckDigit(`${start}0${rest}`) ?? '0'}${rest}`;
}

function smallJob(random: SeededRandom, n: number): SmallJob {
  const [bay, counter] = [1 + (n % 3), String(n).padStart(4, '0')];
  return {
    plate: `${letters(random, 2)}-${letters(random, 2)} ${random.whole(1, 9999)}`,
    vin: inventedVin(random, n),
    reference: `${bay}-2026-${counter}`,
    number: `QUAY-${bay}-2026-${counter}`,
  };
}

function field(id: string, value: string): JournalEntry {
  const at = { sensor: null, station: null, item: null };
  return { type: 'fieldRecorded', v: 1, payload: { field: id, at, value, text: value } };
}

function certificateEntries({ number }: SmallJob, n: number): readonly JournalEntry[] {
  const named = { certificate: `c${n}`, number, edition: 1 };
  const sealed = { ...named, replaces: null, kind: 'calibrated', reason: '', recordDigest: DIGEST };
  const by = { head: DIGEST, signer: 'tobias', issuedAtUtcMs: 1_795_600_000_000 + n, issuedOffsetMin: 60 };
  return [
    {
      type: 'certificateSealed',
      v: 1,
      payload: { ...sealed, ...by, paper: 'A4', program: 'datumline/bench' },
    },
    { type: 'certificateIssued', v: 1, payload: { ...named, fileDigest: DIGEST } },
  ];
}

function entriesOf(job: SmallJob, random: SeededRandom, n: number): readonly JournalEntry[] {
  const opened = { reference: job.reference, demo: true, bay: '1', decisionRule: 'guarded', follows: null };
  return [
    { type: 'jobOpened', v: 1, payload: opened },
    field('intake.plate', job.plate),
    field('intake.vin', job.vin),
    field('intake.make', MAKES[random.whole(0, MAKES.length - 1)] ?? ''),
    field('intake.model', MODELS[random.whole(0, MODELS.length - 1)] ?? ''),
    ...(n % 20 === 1 ? [] : certificateEntries(job, n)),
  ];
}

/** Fills the store of a folder and answers one of its jobs, from the middle. */
function fillStore(folder: string, jobs: number): SmallJob {
  const random = seededRandom(SEED);
  const opened = openJournal(
    folder,
    {
      checkPayload: payloadProblem,
      commutes: (type) => commutes(type as EventType),
      projection: jobProjection,
      durability: 'notDurable',
    },
    { at: systemClock.now(), random: systemRandom },
  );
  if (!opened.ok) throw new Error(opened.error.code);
  const journal = opened.value;
  const ctx = contextOf(journal.storeId, 'mira', 'bench', systemClock, systemRandom);
  let wanted: SmallJob | undefined;
  for (let n = 1; n <= jobs; n += 1) {
    const job = smallJob(random, n);
    if (n === Math.ceil(jobs / 2)) wanted = job;
    const entries = entriesOf(job, random, n);
    const appended = journal.append({ job: newId(), commandId: newId(), expectedSeq: 0, entries, ctx });
    if (!appended.ok) throw new Error(`${appended.error.code} ${JSON.stringify(appended.error.details)}`);
    if (n % 10_000 === 0) console.log(`home: ${n} of ${jobs} jobs recorded`);
  }
  journal.close();
  if (wanted === undefined) throw new Error('no job');
  return wanted;
}

type Asked = readonly [name: string, input: Input<'job.list'>, atLeast: number];

/** What is asked, and how many jobs must be found at least: a search that finds nothing is no measurement. */
function questions(job: SmallJob, jobs: number): readonly Asked[] {
  return [
    ['opening the list', { search: '' }, jobs],
    ['a whole plate', { search: job.plate }, 1],
    ['a plate without blank and hyphen', { search: job.plate.replace(/[ -]/g, '') }, 1],
    ['the beginning of a plate', { search: job.plate.slice(0, 5) }, 1],
    ['the last six of a VIN', { search: job.vin.slice(-6) }, 1],
    ['a whole VIN', { search: job.vin }, 1],
    ['a certificate number', { search: job.number }, 1],
    ['the head of every certificate number', { search: 'QUAY-1-2026-' }, jobs / 4],
    ['a model', { search: 'guillemot' }, jobs / 20],
    ['a make and a plate', { search: `${job.plate.slice(0, 5)} 2026` }, 1],
    ['one letter', { search: 'q' }, jobs / 2],
    ['two letters', { search: job.plate.slice(0, 2) }, 1],
    ['nothing that is there', { search: 'ÖÖÖÖÖ' }, 0],
    ['what waits for work', { search: '', waitsFor: ['waits.work'] }, jobs / 25],
    ['a model among what waits for work', { search: 'Tern', waitsFor: ['waits.work'] }, 1],
    ['the last page', { search: '', offset: jobs - 100 }, jobs],
    [
      'the last page of the signed ones',
      { search: '', waitsFor: ['waits.nothing'], offset: (jobs * 9) / 10 },
      1,
    ],
  ];
}

async function ask(dispatch: Dispatch, [name, input, atLeast]: Asked, limitMs: number): Promise<Timing> {
  const values: number[] = [];
  for (let run = 0; run < WARM_UPS + RUNS; run += 1) {
    const took = await timed(async () => {
      const { total } = await callOrThrow(dispatch, 'job.list', input);
      if (total < atLeast) throw new Error(`${name}: ${total} found, not ${atLeast}`);
    });
    if (run >= WARM_UPS) values.push(took);
  }
  return timingOf(`home of ${JOBS} jobs: ${name}`, limitMs, values);
}

/** The list looked at right after an entry: one job is read again and its row put in place. */
async function askAfterEntry(dispatch: Dispatch): Promise<Timing> {
  const values: number[] = [];
  for (let run = 0; run < RUNS; run += 1) {
    const created = { person: 'mira', bay: '1', commandId: newId(), entries: [] };
    const { job } = await callOrThrow(dispatch, 'job.create', created);
    values.push(
      await timed(async () => {
        const { rows } = await callOrThrow(dispatch, 'job.list', { search: '' });
        if (rows[0]?.job !== job) throw new Error('the newest job is not the first');
      }),
    );
  }
  return timingOf(`home of ${JOBS} jobs: opening the list after a new job`, LIMIT_MS, values);
}

/** Fills a store, starts the service over it, and measures. */
export async function benchHome(): Promise<readonly Timing[]> {
  const folder = mkdtempSync(join(tmpdir(), 'datumline-home-'));
  try {
    const wanted = fillStore(folder, JOBS);
    const filling = performance.now();
    const service = await startService(localHost(folder));
    const opened = performance.now();
    const dispatch = createDispatch(service.handlers, (_trace, name, fault) => {
      throw new Error(`fault in ${name}: ${String(fault)}`);
    });
    await callOrThrow(dispatch, 'shop.openDemo', { commandId: newId() });
    const building = await timed(() => callOrThrow(dispatch, 'job.list', { search: '' }));
    const timings = [
      timingOf(`home of ${JOBS} jobs: opening the store, every page examined`, null, [opened - filling]),
      timingOf(`home of ${JOBS} jobs: making the whole list anew`, null, [building]),
    ];
    for (const question of questions(wanted, JOBS)) timings.push(await ask(dispatch, question, LIMIT_MS));
    timings.push(await askAfterEntry(dispatch));
    await service.close();
    return timings;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
