/**
 * From what is typed to the fact that is recorded: how a text is read for its field or reading, and the event payload
 * it becomes. The window and the command line share it, so that both record the same for the same keys.
 */
import {
  type EntryKind,
  type EntrySpec,
  momentMs,
  parseQuantity,
  parseTroubleCodes,
} from '../entry/index.ts';
import type { ReadingSpec } from '../placement/recipe.ts';
import type { ProcedureCondition } from '../procedure/schema.ts';
import { err, ok, type Result } from '../result.ts';
import type { Instrument } from './equipment.ts';
import type { Payload } from './events.ts';
import type { FieldPlace } from './fieldKey.ts';
import type { Job } from './job.ts';
import { type Field, NOT_APPLICABLE } from './stages/index.ts';

const KIND_OF_UNIT: Readonly<Record<string, EntryKind>> = {
  km: 'distanceDriven',
  kPa: 'pressure',
  lx: 'illuminance',
  '%': 'share',
  '°C': 'temperature',
  mm: 'length',
  '°': 'angle',
};

/** How a number of a form is read: bare numbers are in its unit; a unit nobody converts is a bare count. */
export function numberEntry(unit: string): EntrySpec {
  return { kind: KIND_OF_UNIT[unit] ?? 'count', numbersIn: unit };
}

/** How a reading is read: a tape's own unit and start come from the instrument. */
export function readingEntry(spec: Pick<ReadingSpec, 'unit'>, instrument: Instrument | undefined): EntrySpec {
  if (spec.unit === 'deg') return { kind: 'angle', numbersIn: 'deg' };
  const startsAt = instrument?.kind === 'tape' ? { startsAt: instrument.startsAt } : {};
  return { kind: 'length', numbersIn: instrument?.numbersIn ?? 'mm', ...startsAt };
}

/** A field's text that has no reading: the key of the plain message with its values. */
export interface TypedProblem {
  readonly key: string;
  readonly values: Readonly<Record<string, string>>;
}

/** A value before personal text is put aside: the service turns `{ personal }` into a commitment. */
export type TypedValue = string | number | boolean | readonly string[] | { readonly personal: string };

/** The value of a check: in order, not in order (with the reason once it is picked), or does not apply. */
export function checkValue(answer: string, reason: string | undefined): TypedValue {
  if (answer === 'yes') return true;
  if (answer === NOT_APPLICABLE) return NOT_APPLICABLE;
  return reason === undefined ? ['no'] : ['no', reason];
}

/** The value of a text in a field: yes or no, a choice's value, values with commas, a number, a text. */
export function typedValue(
  field: Pick<Field, 'kind' | 'unit' | 'quantity'>,
  text: string,
): Result<TypedValue, TypedProblem> {
  switch (field.kind) {
    case 'confirm':
      return ok(text === 'yes');
    case 'check': {
      const [answer = '', ...reasons] = text.split(',').map((each) => each.trim());
      return ok(checkValue(answer, reasons[0]));
    }
    case 'codes': {
      const codes = parseTroubleCodes(text);
      return codes.ok ? ok([...codes.value]) : codes;
    }
    case 'moment':
      return momentMs(text) === undefined ? err({ key: 'moment.form', values: {} }) : ok(text.trim());
    case 'choices':
      return ok(text.split(',').map((each) => each.trim()));
    case 'personal':
      return ok({ personal: text });
    case 'number':
    case 'quantity': {
      const spec: EntrySpec =
        field.kind === 'number'
          ? numberEntry(field.unit ?? '')
          : field.quantity === 'angle'
            ? numberEntry('°')
            : { kind: 'length' };
      const read = parseQuantity(text, spec);
      return read.ok ? ok(read.value.value) : err({ key: read.error.key, values: read.error.values });
    }
    default:
      return ok(text);
  }
}

/** The value of a text given for a procedure's condition: yes or no, a number in its unit, a choice's value. */
export function typedConditionValue(
  condition: ProcedureCondition,
  text: string,
): Result<TypedValue, TypedProblem> {
  switch (condition.kind) {
    case 'confirm':
      return typedValue({ kind: 'confirm' }, text);
    case 'choice':
      return ok(text);
    case 'value': {
      const read = parseQuantity(text, numberEntry(condition.unit));
      return read.ok ? ok(read.value.value) : err({ key: read.error.key, values: read.error.values });
    }
  }
}

/** The payload that a field now has a value; a personal text is not repeated beside its value. */
export function fieldPayload(
  field: string,
  at: FieldPlace,
  value: TypedValue,
  text: string,
): Record<string, unknown> {
  const kept = typeof value === 'object' && 'personal' in value ? '' : text;
  return { field, at: { ...at }, value, text: kept };
}

/** What a reading says beside its value. */
export interface ReadingFact {
  readonly reading: string;
  readonly spec: Pick<ReadingSpec, 'id' | 'unit' | 'purpose' | 'station'>;
  readonly sensor: string | null;
  readonly value: number;
  readonly text: string;
  readonly direction: string | null;
  readonly instrument: string | null;
  /** Of a reading taken from an instrument that sends lines. */
  readonly taken?: Payload<'readingRecorded'>['taken'];
}

/** The payload of a reading in the present set-ups of the job. */
export function readingPayload(job: Pick<Job, 'setUps'>, fact: ReadingFact): Payload<'readingRecorded'> {
  const { spec } = fact;
  return {
    reading: fact.reading,
    quantity: spec.id,
    sensor: fact.sensor,
    station: spec.station ?? null,
    value: fact.value,
    unit: spec.unit === 'deg' ? 'rad' : 'mm',
    direction: fact.direction,
    text: fact.text,
    instrument: fact.instrument,
    purpose: spec.purpose,
    carSetUp: job.setUps.car,
    fixtureSetUp: job.setUps.fixture,
    ...(fact.taken === undefined ? {} : { taken: fact.taken }),
  };
}
