/** One event of a job as a sentence of its history. */

import { valueTexts } from '../../core/job/assess.ts';
import type { JobEvent } from '../../core/job/reduce.ts';
import { checkChoices, type Field, fieldById } from '../../core/job/stages/index.ts';
import { knownWordKey } from '../../core/placement/names.ts';
import { formatDeg } from '../../core/units.ts';
import { say, templateOf } from '../../core/words/index.ts';
import { recordedText } from '../state/fieldText.ts';
import type { HeldJob } from '../state/heldJob.ts';
import { lengthText } from './lengthText.ts';
import { sayKey } from './sayKey.ts';

type EventOf<T extends JobEvent['type']> = Extract<JobEvent, { readonly type: T }>;

/** A reading's name by its quantity. */
function quantityName(quantity: string): string {
  const key = `reading.${quantity}`;
  return templateOf(key) === undefined ? sayKey(knownWordKey(quantity) ?? quantity) : sayKey(key);
}

/** A check that is not simply in order: the answer, then the reason. */
function checkWords(field: Field, values: readonly string[]): string {
  const choices = checkChoices(field);
  const words = (value: string) => choices.find((each) => each.value === value)?.label;
  return values.map((value) => sayKey(words(value) ?? value)).join(', ');
}

function fieldWords(event: EventOf<'fieldRecorded'>, held: HeldJob): string {
  const found = fieldById(event.payload.field);
  const condition = held.job.sensors
    .find((sensor) => sensor.sensor === event.payload.at.sensor)
    ?.procedure?.conditions.find((each) => each.id === event.payload.at.item);
  const label = condition?.text ?? (found === undefined ? event.payload.field : sayKey(found.field.label));
  const { value } = event.payload;
  const choice = found?.field.choices?.find((each) => each.value === value);
  const shown =
    found?.field.kind === 'check' && typeof value !== 'boolean'
      ? checkWords(found.field, valueTexts(value))
      : typeof value === 'boolean'
        ? say(value ? 'answer.yes' : 'answer.no')
        : choice === undefined
          ? recordedText(
              { ...event.payload, stamp: { seq: 0, utcMs: 0, offsetMin: 0, person: '' }, corrections: 0 },
              held.personal,
            )
          : sayKey(choice.label);
  return say('event.field', { label, value: shown === '' ? say('event.empty') : shown });
}

function readingWords(event: EventOf<'readingRecorded'>): string {
  const { quantity, value, unit, text, purpose } = event.payload;
  const words = say('event.reading', {
    reading: quantityName(quantity),
    value: unit === 'rad' ? formatDeg(value, 2) : lengthText(value, 1),
    text,
  });
  return purpose === 'proof' ? words : `${words} (${say(`purpose.${purpose}`)})`;
}

function strikeWords(event: EventOf<'readingStruck'>, held: HeldJob): string {
  const { reading, reason, words } = event.payload;
  const struck = held.job.readings.find((each) => each.reading === reading);
  return say('event.struck', {
    reading: quantityName(struck?.quantity ?? reading),
    reason: reason === 'other' ? words : say(`strike.${reason}`),
  });
}

function moveWords(event: EventOf<'bodyMoved'>): string {
  const { body, setUp, cause, words } = event.payload;
  return say('event.moved', {
    body: say(`body.${body}`),
    setUp: String(setUp),
    cause: cause === 'moveDone' && words !== '' ? words : say(`cause.${cause}`),
  });
}

function sensorName(held: HeldJob, sensor: string): string {
  return held.job.sensors.find((each) => each.sensor === sensor)?.name ?? sensor;
}

function captureWords(event: EventOf<'captureAttempted'>, held: HeldJob): string {
  const { sensor, station, result, cause } = event.payload;
  const known = held.job.sensors.find((each) => each.sensor === sensor);
  const name = known?.procedure?.stations.find((each) => each.id === station)?.name ?? station;
  const words = say('event.capture', { station: name, result: say(`capture.${result}`) });
  return cause === '' ? words : `${words}: ${cause}`;
}

export function eventWords(event: JobEvent, held: HeldJob): string {
  switch (event.type) {
    case 'jobOpened':
      return say('event.opened', { reference: event.payload.reference });
    case 'fieldRecorded':
      return fieldWords(event, held);
    case 'sensorListed':
      return say('event.sensorListed', { sensor: event.payload.name });
    case 'sensorDisposed':
      return say('event.sensorDisposed', {
        sensor: sensorName(held, event.payload.sensor),
        disposition: say(`disposition.${event.payload.disposition}`),
      });
    case 'procedureChosen':
      return say('event.procedure', {
        sensor: sensorName(held, event.payload.sensor),
        procedure: event.payload.procedure.title,
        edition: String(event.payload.procedure.edition),
      });
    case 'equipmentChosen':
      return say('event.equipment', {
        sensor: sensorName(held, event.payload.sensor),
        fixture: event.payload.equipment.fixture.name,
      });
    case 'readingRecorded':
      return readingWords(event);
    case 'readingStruck':
      return strikeWords(event, held);
    case 'bodyMoved':
      return moveWords(event);
    case 'captureAttempted':
      return captureWords(event, held);
    case 'photoAdded':
      return say('event.photoAdded', {
        shows: held.personal[event.payload.shows.personalId] ?? say('photo.erased'),
      });
    case 'photoStruck':
      return say('event.photoStruck', { reason: say(`photo.struck.${event.payload.reason}`) });
    case 'reportAttached':
      return say('event.reportAttached', {
        sensor: sensorName(held, event.payload.sensor),
        tool: event.payload.tool,
      });
    case 'reportStruck':
      return say('event.reportStruck');
    case 'certificateSealed':
      return say('event.sealed', { number: event.payload.number, edition: String(event.payload.edition) });
    case 'certificateIssued':
      return say('event.issued', { number: event.payload.number });
    case 'erased':
      return say('event.erased', { count: String(event.payload.personalIds.length) });
    case 'floorChosen':
      return say(`event.floor.${event.payload.way}`);
    case 'bayRecorded':
      return say('event.bay', { bay: event.payload.bay });
    case 'shopRecorded':
      return say('event.shop');
  }
}
