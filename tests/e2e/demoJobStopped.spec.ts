// Refusing to sign, stopping honestly, and finding out a certificate that was changed.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { CertificateKind } from '../../core/job/events.ts';
import { readScript } from '../../electron/cli/playScript.ts';
import { newId } from '../../electron/service/clock.ts';
import type {} from '../../renderer/api.ts';
import { attachedRecord, jobOfTexts } from './certificateFacts.ts';
import { expect, test } from './fixtures.ts';
import { CheckPage } from './pages/checkPage.ts';
import { HomePage } from './pages/homePage.ts';
import { JobPage } from './pages/jobPage.ts';
import { WindowPlay } from './playInWindow.ts';
import { prepareStore } from './preparedStore.ts';
import { pdfWords } from './printedPdf.ts';
import { storedJob } from './storedJob.ts';

const WHOLE = readScript(new URL('../../assets/demo/demo-job.json', import.meta.url));
const STOPPED = readScript(new URL('../../assets/demo/demo-job-stopped.json', import.meta.url));
const PLATE = 'QUAY 61';

test('an incomplete job cannot be signed: the list says what is missing, leads there, and the service refuses too', async ({
  bench,
}) => {
  const placed = WHOLE.steps.findIndex((step) => step.do === 'moved');
  const id = await prepareStore(bench.dataFolder, WHOLE, WHOLE.steps.slice(0, placed));
  const { page } = await bench.start();
  const home = new HomePage(page);
  const job = new JobPage(page);
  await home.choosePerson(WHOLE.signer);
  await home.openJob(PLATE);
  await job.openStage('signoff');
  await expect(job.nextAction).toContainText('Not ready to sign');
  for (const text of ['a capture that passed', "The maker's routine", 'Odometer at handover']) {
    await expect(job.signOff.missing).toContainText(text);
  }
  await expect(job.signOff.stops).toContainText('The target stands outside its tolerance');
  await expect(job.signOff.hold).toBeDisabled();
  const { events } = storedJob(bench.dataFolder, id);
  const ask = (kind: CertificateKind): Promise<unknown> =>
    page.evaluate((input) => window.datumline.call('certificate.issue', input), {
      person: WHOLE.signer,
      job: id,
      commandId: newId(),
      expectedSeq: events.at(-1)?.seq ?? 0,
      kind,
      reason: 'because',
    });
  for (const kind of ['calibrated', 'routineCompletedPlacementNotShown', 'notCalibrated'] as const) {
    expect(await ask(kind), kind).toMatchObject({ ok: false, error: { code: 'certificate/incomplete' } });
  }
  expect(storedJob(bench.dataFolder, id).events).toHaveLength(events.length);
  await job.signOff.missing.getByRole('button', { name: 'Odometer at handover' }).click();
  await expect(page.locator('.stage[data-view="outcome"]')).toBeVisible();
  await expect(job.form.input('outcome.odometerOut')).toBeFocused();
});

test('a person without the right to sign is refused by the service as well', async ({ bench }) => {
  const id = await prepareStore(bench.dataFolder, WHOLE, WHOLE.steps.slice(0, -1));
  const { page } = await bench.start();
  const { events } = storedJob(bench.dataFolder, id);
  const answer = await page.evaluate((input) => window.datumline.call('certificate.issue', input), {
    person: WHOLE.person,
    job: id,
    commandId: newId(),
    expectedSeq: events.at(-1)?.seq ?? 0,
    kind: 'calibrated' as const,
    reason: '',
  });
  expect(answer).toMatchObject({ ok: false, error: { code: 'person/notAllowed' } });
});

test('a stopped job ends in a PDF that says not calibrated and why on page 1; a changed copy is found out', async ({
  page,
  bench,
  trouble,
}, info) => {
  test.setTimeout(300_000);
  const play = new WindowPlay(page, STOPPED);
  const { job } = play;
  await play.open();
  for (const step of STOPPED.steps)
    if (step.do !== 'field' || step.field !== 'signoff.stopReason') await play.play(step);
  const last = STOPPED.steps.at(-1);
  const words = last?.do === 'sign' ? last.reason : '';

  await job.openStage('signoff');
  await job.choosePerson(STOPPED.signer);
  await expect(job.signOff.stops).toContainText("Adhesive: the glue maker's waiting time");
  const kind = job.signOff.panel.getByTestId('certificate-kind').locator('[data-value="notCalibrated"]');
  await kind.click();
  await expect(job.signOff.panel).toHaveAttribute('data-kind', 'notCalibrated');
  await expect(job.signOff.panel).toContainText('Pick the reason why the work stops.');
  await expect(job.signOff.hold).toBeDisabled();
  await job.form.tap('signoff.stopReason', ['preCheckFailed']);
  await job.form.record('signoff.stopWords', words);
  await job.signOff.signByKeys();

  const file = join(bench.dataFolder, 'certificates', `${await job.signOff.fileDigest()}.pdf`);
  const first = pdfWords(file, 1, 1);
  for (const text of ['Not calibrated', 'a pre-check failed', words, 'Greta Anchor', 'warning shown']) {
    expect(first).toContain(text);
  }
  expect(first).not.toContain('Calibration carried out');
  const record = attachedRecord(file);
  expect(record.kind).toBe('notCalibrated');
  expect(jobOfTexts(record.events).fields['prechecks.adhesive']?.value).toBe('timeRunning');
  expect(new Set(Object.values(await job.signOff.checkAnswers()))).toEqual(new Set(['yes']));

  await page.getByTestId('go-home').click();
  await play.home.openCheck();
  const check = new CheckPage(page);
  const whole = readFileSync(file);
  await check.drop('as issued.pdf', whole);
  expect(new Set(Object.values(await check.answers()))).toEqual(new Set(['yes']));

  const changed = Buffer.from(whole);
  const middle = Math.floor(changed.length / 2);
  changed[middle] = (changed[middle] ?? 0) ^ 1;
  await check.drop('one bit changed.pdf', changed);
  await expect(check.report).toHaveAttribute('data-exit', '1');
  await expect(check.report).toContainText('do not rely on this file');
  expect((await check.answers()).signatureIntact).toBe('no');

  const longer = info.outputPath('appended.pdf');
  writeFileSync(longer, Buffer.concat([whole, Buffer.from('% one more line\n')]));
  await check.choose(longer);
  await expect(page.getByRole('heading', { name: 'appended.pdf' })).toBeVisible();
  await expect(check.report).toHaveAttribute('data-exit', '1');
  expect((await check.answers()).nothingAppended).toBe('no');

  await check.drop('a letter.txt', Buffer.from('Dear shop'), 'text/plain');
  await expect(check.report).toHaveAttribute('data-exit', /1|2/);
  trouble.expect('400');
  await check.drop('nothing.pdf', new Uint8Array());
  await expect(check.trouble).toBeVisible();
});
