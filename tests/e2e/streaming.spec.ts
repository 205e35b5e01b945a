// A tape that sends a thousand lines a second: the window shows the newest, takes one event, says that it was unplugged
// and is connected again. Beside it a device that types its numbers like a keyboard.
import { readingText } from '../../renderer/state/readingEntry.ts';
import { violations } from './axe.ts';
import { expect, test } from './fixtures.ts';
import { ReadingDesk } from './pages/readingDesk.ts';
import { takePicture } from './pictures.ts';
import { goTo, setSystemTheme, stepIndex, WHOLE } from './preparedShop.ts';
import { prepareStore } from './preparedStore.ts';
import { recordStream, SendingTape, TAPE_FORMAT } from './sendingTape.ts';
import { storedJob } from './storedJob.ts';

const FIRST = stepIndex((step) => step.do === 'reading' && step.quantity === 'bar.sameL');
const TAPE = 'tape-1';

const lengths = WHOLE.steps.slice(FIRST).flatMap((step) => (step.do === 'reading' ? [step] : []));
const mmOf = (index: number): number => Number((lengths[index]?.text ?? '').replace(',', '.'));
const idOf = (index: number): string => lengths[index]?.quantity ?? '';
const shown = (mm: number): string => readingText(mm, { unit: 'mm', decimals: 1 });

test('the newest of a thousand lines a second is shown, taken once, and missed when it is unplugged', async ({
  bench,
}) => {
  const tape = new SendingTape(mmOf(0));
  await tape.plugIn();
  const job = await prepareStore(bench.dataFolder, WHOLE, WHOLE.steps.slice(0, FIRST));
  const source = { kind: 'tcp' as const, host: '127.0.0.1', port: tape.port };
  await recordStream(bench.dataFolder, TAPE, { source, format: TAPE_FORMAT });
  const launched = await bench.start();
  const { page } = launched;
  const desk = new ReadingDesk(page);
  const value = page.getByTestId('live-value');
  const connection = page.getByTestId('connection');
  const live = page.getByTestId('live');
  const readings = (quantity: string) =>
    storedJob(bench.dataFolder, job).events.flatMap((event) =>
      event.type === 'readingRecorded' && event.payload.quantity === quantity ? [event.payload] : [],
    );

  await test.step('the newest value, live', async () => {
    await goTo(page, `#/job/${job}/placement`, '.desk');
    // The fixture stands near already: straight to the readings that prove.
    await page.getByTestId('quick-skip').click();
    await expect(connection).toHaveAttribute('data-state', 'open');
    await expect(value).toHaveText(shown(mmOf(0)));
    await expect(desk.plan).toBeVisible();
    expect(await violations(page)).toEqual([]);
    await setSystemTheme(page, 'light');
    await takePicture(launched, 'live-light');
    tape.shows(mmOf(0) + 1.5);
    await expect(value).toHaveText(shown(mmOf(0) + 1.5));
    tape.say('#*!\r\n');
    await expect(live).toContainText(/1 of \d+ lines could not be read/);
  });

  await test.step('Enter on the empty box takes it: one event', async () => {
    await expect(desk.input).toBeFocused();
    await expect(desk.input).toHaveValue('');
    await desk.enter();
    await desk.isRecorded(idOf(0));
    await expect.poll(() => readings(idOf(0)).length).toBe(1);
    const [reading] = readings(idOf(0));
    expect(reading?.instrument).toBe(TAPE);
    expect(reading?.taken?.n).toBeGreaterThan(100);
    expect(reading?.value).toBeCloseTo(reading?.taken?.mean ?? Number.NaN, 9);
    expect(reading?.taken?.lastLine).toMatch(/^D1 \+\d+\.\d\d mm$/);
    expect(reading?.taken?.s).toBeGreaterThan(0);
  });

  await test.step("the clicker's next takes the next one, a typing device the one after", async () => {
    tape.shows(mmOf(1));
    await expect(page.locator(`[data-testid="reading"][data-slot="${idOf(1)}"]`)).toBeVisible();
    await expect(value).toHaveText(shown(mmOf(1)));
    // A take is a second's mean: the value before has to leave it.
    await expect(page.getByTestId('take')).toBeEnabled();
    await page.keyboard.press('PageDown');
    await desk.isRecorded(idOf(1));
    await expect.poll(() => readings(idOf(1)).length).toBe(1);
    await expect(page.locator(`[data-testid="reading"][data-slot="${idOf(2)}"]`)).toBeVisible();
    await expect(desk.input).toBeFocused();
    await page.keyboard.type(`${mmOf(2)}`, { delay: 2 });
    await page.keyboard.press('Enter');
    await desk.isRecorded(idOf(2));
    expect(readings(idOf(2))).toMatchObject([{ value: mmOf(2), text: `${mmOf(2)}` }]);
    expect(readings(idOf(2))[0]?.taken).toBeUndefined();
  });

  await test.step('unplugged in the middle of a line: said, and half a number is none', async () => {
    await tape.unplug();
    await expect(connection).toHaveAttribute('data-state', 'waiting');
    await expect(live).toContainText(/127\.0\.0\.1/);
    await expect(page.getByTestId('take')).toBeDisabled();
    await expect(value).toHaveText(shown(mmOf(1)));
    await setSystemTheme(page, 'dark');
    await takePicture(launched, 'live-unplugged-dark');
  });

  await test.step('plugged in again: connected by itself', async () => {
    tape.shows(mmOf(3));
    await tape.plugIn();
    await expect(connection).toHaveAttribute('data-state', 'open', { timeout: 35_000 });
    await expect(value).toHaveText(shown(mmOf(3)));
    await expect(page.getByTestId('take')).toBeEnabled();
  });

  await test.step('leaving the job disconnects', async () => {
    await page.getByTestId('go-home').click();
    await expect
      .poll(() =>
        page.evaluate(async () => {
          const answer = await window.datumline.call('instrument.states', {});
          return answer.ok ? answer.value.connections.length : -1;
        }),
      )
      .toBe(0);
  });
  await tape.unplug();
});
