/** Plays a typed job against the service's calls, exactly as the window would send it. */
import { readFileSync } from 'node:fs';
import type { CallName, Input, Output } from '../../core/contract/index.ts';
import { parseQuantity } from '../../core/entry/index.ts';
import type { Equipment } from '../../core/job/equipment.ts';
import {
  fieldPayload,
  readingEntry,
  readingPayload,
  typedConditionValue,
  typedValue,
} from '../../core/job/facts.ts';
import type { Job, JobSensor } from '../../core/job/job.ts';
import { eventsOfTexts } from '../../core/job/readEvents.ts';
import { reduce } from '../../core/job/reduce.ts';
import type { Shop } from '../../core/job/shop.ts';
import { placementInput } from '../../core/job/solve.ts';
import { fieldById } from '../../core/job/stages/index.ts';
import type { ReadingSlot } from '../../core/placement/placementReading.ts';
import { defaultRecipe, type ReadingSpec, specOf } from '../../core/placement/recipe.ts';
import { newId } from '../service/clock.ts';
import type { Dispatch } from '../service/host/dispatch.ts';
import { type DemoScript, type DemoStep, demoScriptSchema } from './demoScript.ts';

/** A step the service or a parser refused: the script or the program is wrong, so the play stops. */
export class ScriptError extends Error {
  constructor(step: string, problem: string) {
    super(`${step}: ${problem}`);
    this.name = 'ScriptError';
  }
}

/** Reads a script file. */
export function readScript(file: string | URL): DemoScript {
  return demoScriptSchema.parse(JSON.parse(readFileSync(file, 'utf8')));
}

/** Calls the service and insists on success. */
export async function callOrThrow<N extends CallName>(
  dispatch: Dispatch,
  name: N,
  input: Input<N>,
): Promise<Output<N>> {
  const envelope = await dispatch.call(name, JSON.stringify(input));
  if (!envelope.ok) {
    throw new ScriptError(name, `${envelope.error.code} ${JSON.stringify(envelope.error.details)}`);
  }
  return envelope.value as Output<N>;
}

type Recorded = { readonly type: string; readonly v: 1; readonly payload: Record<string, unknown> };

/** What the player tells as it goes. */
export interface PlayListener {
  readonly shown: (job: Job, sensor: JobSensor) => void;
  readonly signed: (certificate: Output<'certificate.issue'>) => void;
}

/** One job under play. */
class Play {
  private readonly dispatch: Dispatch;
  private readonly script: DemoScript;
  private readonly shop: Shop;
  private readonly texts: string[] = [];
  private jobId = '';

  constructor(dispatch: Dispatch, script: DemoScript, shop: Shop) {
    this.dispatch = dispatch;
    this.script = script;
    this.shop = shop;
  }

  get job(): Job {
    const events = eventsOfTexts(this.texts);
    const job = events.ok ? reduce(events.value) : undefined;
    if (job === undefined) throw new ScriptError('job', 'cannot be read');
    return job;
  }

  async open(): Promise<void> {
    const { person, bay } = this.script;
    const created = await callOrThrow(this.dispatch, 'job.create', {
      person,
      bay,
      commandId: newId(),
      entries: [],
    });
    this.jobId = created.job;
    await this.follow();
  }

  private async follow(): Promise<void> {
    const read = await callOrThrow(this.dispatch, 'job.read', {
      job: this.jobId,
      afterSeq: this.texts.length,
    });
    this.texts.push(...read.events.map((each) => each.text));
  }

  private async record(entries: readonly Recorded[]): Promise<void> {
    await callOrThrow(this.dispatch, 'job.record', {
      job: this.jobId,
      person: this.script.person,
      commandId: newId(),
      expectedSeq: this.texts.length,
      draft: null,
      entries: entries.map((each) => ({ ...each })),
    });
    await this.follow();
  }

  async step(step: DemoStep, listener: PlayListener): Promise<void> {
    switch (step.do) {
      case 'field':
        return this.record([{ type: 'fieldRecorded', v: 1, payload: fieldOf(step, this.job) }]);
      case 'sensor':
        return this.record(this.sensorEntries(step));
      case 'reading':
        return this.record([{ type: 'readingRecorded', v: 1, payload: this.readingOf(step) }]);
      case 'moved': {
        const { body, cause, words } = step;
        const setUp = this.job.setUps[body] + 1;
        return this.record([{ type: 'bodyMoved', v: 1, payload: { body, setUp, cause, words } }]);
      }
      case 'capture': {
        const { do: _, ...payload } = step;
        return this.record([{ type: 'captureAttempted', v: 1, payload }]);
      }
      case 'show':
        return listener.shown(this.job, this.sensor(step.sensor));
      case 'sign':
        return listener.signed(
          await callOrThrow(this.dispatch, 'certificate.issue', {
            job: this.jobId,
            person: this.script.signer,
            commandId: newId(),
            expectedSeq: this.texts.length,
            kind: step.kind,
            reason: step.reason,
          }),
        );
    }
  }

  private sensor(id: string): JobSensor {
    const found = this.job.sensors.find((each) => each.sensor === id);
    if (found === undefined) throw new ScriptError(id, 'no such sensor in the job');
    return found;
  }

  private sensorEntries(step: Extract<DemoStep, { do: 'sensor' }>): readonly Recorded[] {
    const { sensor, kind, name, disposition, source } = step;
    const procedure = this.shop.procedures.find((each) => each.id === step.procedure);
    const equipment = equipmentOf(this.shop, step);
    return [
      { type: 'sensorListed', v: 1, payload: { sensor, kind, name } },
      { type: 'sensorDisposed', v: 1, payload: { sensor, disposition, source } },
      ...(procedure === undefined
        ? []
        : [{ type: 'procedureChosen', v: 1 as const, payload: { sensor, procedure } }]),
      ...(equipment === undefined
        ? []
        : [{ type: 'equipmentChosen', v: 1 as const, payload: { sensor, equipment } }]),
    ];
  }

  private readingOf(step: Extract<DemoStep, { do: 'reading' }>): Record<string, unknown> {
    const job = this.job;
    const slot: ReadingSlot = {
      id: step.quantity,
      purpose: step.purpose,
      ...(step.station === null ? {} : { station: step.station }),
    };
    const owner = job.sensors.find((each) => step.sensor === null || each.sensor === step.sensor);
    const spec = owner === undefined ? undefined : specOf(recipeOf(job, owner), slot);
    if (spec === undefined) throw new ScriptError(step.quantity, 'not a reading of the recipe');
    const instrument = owner?.equipment?.instruments.find((each) => each.kind === spec.instrument);
    const read = parseQuantity(step.text, readingEntry(spec, instrument));
    if (!read.ok) throw new ScriptError(step.quantity, `"${step.text}" ${read.error.key}`);
    return {
      ...readingPayload(job, {
        reading: newId(),
        spec,
        sensor: step.sensor,
        value: read.value.value,
        text: step.text,
        direction: step.direction,
        instrument: instrument?.id ?? null,
      }),
    };
  }
}

function fieldOf(step: Extract<DemoStep, { do: 'field' }>, job: Job): Record<string, unknown> {
  const found = fieldById(step.field);
  if (found === undefined) throw new ScriptError(step.field, 'no such field');
  const condition = job.sensors
    .find((each) => each.sensor === step.at.sensor)
    ?.procedure?.conditions.find((each) => found.field.per === 'condition' && each.id === step.at.item);
  const value =
    condition === undefined ? typedValue(found.field, step.text) : typedConditionValue(condition, step.text);
  if (!value.ok) throw new ScriptError(step.field, `"${step.text}" ${value.error.key}`);
  return fieldPayload(step.field, step.at, value.value, step.text);
}

function recipeOf(job: Job, sensor: JobSensor): readonly ReadingSpec[] {
  const input = placementInput(job, sensor);
  return input.ok ? defaultRecipe({ stations: input.value.stations }) : defaultRecipe();
}

function equipmentOf(shop: Shop, step: Extract<DemoStep, { do: 'sensor' }>): Equipment | undefined {
  const fixture = shop.fixtures.find((each) => each.id === step.fixture);
  const target = shop.targets.find((each) => each.id === step.target);
  if (fixture === undefined || target === undefined) return undefined;
  const { sideArms, instruments, repeatability } = shop;
  const studied = repeatability === undefined ? {} : { repeatability };
  return { fixture, target, sideArms, instruments, work: step.work, ...studied };
}

/** Plays a whole script in a store whose shop is open, and returns the job as it stands at the end. */
export async function playScript(
  dispatch: Dispatch,
  script: DemoScript,
  shop: Shop,
  listener: PlayListener,
): Promise<Job> {
  const play = new Play(dispatch, script, shop);
  await play.open();
  for (const step of script.steps) await play.step(step, listener);
  return play.job;
}
