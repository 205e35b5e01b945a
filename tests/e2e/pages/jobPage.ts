// One open job: the line at the top, the rail, and the marks that say what is recorded.
import type { Locator, Page } from '@playwright/test';
import type { StageId } from '../../../core/job/stages/index.ts';
import { expect } from './expect.ts';
import { choosePerson } from './homePage.ts';
import { ReadingDesk } from './readingDesk.ts';
import { SensorPanel } from './sensorPanel.ts';
import { SignOffPage } from './signOffPage.ts';
import { StageForm } from './stageForm.ts';
import { StationsPage } from './stationsPage.ts';

export class JobPage {
  readonly page: Page;
  readonly nextAction: Locator;
  readonly form: StageForm;
  readonly sensors: SensorPanel;
  readonly desk: ReadingDesk;
  readonly stations: StationsPage;
  readonly signOff: SignOffPage;

  constructor(page: Page) {
    this.page = page;
    this.nextAction = page.getByTestId('next-action');
    this.form = new StageForm(page);
    this.sensors = new SensorPanel(page);
    this.desk = new ReadingDesk(page);
    this.stations = new StationsPage(page);
    this.signOff = new SignOffPage(page);
  }

  async openStage(stage: StageId): Promise<void> {
    const shown = this.page.locator(`.stage[data-view="${stage}"]`);
    if (!(await shown.isVisible())) await this.page.locator(`.rail [data-stage="${stage}"]`).click();
    await expect(shown).toBeVisible();
  }

  stageState(stage: StageId): Locator {
    return this.page.locator(`.rail [data-stage="${stage}"]`);
  }

  /** Nothing is typed, sent or waiting: all of the job stands in the record. */
  async allRecorded(): Promise<void> {
    await expect(this.page.locator('[data-overall]')).toHaveAttribute('data-overall', 'recorded');
  }

  /** Every command has its answer; something may still be typed. */
  async allSent(): Promise<void> {
    await expect(this.page.locator('[data-overall]')).toHaveAttribute('data-overall', /recorded|typing/);
  }

  /** Every piece of text in the window, one by one. */
  texts(): Promise<readonly string[]> {
    return this.page.locator('body').evaluate((body) => {
      const walker = document.createTreeWalker(body, NodeFilter.SHOW_TEXT);
      const texts: string[] = [];
      while (walker.nextNode()) texts.push(walker.currentNode.nodeValue ?? '');
      return texts;
    });
  }

  /** "Set-ups: car 1, fixture 2". */
  get setUps(): Locator {
    return this.page.getByTestId('set-ups');
  }

  choosePerson(id: string): Promise<void> {
    return choosePerson(this.page, id);
  }
}
