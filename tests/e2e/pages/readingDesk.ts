// The readings of a stage: the current one large, the lap of all of them, the plan.
import type { Locator, Page } from '@playwright/test';
import { expect } from './expect.ts';
import { typeOver } from './keyboard.ts';

export class ReadingDesk {
  readonly page: Page;
  readonly panel: Locator;
  readonly input: Locator;
  readonly plan: Locator;
  readonly question: Locator;
  readonly refusal: Locator;
  /** How often a reading had to be opened because it was not the next by itself. */
  opened = 0;

  constructor(page: Page) {
    this.page = page;
    this.panel = page.getByTestId('reading');
    this.input = this.panel.locator('.field-large input');
    this.plan = page.getByTestId('plan');
    this.question = this.panel.getByTestId('question');
    this.refusal = this.panel.getByTestId('refusal');
  }

  step(slot: string): Locator {
    return this.page.locator(`.lap [data-slot="${slot}"]`);
  }

  /** Makes this reading the current one, by a tap on its step unless it is so by itself. */
  async open(slot: string): Promise<void> {
    // These readings prove: nobody is led to the place first.
    const skip = this.page.getByTestId('quick-skip');
    if (!slot.endsWith('!guide') && (await skip.isVisible())) await skip.click();
    await expect(this.panel).toBeVisible();
    const current = this.page.locator(`[data-testid="reading"][data-slot="${slot}"]`);
    if (!(await current.isVisible())) {
      this.opened += 1;
      await this.step(slot).click();
    }
    await expect(current).toBeVisible();
    // After a field of the form beside the readings the box is not in focus: a tap brings it there.
    if (!(await this.input.evaluate((element) => element === document.activeElement)))
      await this.input.click();
    await expect(this.input).toBeFocused();
  }

  /** Types digits without sending them. */
  async type(text: string): Promise<void> {
    await typeOver(this.page, text);
    await expect(this.input).toHaveValue(text);
  }

  async direction(way: string): Promise<void> {
    await this.panel.locator(`[data-value="${way}"]`).click();
    await expect(this.panel.locator(`[data-value="${way}"]`)).toHaveAttribute('aria-checked', 'true');
    await this.input.focus();
  }

  async enter(): Promise<void> {
    await this.page.keyboard.press('Enter');
  }

  async isRecorded(slot: string): Promise<void> {
    await expect(this.step(slot)).toHaveAttribute('data-state', /recorded|suspect/);
  }

  /** Opens, types, sends, and waits for the record. */
  async record(slot: string, text: string, direction: string | null = null): Promise<void> {
    await this.open(slot);
    if (direction !== null) await this.direction(direction);
    await this.type(text);
    await this.enter();
    await this.isRecorded(slot);
  }

  /** Values that stand for the current reading, as shown. */
  get standing(): Locator {
    return this.panel.locator('.standing-value');
  }

  /** Every stroke of the plan as it is drawn now. */
  drawing(): Promise<string> {
    return this.plan.locator('.plan-sheet svg').first().innerHTML();
  }

  card(coordinate: string): Locator {
    return this.page.locator(`[data-testid="cards"] [data-coordinate="${coordinate}"]`);
  }

  get moves(): Locator {
    return this.page.getByTestId('moves').locator('li');
  }
}
