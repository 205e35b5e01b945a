// Stations: which one is looked at, and the attempts on the maker's scan tool.
import type { Locator, Page } from '@playwright/test';
import { expect } from './expect.ts';

export class StationsPage {
  readonly page: Page;
  readonly tabs: Locator;
  readonly capture: Locator;

  constructor(page: Page) {
    this.page = page;
    this.tabs = page.getByTestId('stations');
    this.capture = page.getByTestId('capture');
  }

  /** `control` is the reading after the last station. */
  async open(station: string): Promise<void> {
    const tab = this.tabs.locator(`[data-value="${station}"]`);
    if ((await tab.getAttribute('aria-checked')) !== 'true') await tab.click();
    await expect(tab).toHaveAttribute('aria-checked', 'true');
  }

  async capturePassed(): Promise<void> {
    const attempts = this.capture.locator('.attempts li');
    const before = await attempts.count();
    await this.page.getByTestId('capture-passed').click();
    await expect(attempts).toHaveCount(before + 1);
  }
}
