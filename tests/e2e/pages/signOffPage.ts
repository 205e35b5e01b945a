// Sign-off: what is missing, the held press, and the certificate with its check.
import type { Locator, Page } from '@playwright/test';
import { expect } from './expect.ts';

export class SignOffPage {
  readonly page: Page;
  readonly panel: Locator;
  readonly hold: Locator;
  readonly missing: Locator;
  readonly stops: Locator;
  readonly certificate: Locator;

  constructor(page: Page) {
    this.page = page;
    this.panel = page.getByTestId('sign-panel');
    this.hold = page.getByTestId('sign');
    this.missing = page.getByTestId('missing');
    this.stops = page.getByTestId('stops');
    this.certificate = page.getByTestId('certificate');
  }

  /** Holds the press until the certificate is there, then lets go. */
  async signByPointer(): Promise<void> {
    await this.hold.hover();
    await this.page.mouse.down();
    await expect(this.hold).toHaveAttribute('data-holding', 'true');
    await expect(this.certificate).toBeVisible({ timeout: 60_000 });
    await this.page.mouse.up();
  }

  /** The same by keyboard: Space held down. */
  async signByKeys(): Promise<void> {
    await this.hold.focus();
    await this.page.keyboard.down('Space');
    await expect(this.certificate).toBeVisible({ timeout: 60_000 });
    await this.page.keyboard.up('Space');
  }

  /** Digest of the file that is shown. */
  async fileDigest(): Promise<string> {
    const address = await this.certificate.locator('a[download]').getAttribute('href');
    return address?.split('/').at(-1) ?? '';
  }

  get number(): Locator {
    return this.page.getByTestId('certificate-number');
  }

  /** The lines of the check, by id: yes, no or unknown. */
  async checkAnswers(): Promise<Readonly<Record<string, string>>> {
    return checkAnswers(this.certificate);
  }
}

/** Answers of a shown check by the id of their line. */
export async function checkAnswers(place: Locator): Promise<Readonly<Record<string, string>>> {
  await expect(place.getByTestId('check')).toBeVisible({ timeout: 30_000 });
  const lines = await place
    .locator('[data-check]')
    .evaluateAll((elements) =>
      elements.map((element) => [element.getAttribute('data-check'), element.getAttribute('data-answer')]),
    );
  return Object.fromEntries(lines);
}
