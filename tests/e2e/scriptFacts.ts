// What a script says, as facts; and what a record holds, as facts of the same form. The two lists must be the same: an
// entry lost or doubled is a difference.
import { parseQuantity } from '../../core/entry/index.ts';
import { readingEntry, typedValue } from '../../core/job/facts.ts';
import type { JobEvent } from '../../core/job/reduce.ts';
import { fieldById } from '../../core/job/stages/index.ts';
import { defaultRecipe, specOf } from '../../core/placement/recipe.ts';
import type { StationRequirement } from '../../core/placement/requirement.ts';
import type { DemoScript, DemoStep } from '../../electron/cli/demoScript.ts';
import { slotOfStep } from './playInWindow.ts';

/** One fact as a line of text, without ids and times. */
export type Fact = string;

type Place = {
  readonly sensor: string | null;
  readonly station: string | null;
  readonly item: string | null;
};

const place = ({ sensor, station, item }: Place): string => `${sensor ?? ''}/${station ?? ''}/${item ?? ''}`;

const line = (...parts: readonly unknown[]): Fact => parts.map((part) => JSON.stringify(part)).join(' ');

/** `sensors` gives the record's id for each of the script's. */
export function factsOfScript(
  script: DemoScript,
  sensors: ReadonlyMap<string, string>,
  stations: readonly StationRequirement[],
): readonly Fact[] {
  const recipe = defaultRecipe({ stations });
  const idOf = (sensor: string | null): string | null =>
    sensor === null ? null : (sensors.get(sensor) ?? sensor);
  const setUps = { car: 1, fixture: 1 };
  const reading = (step: Extract<DemoStep, { do: 'reading' }>): Fact => {
    const { quantity, sensor, station, purpose, text, direction } = step;
    const spec = specOf(recipe, { id: quantity, purpose, ...(station === null ? {} : { station }) });
    if (spec === undefined) throw new Error(`not a reading of the recipe: ${slotOfStep(step)}`);
    const read = parseQuantity(text, readingEntry(spec, undefined));
    if (!read.ok) throw new Error(`${quantity}: ${text}`);
    const { car, fixture } = setUps;
    return line(
      'reading',
      quantity,
      idOf(sensor),
      station,
      purpose,
      text,
      read.value.value,
      direction,
      car,
      fixture,
    );
  };
  const factsOf = (step: DemoStep): readonly Fact[] => {
    switch (step.do) {
      case 'field': {
        const found = fieldById(step.field);
        const value = found === undefined ? undefined : typedValue(found.field, step.text);
        if (value === undefined || !value.ok) throw new Error(`${step.field}: ${step.text}`);
        return [line('field', step.field, place({ ...step.at, sensor: idOf(step.at.sensor) }), value.value)];
      }
      case 'sensor': {
        const sensor = idOf(step.sensor);
        const { kind, name, disposition, source, procedure, fixture, target, work } = step;
        return [
          line('listed', sensor, kind, name),
          // The choice is tapped first and recorded; its source is typed after that.
          line('disposed', sensor, disposition, ''),
          line('disposed', sensor, disposition, source),
          ...(procedure === null ? [] : [line('procedure', sensor, procedure)]),
          ...(fixture === null ? [] : [line('equipment', sensor, fixture, target, work)]),
        ];
      }
      case 'reading':
        return [reading(step)];
      case 'moved':
        setUps[step.body] += 1;
        return [line('moved', step.body, setUps[step.body], step.cause)];
      case 'capture':
        return [line('capture', idOf(step.sensor), step.station, step.result, step.cause, step.change)];
      case 'show':
      case 'sign':
        return [];
    }
  };
  return script.steps.flatMap(factsOf);
}

/** The facts of recorded events; `personal` holds the texts kept beside the chain. */
export function factsOfEvents(
  events: readonly JobEvent[],
  personal: Readonly<Record<string, string>>,
): readonly Fact[] {
  return events.flatMap((event): readonly Fact[] => {
    switch (event.type) {
      case 'fieldRecorded': {
        const { field, at, value } = event.payload;
        const said =
          typeof value === 'object' && 'personalId' in value
            ? { personal: personal[value.personalId] }
            : value;
        return [line('field', field, place(at), said)];
      }
      case 'sensorListed':
        return [line('listed', event.payload.sensor, event.payload.kind, event.payload.name)];
      case 'sensorDisposed':
        return [line('disposed', event.payload.sensor, event.payload.disposition, event.payload.source)];
      case 'procedureChosen':
        return [line('procedure', event.payload.sensor, event.payload.procedure.id)];
      case 'equipmentChosen': {
        const { fixture, target, work } = event.payload.equipment;
        return [line('equipment', event.payload.sensor, fixture.id, target.id, work)];
      }
      case 'readingRecorded': {
        const { quantity, sensor, station, purpose, text, value, direction, carSetUp, fixtureSetUp } =
          event.payload;
        return [
          line('reading', quantity, sensor, station, purpose, text, value, direction, carSetUp, fixtureSetUp),
        ];
      }
      case 'bodyMoved':
        return [line('moved', event.payload.body, event.payload.setUp, event.payload.cause)];
      case 'captureAttempted': {
        const { sensor, station, result, cause, change } = event.payload;
        return [line('capture', sensor, station, result, cause, change)];
      }
      case 'jobOpened':
      case 'certificateSealed':
      case 'certificateIssued':
        return [];
      default:
        return [line(event.type)];
    }
  });
}
