// A procedure written, reviewed and compared in the window.
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect } from './expect.ts';
import { chooseFromList } from './homePage.ts';

const PAGE = join(import.meta.dirname, '..', 'fixtures', 'onePage.pdf');

/** Types into a field of the form by its place in the document. */
export async function typeAt(page: Page, where: string, text: string): Promise<void> {
  await page.locator(`[data-field="${where}"] input`).fill(text);
}

/** Puts a PDF beside the form and waits until it has its own view. */
export async function putPage(page: Page): Promise<void> {
  await page.locator('.source-tools input[type="file"]').setInputFiles(PAGE);
  await expect(page.locator('iframe.source-page')).toBeVisible();
}

/** The whole quick sheet of an invented car. */
export async function fillQuickSheet(page: Page): Promise<void> {
  await typeAt(page, 'applicability.make', 'Tidewell');
  await typeAt(page, 'applicability.models', 'Tern');
  await typeAt(page, 'applicability.fromYear', '2025');
  await typeAt(page, 'source.document', 'Tidewell workshop sheet TN-12 (invented)');
  await typeAt(page, 'source.section', '4.1');
  await typeAt(page, 'stations.station1.ahead', '1500 mm');
  await chooseFromList(page, page.getByTestId('tolerance-stations.station1.ahead'), 'twoSided');
  await typeAt(page, 'stations.station1.ahead.tolerance', '10 mm');
  await typeAt(page, 'stations.station1.left', '20 mm');
  await chooseFromList(page, page.getByTestId('way-stations.station1.left'), 'against');
  await typeAt(page, 'stations.station1.up', '53 1/8 in');
  await typeAt(page, 'target.name', 'Pattern board, invented');
  await typeAt(page, 'target.width', '1180');
  await typeAt(page, 'target.height', '84 cm');
  await page.getByTestId('listed-conditions').locator('[data-value="doorsShut"]').click();
}

/** Records what the form holds and sees it in the shop's list. */
export async function record(page: Page, id: string, review: string): Promise<void> {
  await page.getByTestId('record-procedure').click();
  await expect(page.locator(`[data-procedure="${id}"] [data-review="${review}"]`)).toBeVisible();
}

/** Confirms every value beside the page, one by one, and records the review. */
export async function confirmAll(page: Page): Promise<void> {
  const ticks = page.getByTestId('value-ticks').getByRole('button');
  await expect(page.getByTestId('record-review')).toBeDisabled();
  for (const tick of await ticks.all()) await tick.click();
  await page.getByTestId('record-review').click();
}
