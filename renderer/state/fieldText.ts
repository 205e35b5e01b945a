/** From a field's record to the text in its box and from that text to the fact that is recorded. Pure. */
import {
  type EntryQuestion,
  type EntryRefusal,
  parseQuantity,
  questionReading,
} from '../../core/entry/index.ts';
import { fieldPayload, numberEntry, type TypedValue } from '../../core/job/facts.ts';
import type { FieldPlace } from '../../core/job/fieldKey.ts';
import type { RecordedField } from '../../core/job/job.ts';
import type { Field } from '../../core/job/stages/index.ts';
import { err, ok, type Result } from '../../core/result.ts';
import { degFromRad, formatFixed } from '../../core/units.ts';
import type { EntryToSend } from './recorder.ts';

/** A recorded number in the unit its box shows: angles are recorded in radians and shown in degrees. */
export function shownNumber(value: number, unit: string, decimals: number): string {
  return formatFixed(unit === '°' ? degFromRad(value) : value, decimals);
}

/** What the box of a recorded field shows. Personal text comes from beside the record; erased text is empty. */
export function recordedText(
  recorded: RecordedField | undefined,
  personal: Readonly<Record<string, string>>,
  number: { readonly unit: string; readonly decimals: number } = { unit: '', decimals: 0 },
): string {
  const value = recorded?.value;
  if (recorded === undefined || value === undefined) return '';
  if (typeof value === 'number') return shownNumber(value, number.unit, number.decimals);
  if (typeof value === 'string') return value;
  if (typeof value === 'object' && 'personalId' in value) return personal[value.personalId] ?? '';
  return recorded.text;
}

/** The fact that a field now has a value. Personal text leaves as `{ personal }` and its text is not repeated. */
export function fieldFact(field: string, at: FieldPlace, value: TypedValue, text: string): EntryToSend {
  return { type: 'fieldRecorded', v: 1, payload: fieldPayload(field, at, value, text) };
}

/** The fact of a typed text. */
export function typedFact(field: Pick<Field, 'id' | 'kind'>, at: FieldPlace, text: string): EntryToSend {
  return fieldFact(field.id, at, field.kind === 'personal' ? { personal: text } : text, text);
}

export interface NumberRead {
  readonly value: number;
  readonly text: string;
  readonly question: EntryQuestion | undefined;
}

/** A typed number of a form in its unit, with the one question it raises. */
export function readNumber(
  text: string,
  unit: string,
  limits: { readonly min: number; readonly max: number } | undefined,
): Result<NumberRead, EntryRefusal> {
  const read = parseQuantity(text, numberEntry(unit));
  if (!read.ok) return err(read.error);
  const { value, questions } = read.value;
  const doubt = limits === undefined ? undefined : questionReading(value, { limits });
  return ok({ value, text, question: questions[0] ?? doubt });
}
