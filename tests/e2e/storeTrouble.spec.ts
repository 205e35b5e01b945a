// A record that cannot be used, and a key that is not there: said plainly, nothing touched, nothing lost.
import { createHash } from 'node:crypto';
import { closeSync, existsSync, openSync, readdirSync, readFileSync, renameSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { readScript } from '../../electron/cli/playScript.ts';
import { STORE_FILE } from '../../electron/service/journal/index.ts';
import { expect, test } from './fixtures.ts';
import { HomePage } from './pages/homePage.ts';
import { JobPage } from './pages/jobPage.ts';
import { prepareStore } from './preparedStore.ts';
import { storedJob } from './storedJob.ts';

const SCRIPT = readScript(new URL('../../assets/demo/demo-job.json', import.meta.url));
const PLATE = 'QUAY 61';
const INTAKE = SCRIPT.steps.slice(0, 14);

/** Names and digests of the store's own files. */
function storeFiles(folder: string): Readonly<Record<string, string>> {
  const names = readdirSync(folder).filter((name) => name.startsWith(STORE_FILE));
  return Object.fromEntries(
    names.map((name) => [
      name,
      createHash('sha256')
        .update(readFileSync(join(folder, name)))
        .digest('hex'),
    ]),
  );
}

function overwrite(file: string, at: number, bytes: Uint8Array): void {
  const handle = openSync(file, 'r+');
  try {
    writeSync(handle, bytes, 0, bytes.length, at);
  } finally {
    closeSync(handle);
  }
}

const PAGE_BYTES = 4096;

const bad = (bytes: number): Uint8Array => new Uint8Array(bytes).fill(0xa5);

/** Where the first page of a table or index lies in the file. */
function pageOf(folder: string, name: string): number {
  const db = new Database(join(folder, STORE_FILE));
  try {
    const page = db
      .prepare<[string], number>('SELECT rootpage FROM sqlite_schema WHERE name = ?')
      .pluck()
      .get(name);
    if (page === undefined || db.pragma('page_size', { simple: true }) !== PAGE_BYTES)
      throw new Error(`no page of ${name}`);
    return (page - 1) * PAGE_BYTES;
  } finally {
    db.close();
  }
}

test('a damaged record: plain words, a copy to read in, nothing new taken, the file as it was', async ({
  bench,
}) => {
  await prepareStore(bench.dataFolder, SCRIPT, INTAKE);
  // One page goes bad: that of an index by which nobody reads a job.
  overwrite(join(bench.dataFolder, STORE_FILE), pageOf(bench.dataFolder, 'event_by_type'), bad(PAGE_BYTES));
  const before = storeFiles(bench.dataFolder);
  const { page } = await bench.start();
  const notice = page.getByTestId('store-notice');
  await expect(notice).toContainText('The record is damaged');
  await expect(notice).toContainText('Restore the last backup');
  await expect(notice).toContainText('not touched');
  const copies = readdirSync(join(bench.dataFolder, 'read-only-copies'));
  expect(copies).toHaveLength(1);
  expect(existsSync(join(bench.dataFolder, 'read-only-copies', copies[0] ?? '', STORE_FILE))).toBe(true);

  const home = new HomePage(page);
  await home.openJob(PLATE);
  const { form } = new JobPage(page);
  await expect(form.input('intake.model')).toHaveValue('Petrel, 2026');
  await form.enter('intake.model', 'Petrel, 2027');
  await expect(form.mark('intake.model')).toHaveAttribute('data-mark', 'refused');
  await expect(form.field('intake.model')).toContainText('The record can only be read now');
  expect(storeFiles(bench.dataFolder)).toEqual(before);
});

test('a record damaged where its jobs lie: plain words, no first run over it, the file as it was', async ({
  bench,
}) => {
  await prepareStore(bench.dataFolder, SCRIPT, INTAKE);
  overwrite(join(bench.dataFolder, STORE_FILE), pageOf(bench.dataFolder, 'event'), bad(PAGE_BYTES));
  const before = storeFiles(bench.dataFolder);
  const { page } = await bench.start();
  await expect(page.getByTestId('store-notice')).toContainText('The record is damaged');
  await expect(page.getByTestId('open-demo')).toBeHidden();
  expect(storeFiles(bench.dataFolder)).toEqual(before);
});

test('a file that is no database: plain words, no first run over it', async ({ bench }) => {
  await prepareStore(bench.dataFolder, SCRIPT, INTAKE);
  overwrite(join(bench.dataFolder, STORE_FILE), 0, Buffer.from('this was a record once'));
  const before = storeFiles(bench.dataFolder);
  const { page } = await bench.start();
  const notice = page.getByTestId('store-notice');
  await expect(notice).toContainText('The record is damaged');
  await expect(notice).toContainText('cannot be shown from here');
  await expect(page.getByTestId('open-demo')).toBeHidden();
  expect(storeFiles(bench.dataFolder)).toEqual(before);
});

test('a record of a newer edition can be read, takes nothing, and stays as it is', async ({ bench }) => {
  await prepareStore(bench.dataFolder, SCRIPT, INTAKE);
  const db = new Database(join(bench.dataFolder, STORE_FILE));
  db.pragma('user_version = 9990');
  db.close();
  const before = storeFiles(bench.dataFolder);
  const { page } = await bench.start();
  const notice = page.getByTestId('store-notice');
  await expect(notice).toContainText('written by a newer edition');
  await expect(notice).toContainText('Install the newer edition');
  const home = new HomePage(page);
  await home.openJob(PLATE);
  const { form } = new JobPage(page);
  await expect(form.input('intake.model')).toHaveValue('Petrel, 2026');
  await form.enter('intake.model', 'Petrel, 2027');
  await expect(form.mark('intake.model')).toHaveAttribute('data-mark', 'refused');
  await expect(form.field('intake.model')).toContainText('The record can only be read now');
  await expect(form.input('intake.model')).toHaveValue('Petrel, 2027');
  expect(storeFiles(bench.dataFolder)).toEqual(before);
});

test('a missing key is said plainly at sign-off; the job is whole and is signed once the key is there', async ({
  bench,
}) => {
  const id = await prepareStore(bench.dataFolder, SCRIPT, SCRIPT.steps.slice(0, -1));
  const key = join(bench.dataFolder, 'installation.dtlkey');
  renameSync(key, `${key}.away`);
  const events = storedJob(bench.dataFolder, id).events.length;
  const first = await bench.start();
  const job = new JobPage(first.page);
  await new HomePage(first.page).choosePerson(SCRIPT.signer);
  await new HomePage(first.page).openJob(PLATE);
  await job.openStage('signoff');
  await job.signOff.hold.hover();
  await first.page.mouse.down();
  const trouble = first.page.getByRole('alert');
  await expect(trouble).toContainText('The signing key of this PC is not there');
  await first.page.mouse.up();
  await expect(trouble).toContainText('can be signed later');
  expect(storedJob(bench.dataFolder, id).events).toHaveLength(events);
  await first.app.close();

  renameSync(`${key}.away`, key);
  const second = await bench.start();
  const again = new JobPage(second.page);
  await new HomePage(second.page).openJob(PLATE);
  await again.openStage('signoff');
  await again.choosePerson(SCRIPT.signer);
  await again.signOff.signByPointer();
  expect(new Set(Object.values(await again.signOff.checkAnswers()))).toEqual(new Set(['yes']));
});
