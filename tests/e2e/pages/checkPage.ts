// The screen that checks any certificate: dropped on it, or picked.
import type { Locator, Page } from '@playwright/test';
import { checkAnswers } from './signOffPage.ts';

export class CheckPage {
  readonly page: Page;
  readonly dropPlace: Locator;
  readonly report: Locator;
  readonly trouble: Locator;

  constructor(page: Page) {
    this.page = page;
    this.dropPlace = page.locator('.drop');
    this.report = page.getByTestId('check');
    this.trouble = page.getByRole('alert');
  }

  /** Drops a file on the place for it, as the system hands it over. */
  async drop(name: string, bytes: Uint8Array, type = 'application/pdf'): Promise<void> {
    const base64 = Buffer.from(bytes).toString('base64');
    const carried = await this.page.evaluateHandle(
      (file) => {
        const content = Uint8Array.from(atob(file.base64), (character) => character.charCodeAt(0));
        const transfer = new DataTransfer();
        transfer.items.add(new File([content], file.name, { type: file.type }));
        return transfer;
      },
      { base64, name, type },
    );
    await this.dropPlace.dispatchEvent('drop', { dataTransfer: carried });
    await this.page.getByRole('heading', { name }).waitFor();
  }

  /** Picks a file through the system's own dialog. */
  async choose(path: string): Promise<void> {
    const [chooser] = await Promise.all([
      this.page.waitForEvent('filechooser'),
      this.page.getByTestId('choose-file').click(),
    ]);
    await chooser.setFiles(path);
  }

  answers(): Promise<Readonly<Record<string, string>>> {
    return checkAnswers(this.page.locator('main'));
  }
}
