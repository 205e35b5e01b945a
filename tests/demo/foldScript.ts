/** A script folded into a job without a service: ids and commitments are stand-ins, everything else is what is typed. */

import { parseQuantity } from '../../core/entry/index.ts';
import type { EventType, Payload } from '../../core/job/events.ts';
import { payloadSchema } from '../../core/job/events.ts';
import { fieldPayload, typedValue } from '../../core/job/facts.ts';
import type { Job } from '../../core/job/job.ts';
import { type JobEvent, reduce } from '../../core/job/reduce.ts';
import type { Shop } from '../../core/job/shop.ts';
import { fieldById } from '../../core/job/stages/index.ts';
import type { DemoScript } from '../../electron/cli/demoScript.ts';

const COMMITMENT = { personalId: 'p', commitment: '0'.repeat(64) };

/** The events of the first `count` steps (all by default). */
export function foldScriptEvents(
  script: DemoScript,
  shop: Shop,
  count = script.steps.length,
): readonly JobEvent[] {
  const events: JobEvent[] = [];
  const add = <T extends EventType>(type: T, payload: unknown): void => {
    const parsed = payloadSchema(type).parse(payload) as Payload<T>;
    events.push({
      job: 'demo',
      seq: events.length + 1,
      type,
      at: { utcMs: Date.UTC(2026, 10, 25) + events.length * 1000, offsetMin: 60 },
      person: script.person,
      payload: parsed,
    } as unknown as JobEvent);
  };
  add('jobOpened', {
    reference: 'DEMO',
    demo: true,
    bay: script.bay,
    decisionRule: shop.decisionRule,
    follows: null,
  });
  const setUps = { car: 1, fixture: 1 };
  for (const step of script.steps.slice(0, count)) {
    switch (step.do) {
      case 'field': {
        const found = fieldById(step.field);
        if (found === undefined) throw new Error(`no field ${step.field}`);
        const value = typedValue(found.field, step.text);
        if (!value.ok) throw new Error(`${step.field}: ${value.error.key}`);
        const kept = typeof value.value === 'object' && 'personal' in value.value ? COMMITMENT : value.value;
        add('fieldRecorded', { ...fieldPayload(step.field, step.at, value.value, step.text), value: kept });
        break;
      }
      case 'sensor': {
        const { sensor, kind, name, disposition, source } = step;
        add('sensorListed', { sensor, kind, name });
        add('sensorDisposed', { sensor, disposition, source });
        const procedure = shop.procedures.find((each) => each.id === step.procedure);
        if (procedure !== undefined) add('procedureChosen', { sensor, procedure });
        const fixture = shop.fixtures.find((each) => each.id === step.fixture);
        const target = shop.targets.find((each) => each.id === step.target);
        const { sideArms, instruments } = shop;
        if (fixture && target) {
          add('equipmentChosen', {
            sensor,
            equipment: { fixture, target, sideArms, instruments, work: step.work },
          });
        }
        break;
      }
      case 'reading': {
        const angle = step.quantity.startsWith('fixture.');
        const read = parseQuantity(step.text, { kind: angle ? 'angle' : 'length' });
        if (!read.ok) throw new Error(`${step.quantity}: ${read.error.key}`);
        add('readingRecorded', {
          reading: `r${events.length}`,
          quantity: step.quantity,
          sensor: step.sensor,
          station: step.station,
          value: read.value.value,
          unit: angle ? 'rad' : 'mm',
          direction: step.direction,
          text: step.text,
          instrument: null,
          purpose: step.purpose,
          carSetUp: setUps.car,
          fixtureSetUp: setUps.fixture,
        });
        break;
      }
      case 'moved':
        setUps[step.body] += 1;
        add('bodyMoved', { body: step.body, setUp: setUps[step.body], cause: step.cause, words: step.words });
        break;
      case 'capture': {
        const { do: _, ...payload } = step;
        add('captureAttempted', payload);
        break;
      }
      case 'show':
      case 'sign':
        break;
    }
  }
  return events;
}

/** The job after the first `count` steps (all by default). */
export function foldScript(script: DemoScript, shop: Shop, count = script.steps.length): Job {
  const job = reduce(foldScriptEvents(script, shop, count));
  if (job === undefined) throw new Error('no job');
  return job;
}
