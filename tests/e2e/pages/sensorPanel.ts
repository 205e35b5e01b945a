// The sensors of a job at Intake: listed, disposed of, with procedure and equipment.
import type { Locator, Page } from '@playwright/test';
import { expect } from './expect.ts';
import { chooseFromList } from './homePage.ts';
import { typeOver } from './keyboard.ts';

export class SensorPanel {
  readonly page: Page;

  constructor(page: Page) {
    this.page = page;
  }

  /** Lists a sensor; returns the id the window gave it. */
  async add(kind: string, name: string): Promise<string> {
    const before = await this.page.locator('[data-sensor]').count();
    await this.page.getByTestId('add-sensor').click();
    const dialog = this.page.getByRole('dialog');
    await dialog.locator(`[data-value="${kind}"]`).click();
    await dialog.getByRole('textbox').click();
    await typeOver(this.page, name);
    await this.page.keyboard.press('Enter');
    await expect(dialog).toBeHidden();
    const listed = this.page.locator('[data-sensor]');
    await expect(listed).toHaveCount(before + 1);
    return (await listed.nth(before).getAttribute('data-sensor')) ?? '';
  }

  private of(sensor: string): Locator {
    return this.page.locator(`[data-sensor="${sensor}"]`);
  }

  async dispose(sensor: string, disposition: string): Promise<void> {
    const choice = this.of(sensor).locator(`[data-field="intake.disposition@${sensor}"]`);
    await choice.locator(`[data-value="${disposition}"]`).click();
    await expect(this.of(sensor).locator('[data-mark]').first()).toHaveAttribute('data-mark', 'recorded');
  }

  async source(sensor: string, text: string): Promise<void> {
    const field = this.of(sensor).locator(`[data-field="intake.dispositionSource@${sensor}"]`);
    await field.locator('input').click();
    await this.page.keyboard.type(text);
    await this.page.keyboard.press('Enter');
    await expect(field.locator('[data-mark]')).toHaveAttribute('data-mark', 'recorded');
  }

  async procedure(sensor: string, procedure: string): Promise<void> {
    await chooseFromList(this.page, this.page.getByTestId(`procedure-${sensor}`), procedure);
  }

  /** Takes the equipment that is offered with this target and this care. */
  async equipment(sensor: string, target: string, work: string): Promise<void> {
    await chooseFromList(this.page, this.page.getByTestId(`target-${sensor}`), target);
    const field = this.of(sensor).locator(`[data-field="intake.equipment@${sensor}"]`);
    await field.locator(`[data-value="${work}"]`).click();
    await this.page.getByTestId(`use-equipment-${sensor}`).click();
    await expect(field.locator('[data-mark="recorded"]')).toBeVisible();
  }
}
