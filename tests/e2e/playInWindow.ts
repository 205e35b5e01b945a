// Types a job script into the real window, step by step, by keyboard and pointer: no call reaches the service but through
// the page. Pre-checks and Outcome are done by keyboard alone.
import { expect, type Page } from '@playwright/test';
import { fieldKey } from '../../core/job/fieldKey.ts';
import { fieldById, type StageId } from '../../core/job/stages/index.ts';
import { slotKey } from '../../core/placement/recipe.ts';
import type { DemoScript, DemoStep } from '../../electron/cli/demoScript.ts';
import { HomePage } from './pages/homePage.ts';
import { JobPage } from './pages/jobPage.ts';

type StepOf<D extends DemoStep['do']> = Extract<DemoStep, { do: D }>;

/** Fields that the dialog for a new job asks for. */
const OPENING = ['intake.vin', 'intake.plate', 'intake.order'] as const;

/** Stages that are entered without the pointer. */
const BY_KEYBOARD: ReadonlySet<StageId> = new Set(['prechecks', 'outcome']);

const TAPPED: ReadonlySet<string> = new Set(['confirm', 'check', 'choice', 'choices']);

/** What is choice by choice in the window although its record is a text: the shop's own words for a bar's two ends. */
const TAPPED_FIELDS: ReadonlySet<string> = new Set(['placement.markedEnd']);

/** The slot key of a reading step. */
export function slotOfStep({ quantity, station, purpose }: StepOf<'reading'>): string {
  return slotKey({ id: quantity, purpose, ...(station === null ? {} : { station }) });
}

/** The stage at which a reading is entered. */
export function stageOfReading({ quantity, station, purpose }: StepOf<'reading'>): StageId {
  if (station !== null || purpose === 'control') return 'stations';
  if (quantity.startsWith('floor.')) return 'bay';
  return /^(bar|target|fixture)\./.test(quantity) ? 'placement' : 'datum';
}

export class WindowPlay {
  readonly page: Page;
  readonly script: DemoScript;
  readonly home: HomePage;
  readonly job: JobPage;
  /** The window's id of each of the script's sensors. */
  readonly sensors = new Map<string, string>();
  jobId = '';

  constructor(page: Page, script: DemoScript) {
    this.page = page;
    this.script = script;
    this.home = new HomePage(page);
    this.job = new JobPage(page);
  }

  private opening(field: string): string {
    const step = this.script.steps.find((each) => each.do === 'field' && each.field === field);
    return step?.do === 'field' ? step.text : '';
  }

  /** First run, the person, the new job. */
  async open(): Promise<void> {
    await this.home.openDemoShop();
    await this.openJob();
  }

  async openJob(): Promise<void> {
    await this.home.choosePerson(this.script.person);
    const [vin, plate, order] = OPENING.map((field) => this.opening(field));
    this.jobId = await this.home.openNewJob({
      vin: vin ?? '',
      plate: plate ?? '',
      order: order ?? '',
      bay: this.script.bay,
    });
  }

  private sensor(id: string | null): string | null {
    return id === null ? null : (this.sensors.get(id) ?? id);
  }

  /** Does one step and waits until it is recorded. `show` and `sign` are the test's own. */
  async play(step: DemoStep): Promise<void> {
    switch (step.do) {
      case 'field':
        return this.field(step);
      case 'sensor':
        return this.listSensor(step);
      case 'reading':
        return this.reading(step);
      case 'moved':
        return this.moved(step);
      case 'capture':
        return this.capture(step);
      case 'show':
      case 'sign':
        return undefined;
    }
  }

  private async field(step: StepOf<'field'>): Promise<void> {
    if (OPENING.some((field) => field === step.field)) return;
    const found = fieldById(step.field);
    if (found === undefined) throw new Error(`no field ${step.field}`);
    const { stage, field } = found;
    await this.job.openStage(stage.id);
    if (step.at.station !== null) await this.job.stations.open(step.at.station);
    const key = fieldKey(step.field, { ...step.at, sensor: this.sensor(step.at.sensor) });
    const tapped = TAPPED.has(field.kind) || TAPPED_FIELDS.has(step.field);
    const { form } = this.job;
    if (!tapped)
      await (BY_KEYBOARD.has(stage.id) ? form.typeByKeys(key, step.text) : form.record(key, step.text));
    else if (BY_KEYBOARD.has(stage.id)) await form.chooseByKeys(key, step.text);
    else
      await form.tap(
        key,
        step.text.split(',').map((each) => each.trim()),
      );
    await this.job.allRecorded();
  }

  private async listSensor(step: StepOf<'sensor'>): Promise<void> {
    await this.job.openStage('intake');
    const { sensors } = this.job;
    const id = await sensors.add(step.kind, step.name);
    this.sensors.set(step.sensor, id);
    await sensors.dispose(id, step.disposition);
    await sensors.source(id, step.source);
    if (step.procedure !== null) await sensors.procedure(id, step.procedure);
    if (step.target !== null) await sensors.equipment(id, step.target, step.work);
    await this.job.allRecorded();
  }

  /** Opens the stage, and the station, at which a reading is entered. */
  async goToReading(step: StepOf<'reading'>): Promise<void> {
    await this.job.openStage(stageOfReading(step));
    if (step.station !== null) await this.job.stations.open(step.station);
    else if (step.purpose === 'control') await this.job.stations.open('control');
  }

  private async reading(step: StepOf<'reading'>): Promise<void> {
    await this.goToReading(step);
    await this.job.desk.record(slotOfStep(step), step.text, step.direction);
    await this.job.allRecorded();
  }

  /** The fixture was moved in every way that was asked for: one tap says so. */
  private async moved(step: StepOf<'moved'>): Promise<void> {
    await this.job.openStage('placement');
    const before = await this.job.setUps.textContent();
    const all = this.page.getByTestId('moves-all-done');
    const done = (await all.isVisible()) ? all : this.page.getByTestId('move-done');
    await (step.cause === 'moveDone' ? done : this.page.getByTestId(`${step.body}-moved`)).click();
    await expect(this.job.setUps).not.toHaveText(before ?? '');
    await this.job.allRecorded();
  }

  private async capture(step: StepOf<'capture'>): Promise<void> {
    if (step.result !== 'passed') throw new Error('the script fails a capture: teach the play how');
    await this.job.openStage('stations');
    await this.job.stations.open(step.station);
    await this.job.stations.capturePassed();
    await this.job.allRecorded();
  }
}
