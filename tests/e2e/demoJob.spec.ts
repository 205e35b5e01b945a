// The whole demo job in the real window, by keyboard and pointer: from the first start to a signed and checked PDF. The
// script is the one the command line plays; here every text of it is typed and every choice is tapped.
import { join } from 'node:path';
import { reduce } from '../../core/job/reduce.ts';
import { placementInput, solveJob } from '../../core/job/solve.ts';
import { withoutThenRead, wordFaults } from '../../core/words/index.ts';
import type { DemoStep } from '../../electron/cli/demoScript.ts';
import { sentence } from '../../electron/cli/placementReport.ts';
import { readScript } from '../../electron/cli/playScript.ts';
import { attachedRecord, comparePrintedNumbers } from './certificateFacts.ts';
import { expect, test } from './fixtures.ts';
import { BAY, takePicture } from './pictures.ts';
import { slotOfStep, WindowPlay } from './playInWindow.ts';
import { pdfWords } from './printedPdf.ts';
import { factsOfEvents, factsOfScript } from './scriptFacts.ts';
import { type StoredJob, storedJob } from './storedJob.ts';

const SCRIPT = readScript(new URL('../../assets/demo/demo-job.json', import.meta.url));
const COORDINATES = ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const;

/** Index of the `nth` step that fits. */
function indexOf(fits: (step: DemoStep) => boolean, nth = 1): number {
  const found = SCRIPT.steps.flatMap((step, index) => (fits(step) ? [index] : []))[nth - 1];
  if (found === undefined) throw new Error('the script has no such step');
  return found;
}

const startsStage = (stage: string) =>
  indexOf((step) => step.do === 'field' && step.field.startsWith(`${stage}.`));
const at = {
  prechecks: startsStage('prechecks'),
  bay: startsStage('bay'),
  datum: startsStage('datum'),
  placement: startsStage('placement'),
  firstFound: indexOf((step) => step.do === 'show', 1),
  moved: indexOf((step) => step.do === 'moved'),
  proven: indexOf((step) => step.do === 'show', 2),
  stations: startsStage('stations'),
  lastShow: indexOf((step) => step.do === 'show', 3),
  outcome: startsStage('outcome'),
} as const;

/** What the core makes of the camera from what the store holds. */
function cameraOf(stored: StoredJob) {
  const job = reduce(stored.events);
  const sensor = job?.sensors.find((each) => each.disposition === 'staticHere');
  if (job === undefined || sensor === undefined) throw new Error('no sensor is calibrated here');
  const answer = solveJob(job, sensor);
  const input = placementInput(job, sensor);
  if (!answer.ok || !input.ok) throw new Error('the placement cannot be solved');
  return { answer: answer.value, stations: input.value.stations };
}

/** Types a reading digit by digit and looks at the plan before Enter: it must have moved, and nothing be recorded. */
async function typesLive(play: WindowPlay, step: DemoStep, recorded: () => number): Promise<void> {
  if (step.do !== 'reading') throw new Error('not a reading');
  const { desk } = play.job;
  await play.goToReading(step);
  await desk.open(slotOfStep(step));
  if (step.direction !== null) await desk.direction(step.direction);
  const before = { drawing: await desk.drawing(), events: recorded() };
  for (const digit of step.text) await play.page.keyboard.type(digit);
  await expect.poll(() => desk.drawing()).not.toBe(before.drawing);
  await expect(desk.plan).toHaveAttribute('data-preview', 'true');
  await expect(play.page.locator('[data-overall]')).toHaveAttribute('data-overall', 'typing');
  expect(recorded()).toBe(before.events);
  await desk.enter();
  await desk.isRecorded(slotOfStep(step));
  await play.job.allRecorded();
  expect(recorded()).toBe(before.events + 1);
}

test('the demo job, typed and tapped in the window, ends in a PDF whose numbers are the core’s', async ({
  launched,
  page,
  bench,
}) => {
  test.setTimeout(420_000);
  const play = new WindowPlay(page, SCRIPT);
  const { job } = play;
  const stored = (): StoredJob => storedJob(bench.dataFolder, play.jobId);
  const steps = (from: number, to: number): readonly DemoStep[] => SCRIPT.steps.slice(from, to);
  /** No signed number and no banned word anywhere in the window. */
  const wordsAreFit = async (): Promise<void> => expect((await job.texts()).flatMap(wordFaults)).toEqual([]);
  const playAll = async (from: number, to: number): Promise<void> => {
    for (const step of steps(from, to)) await play.play(step);
  };

  await test.step('first run, a new job', async () => {
    await play.home.openDemoShop();
    await takePicture(launched, 'home-empty');
    await play.openJob();
    await job.allRecorded();
  });

  await test.step('Intake and Pre-checks', async () => {
    await playAll(0, at.prechecks);
    await expect(job.stageState('intake')).toHaveAttribute('data-state', 'done');
    await wordsAreFit();
    await takePicture(launched, 'intake');
    await playAll(at.prechecks, at.bay);
    await expect(job.stageState('prechecks')).toHaveAttribute('data-state', 'done');
    await wordsAreFit();
    await takePicture(launched, 'prechecks');
  });

  await test.step('Bay and Datum: the lap round the car', async () => {
    await playAll(at.bay, at.datum);
    await wordsAreFit();
    await takePicture(launched, 'bay');
    await expect(job.stageState('bay')).toHaveAttribute('data-state', 'done');
    const halfWay = at.datum + 9;
    await playAll(at.datum, halfWay);
    await wordsAreFit();
    await takePicture(launched, 'datum');
    const width = indexOf((step) => step.do === 'reading' && step.quantity === 'width.ahead');
    await playAll(halfWay, width);
    await playAll(width, at.placement);
    await expect(job.stageState('datum')).toHaveAttribute('data-state', 'done');
  });

  await test.step('Placement: read, with the plan moving as digits are typed', async () => {
    const last = at.firstFound - 1;
    await playAll(at.placement, last);
    await typesLive(play, SCRIPT.steps[last] ?? { do: 'show', sensor: '' }, () => stored().events.length);
    const { answer } = cameraOf(stored());
    // Several moves are made one after the other before anything is read again.
    const { wordKey, values } = answer.nextAction;
    await expect(job.nextAction).toHaveText(withoutThenRead(sentence(wordKey, values)));
    await expect(job.nextAction).toContainText(/^Turn: car's-left end \d+ mm away from the car/);
    await expect(job.desk.card('yaw')).toContainText('outside');
    await expect(job.desk.card('yaw')).toContainText("car's-left end toward the car");
    await expect(job.desk.card('ahead')).toContainText('beyond, not proven');
    await expect(job.desk.card('left')).toContainText("to the car's left");
    await wordsAreFit();
    await takePicture(launched, 'placement-before');
    await takePicture(launched, 'placement-before-bay', { size: BAY });
  });

  await test.step('the move, and the proof', async () => {
    await playAll(at.moved, at.moved + 1);
    await expect(job.nextAction).toContainText(/^Read/);
    await playAll(at.moved + 1, at.proven - 1);
    await typesLive(
      play,
      SCRIPT.steps[at.proven - 1] ?? { do: 'show', sensor: '' },
      () => stored().events.length,
    );
    for (const coordinate of COORDINATES) {
      await expect(job.desk.card(coordinate).locator('[data-verdict]'), coordinate).toHaveAttribute(
        'data-verdict',
        'proven',
      );
    }
    await expect(job.nextAction).toHaveText('Capture on the scan tool: Centre');
    await wordsAreFit();
    await takePicture(launched, 'placement-proven');
    await takePicture(launched, 'placement-proven-bay', { size: BAY });
  });

  await test.step('Stations: slide, read, capture', async () => {
    await playAll(at.stations, at.stations + 2);
    await expect(job.nextAction).toContainText(/^Set the slide to \d+\.\d mm at the car's left/);
    await playAll(at.stations + 2, at.stations + 4);
    await wordsAreFit();
    await takePicture(launched, 'stations');
    await playAll(at.stations + 4, at.lastShow);
    const { answer } = cameraOf(stored());
    expect(answer.worst).toBe('proven');
    expect(answer.nextAction.wordKey).toBe('next.proven');
    await expect(job.nextAction).toContainText('Capture on the scan tool');
    await playAll(at.lastShow, at.outcome);
    await expect(job.nextAction).toHaveText('Stations done. Go on with Outcome.');
  });

  await test.step('Outcome', async () => {
    await playAll(at.outcome, SCRIPT.steps.length);
    await expect(job.nextAction).toHaveText('Outcome done. Go on with Sign-off.');
  });

  await test.step('Sign-off: only a signer, only by a held press', async () => {
    await job.openStage('signoff');
    await expect(page.getByTestId('nothing-missing')).toContainText('Nothing is missing.');
    await expect(job.signOff.panel).toHaveAttribute('data-kind', 'calibrated');
    await expect(job.signOff.panel).toContainText('does not sign here');
    await expect(job.signOff.hold).toBeHidden();
    await job.choosePerson(SCRIPT.signer);
    await expect(job.nextAction).toHaveText('Read what is below, then hold to sign.');
    await wordsAreFit();
    await takePicture(launched, 'signoff');
    const events = stored().events.length;
    await job.signOff.hold.click();
    await expect(job.signOff.hold).not.toHaveAttribute('data-holding', 'true');
    expect(stored().events).toHaveLength(events);
    await job.signOff.signByPointer();
    await expect(job.signOff.number).toHaveText(/^QUAY-2-\d{4}-0001$/);
    await expect(job.nextAction).toHaveText('Signed. Hand over the certificate.');
  });

  const digest = await job.signOff.fileDigest();
  const file = join(bench.dataFolder, 'certificates', `${digest}.pdf`);

  await test.step('every answer of the check is yes', async () => {
    const answers = await job.signOff.checkAnswers();
    expect(Object.keys(answers).length).toBeGreaterThanOrEqual(8);
    expect(new Set(Object.values(answers))).toEqual(new Set(['yes']));
    await expect(job.signOff.certificate.getByTestId('check')).toHaveAttribute('data-exit', '0');
    await expect(launched.page.locator('iframe')).toHaveAttribute('src', new RegExp(digest));
    // Chromium's own view of a PDF tells nobody when it has drawn: its pictures are taken for the README only.
    if (process.env.DATUMLINE_PICTURES === '1') {
      await takePicture(launched, 'certificate', { pdf: true });
      await takePicture(launched, 'certificate-bay', { size: BAY, pdf: true });
    }
  });

  await test.step('the printed numbers are the core’s for the same events', async () => {
    // Three stations, six coordinates, six numbers and a verdict each.
    expect(comparePrintedNumbers(file)).toBe(3 * 6 * 7);
    const first = pdfWords(file, 1, 1);
    for (const text of [
      'QUAY 61',
      '1DEM0CAR5TH000001',
      'Calibration carried out',
      'Tobias Lantern',
      'PT-61',
    ]) {
      expect(first).toContain(text);
    }
  });

  await test.step('the record holds the script’s facts, each once, and both chains are whole', async () => {
    const { events, personal, drafts, problems } = stored();
    const { stations } = cameraOf(stored());
    expect([...factsOfEvents(events, personal)].sort()).toEqual(
      [...factsOfScript(SCRIPT, play.sensors, stations)].sort(),
    );
    expect(problems).toEqual([]);
    expect(drafts).toEqual({});
    expect(attachedRecord(file).events).toHaveLength(events.length - 2);
    const people = new Set(events.map((event) => event.person));
    expect(people).toEqual(new Set([SCRIPT.person, SCRIPT.signer]));
  });

  await test.step('the list of jobs shows the certificate', async () => {
    await page.getByTestId('go-home').click();
    await expect(page.locator(`tr[data-job="${play.jobId}"]`)).toContainText('QUAY-2-');
    await takePicture(launched, 'home');
  });

  // Nearly every reading opened by itself, in walking order.
  expect(job.desk.opened).toBeLessThanOrEqual(1);
});
