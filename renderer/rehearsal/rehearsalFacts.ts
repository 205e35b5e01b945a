/**
 * What a rehearsal finds already done: an invented car taken in, checked and standing in a bay, as the demo job has it. The
 * person begins where the measuring begins.
 */
import '../state/zodWithoutEval.ts';
import demoJob from '../../assets/demo/demo-job.json';
import demoShop from '../../assets/demo/shop.json';
import { parseQuantity } from '../../core/entry/index.ts';
import { fieldPayload, readingEntry, typedConditionValue, typedValue } from '../../core/job/facts.ts';
import type { FieldPlace } from '../../core/job/fieldKey.ts';
import type { Job } from '../../core/job/job.ts';
import { type Shop, shopSchema } from '../../core/job/shop.ts';
import { fieldById } from '../../core/job/stages/index.ts';
import { startState } from '../../core/rehearsal/index.ts';
import { invariant } from '../../core/result.ts';
import { newId } from '../state/ids.ts';
import { placementView } from '../state/placementView.ts';
import { instrumentsFor, readingEntryToSend } from '../state/readingEntry.ts';
import { slotsOf } from '../state/readings.ts';
import type { EntryToSend } from '../state/recorder.ts';
import { seedOf } from './rehearsalState.ts';
import { shownFor } from './simulated.ts';

interface FieldStep {
  readonly field: string;
  readonly at: FieldPlace;
  readonly text: string;
}

function fieldFact({ field, at, text }: FieldStep, shop: Shop): EntryToSend {
  const found = fieldById(field);
  invariant(found !== undefined, `no field ${field}`);
  const condition = shop.procedures
    .flatMap((each) => each.conditions)
    .find((each) => found.field.per === 'condition' && each.id === at.item);
  const value =
    condition === undefined ? typedValue(found.field, text) : typedConditionValue(condition, text);
  invariant(value.ok, `${field}: "${text}" cannot be read`);
  return { type: 'fieldRecorded', v: 1, payload: fieldPayload(field, at, value.value, text) };
}

interface SensorStep {
  readonly sensor: string;
  readonly kind: string;
  readonly name: string;
  readonly disposition: string;
  readonly source: string;
  readonly procedure: string | null;
  readonly fixture: string | null;
  readonly target: string | null;
  readonly work: string;
}

function sensorFacts(step: SensorStep, shop: Shop): readonly EntryToSend[] {
  const { sensor, kind, name, disposition, source, work } = step;
  const fact = (type: EntryToSend['type'], payload: Record<string, unknown>): EntryToSend => ({
    type,
    v: 1,
    payload,
  });
  const procedure = shop.procedures.find((each) => each.id === step.procedure);
  const fixture = shop.fixtures.find((each) => each.id === step.fixture);
  const target = shop.targets.find((each) => each.id === step.target);
  const { sideArms, instruments, repeatability } = shop;
  const studied = repeatability === undefined ? {} : { repeatability };
  return [
    fact('sensorListed', { sensor, kind, name }),
    fact('sensorDisposed', { sensor, disposition, source }),
    ...(procedure === undefined ? [] : [fact('procedureChosen', { sensor, procedure })]),
    ...(fixture === undefined || target === undefined
      ? []
      : [
          fact('equipmentChosen', {
            sensor,
            equipment: { fixture, target, sideArms, instruments, work, ...studied },
          }),
        ]),
  ];
}

/** The facts in the order of the demo job, up to its first reading, in parts of at most `most` for one command each. */
export function rehearsalFacts(most: number): readonly (readonly EntryToSend[])[] {
  const shop = shopSchema.parse(demoShop);
  const { steps } = demoJob;
  const firstReading = steps.findIndex((step) => step.do === 'reading');
  const facts = steps.slice(0, firstReading).flatMap((step): readonly EntryToSend[] => {
    if (step.do === 'field') return [fieldFact(step as unknown as FieldStep, shop)];
    return step.do === 'sensor' ? sensorFacts(step as unknown as SensorStep, shop) : [];
  });
  return Array.from({ length: Math.ceil(facts.length / most) }, (_none, part) =>
    facts.slice(part * most, (part + 1) * most),
  );
}

/** The floor under the invented car, read before the person comes: six readings of the level staff. */
export function floorFacts(job: Job): readonly EntryToSend[] {
  const sensor = job.sensors.find((each) => each.disposition === 'staticHere');
  if (sensor === undefined) return [];
  const view = placementView(job, sensor);
  const [station] = view.stations;
  if (station === undefined) return [];
  const state = startState(station, seedOf(job.id));
  return slotsOf(job, sensor.sensor, view.recipe, 'bay').flatMap((slot) => {
    const [instrument] = instrumentsFor(slot.spec, sensor.equipment);
    const shown = shownFor(job, view, state, slot, instrument);
    const read =
      shown === undefined ? undefined : parseQuantity(shown.text, readingEntry(slot.spec, instrument));
    if (shown === undefined || read?.ok !== true) return [];
    const fact = {
      reading: newId(),
      value: read.value.value,
      text: shown.text,
      direction: null,
      instrument: instrument?.id ?? null,
    };
    return [readingEntryToSend(job, slot, fact)];
  });
}
