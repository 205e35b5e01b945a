/** What a certificate is built from, and the small look-ups every section shares. */

import { NO_CODES } from '../entry/index.ts';
import type { Answers, Assessment } from '../job/assess.ts';
import type { FieldValue } from '../job/events.ts';
import { type FieldPlace, fieldKey, wholeJob } from '../job/fieldKey.ts';
import type { Job, JobCertificate, Stamp } from '../job/job.ts';
import { localMinute } from '../job/localTime.ts';
import type { Shop } from '../job/shop.ts';
import { checkChoices, type Field, fieldById } from '../job/stages/index.ts';
import type { ProcedureCondition } from '../procedure/schema.ts';
import { invariant } from '../result.ts';
import { formatDeg, formatFixed, formatMm } from '../units.ts';
import { type SlotValues, say, templateOf, type WordKey } from '../words/index.ts';
import type { PrintedNumber } from './attachment.ts';

/** A job, solved and assessed, with the seal that fixes what is printed. */
export interface CertificateInput {
  readonly job: Job;
  readonly answers: Answers;
  readonly assessment: Assessment;
  readonly shop: Shop;
  /** Personal texts by id, as far as they are not erased. */
  readonly personal: Readonly<Record<string, string>>;
  readonly seal: JobCertificate;
  readonly numbers: readonly PrintedNumber[];
  readonly recordDigest: string;
  /** Of the shop root, hex. */
  readonly rootFingerprint: string;
  readonly attachmentJson: string;
}

/** The wording of a key that stands in a data table. A key without an entry is a bug. */
export function sayKey(key: string, values: SlotValues = {}): string {
  invariant(templateOf(key) !== undefined, `no words for ${key}`);
  return say(key as WordKey, values);
}

/** Keeps a number and its unit on one line. */
const NO_BREAK = '\u00a0';

/** The printed text of a number by its id, with its unit: `14.2 mm`, `0.12°`, `99.1 %`. */
export function numberText(input: CertificateInput, id: string): string {
  const number = input.numbers.find((each) => each.id === id);
  invariant(number !== undefined, `no number ${id} in the record`);
  switch (number.unit) {
    case 'deg':
      return `${number.value}°`;
    case '1':
      return number.value;
    default:
      return `${number.value}${NO_BREAK}${number.unit}`;
  }
}

/** The same without its sign, for texts that say the direction in words. */
export function amountText(input: CertificateInput, id: string): string {
  return numberText(input, id).replace(/^-/, '');
}

/** A person's name, or the id where the shop no longer lists it. */
export function personName(input: CertificateInput, id: string): string {
  return input.shop.people.find((each) => each.id === id)?.name ?? id;
}

/** A moment of the job as printed. */
export function momentText(stamp: Pick<Stamp, 'utcMs' | 'offsetMin'>): string {
  return localMinute(stamp.utcMs, stamp.offsetMin);
}

function choiceText(field: Field, value: string): string {
  const choices = field.kind === 'check' ? checkChoices(field) : (field.choices ?? []);
  const choice = choices.find((each) => each.value === value);
  return choice === undefined ? value : sayKey(choice.label);
}

/** A recorded value in printed words. */
export function valueText(input: CertificateInput, field: Field, value: FieldValue): string {
  if (value === true && field.kind === 'check') return sayKey('check.inOrder');
  if (typeof value === 'boolean') return say(value ? 'certificate.yes' : 'certificate.no');
  if (typeof value === 'number') {
    if (field.kind === 'quantity') {
      return field.quantity === 'angle' ? formatDeg(value, 2) : formatMm(value, 1);
    }
    const text = formatFixed(value, field.decimals ?? 0);
    return field.unit === undefined ? text : `${text} ${field.unit}`;
  }
  if (typeof value === 'string') return choiceText(field, value);
  if ('commitment' in value) return input.personal[value.personalId] ?? say('certificate.erased');
  if (field.kind === 'codes' && value.includes(NO_CODES)) return say('certificate.codes.none');
  return value.map((each) => choiceText(field, each)).join(', ');
}

function conditionOf(input: CertificateInput, at: FieldPlace): ProcedureCondition | undefined {
  const sensor = input.job.sensors.find((each) => each.sensor === at.sensor);
  return sensor?.procedure?.conditions.find((each) => each.id === at.item);
}

/** The answer to a procedure's condition in printed words: a number with the condition's unit, a choice in its words. */
function conditionText(
  input: CertificateInput,
  condition: ProcedureCondition,
  value: FieldValue,
  field: Field,
): string {
  if (condition.kind === 'value' && typeof value === 'number') return `${value}${NO_BREAK}${condition.unit}`;
  if (condition.kind === 'choice') {
    return condition.choices.find((each) => each.value === value)?.text ?? String(value);
  }
  return valueText(input, field, value);
}

/** The printed text of a field; empty where nothing was recorded. */
export function fieldText(input: CertificateInput, fieldId: string, at: FieldPlace = wholeJob): string {
  const recorded = input.job.fields[fieldKey(fieldId, at)];
  const found = fieldById(fieldId);
  invariant(found !== undefined, `no field ${fieldId}`);
  if (recorded === undefined) return '';
  const condition = found.field.per === 'condition' ? conditionOf(input, at) : undefined;
  return condition === undefined
    ? valueText(input, found.field, recorded.value)
    : conditionText(input, condition, recorded.value, found.field);
}
