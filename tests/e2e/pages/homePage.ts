// First run, the list of jobs, and the dialog that opens one.
import type { Locator, Page } from '@playwright/test';
import { expect } from './expect.ts';

export interface NewJob {
  readonly vin: string;
  readonly plate: string;
  readonly order: string;
  /** Value of the bay's choice, where the shop has more than one. */
  readonly bay: string;
}

export class HomePage {
  readonly page: Page;
  readonly newJobButton: Locator;

  constructor(page: Page) {
    this.page = page;
    this.newJobButton = page.getByTestId('new-job');
  }

  /** The first start's own question, answered with the demo shop. */
  async openDemoShop(): Promise<void> {
    await this.page.getByTestId('open-demo').click();
    await expect(this.newJobButton).toBeVisible();
  }

  async choosePerson(id: string): Promise<void> {
    await choosePerson(this.page, id);
  }

  /** Opens a job by keyboard; the bay is tapped. Returns the job's id once it is open at Intake. */
  async openNewJob({ vin, plate, order, bay }: NewJob): Promise<string> {
    await this.newJobButton.click();
    const form = this.page.locator('[data-form="new-job"]');
    await expect(form.locator('[data-field="new.vin"] input')).toBeFocused();
    await this.page.keyboard.type(vin);
    await this.page.keyboard.press('Enter');
    await expect(form.locator('[data-field="new.intake.plate"] input')).toBeFocused();
    await this.page.keyboard.type(plate);
    await this.page.keyboard.press('Enter');
    await expect(form.locator('[data-field="new.intake.order"] input')).toBeFocused();
    await this.page.keyboard.type(order);
    await form.locator(`[data-value="${bay}"]`).click();
    await this.page.getByTestId('open-job').click();
    const job = this.page.locator('[data-job]');
    await expect(this.page.locator('.stage[data-view="intake"]')).toBeVisible();
    return (await job.first().getAttribute('data-job')) ?? '';
  }

  /** Opens the job whose plate this is from the list. */
  async openJob(plate: string): Promise<void> {
    await this.page.getByRole('button', { name: plate, exact: true }).click();
    await expect(this.page.locator('.stage')).toBeVisible();
  }

  async openCheck(): Promise<void> {
    await this.page.getByTestId('go-check').click();
  }
}

/** Chooses who works here now, in the rail of a job as at home. */
export async function choosePerson(page: Page, id: string): Promise<void> {
  await chooseFromList(page, page.getByTestId('person'), id);
}

/** Opens a list and takes the entry of this value. */
export async function chooseFromList(page: Page, list: Locator, value: string): Promise<void> {
  await list.getByRole('button').click();
  await page.getByRole('listbox').locator(`[data-key="${value}"]`).click();
  await expect(page.getByRole('listbox')).toBeHidden();
}
