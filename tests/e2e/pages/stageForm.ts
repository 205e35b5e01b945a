// The fields of a stage, by their keys. Every entry is waited for until its own mark says recorded.
import type { Locator, Page } from '@playwright/test';
import { expect } from './expect.ts';
import { chooseByArrows, tabInto, typeOver } from './keyboard.ts';

export class StageForm {
  readonly page: Page;

  constructor(page: Page) {
    this.page = page;
  }

  field(key: string): Locator {
    return this.page.locator(`[data-field="${key}"]`);
  }

  input(key: string): Locator {
    return this.field(key).locator('input');
  }

  mark(key: string): Locator {
    return this.field(key).locator('[data-mark]').first();
  }

  async isRecorded(key: string): Promise<void> {
    await expect(this.mark(key)).toHaveAttribute('data-mark', 'recorded');
  }

  /** Types a text without sending it. The box is clicked unless the focus is in it already. */
  async type(key: string, text: string): Promise<void> {
    const input = this.input(key);
    await expect(input).toBeVisible();
    if (!(await input.evaluate((element) => element === document.activeElement))) await input.click();
    await typeOver(this.page, text);
  }

  /** Types a text and presses Enter. */
  async enter(key: string, text: string): Promise<void> {
    await this.type(key, text);
    await this.page.keyboard.press('Enter');
  }

  /** Types, sends, and waits for the record. */
  async record(key: string, text: string): Promise<void> {
    await this.enter(key, text);
    await this.isRecorded(key);
  }

  /** Taps each of these values. */
  async tap(key: string, values: readonly string[]): Promise<void> {
    for (const value of values) await this.field(key).locator(`[data-value="${value}"]`).click();
    await this.isRecorded(key);
  }

  /** Comes from the field before by Tab, chooses by arrows and Space. */
  async chooseByKeys(key: string, value: string): Promise<void> {
    const field = this.field(key);
    if (!(await tabInto(this.page, field))) throw new Error(`Tab does not lead to ${key}`);
    await chooseByArrows(this.page, field, value);
    await this.isRecorded(key);
  }

  /** Comes from the field before by Tab, types and presses Enter. */
  async typeByKeys(key: string, text: string): Promise<void> {
    if (!(await tabInto(this.page, this.field(key)))) throw new Error(`Tab does not lead to ${key}`);
    await this.record(key, text);
  }
}
