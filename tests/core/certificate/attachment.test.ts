import { describe, expect, test } from 'vitest';
import {
  attachmentFormat,
  attachmentSchemaVersion,
  certificateQrText,
  readAttachment,
} from '../../../core/certificate/attachment.ts';

const record = {
  number: 'HARBOUR-2-2026-0007',
  edition: 1,
  kind: 'calibrated',
  issuedAt: '2026-03-05T14:07:09Z',
  numbers: [{ id: 'a', value: '-12.30', unit: 'mm', decimals: 2 }],
  events: ['{}'],
};
const attachment = {
  format: attachmentFormat,
  schema: attachmentSchemaVersion,
  record,
  disclosures: [{ id: 'p1', salt: 'ab'.repeat(32), text: 'Mara' }],
};

describe('reading an attachment', () => {
  test('gives the record, with whatever else it holds', () => {
    const withMore = { ...attachment, record: { ...record, solver: { edition: 3 } } };
    const reading = readAttachment(withMore);
    expect(reading).toMatchObject({ kind: 'record', attachment: { record: { solver: { edition: 3 } } } });
  });

  test('a later schema is a newer edition, whatever else changed', () => {
    expect(readAttachment({ ...attachment, schema: 2 })).toEqual({ kind: 'newerEdition', schema: 2 });
    expect(readAttachment({ format: attachmentFormat, schema: 9, anything: [] })).toEqual({
      kind: 'newerEdition',
      schema: 9,
    });
  });

  test.each([
    ['null', null],
    ['a text', 'hello'],
    ['another format', { ...attachment, format: 'else' }],
    ['no schema', { ...attachment, schema: undefined }],
    ['schema 0', { ...attachment, schema: 0 }],
    ['schema as text', { ...attachment, schema: '1' }],
    ['a stranger beside the record', { ...attachment, more: 1 }],
    ['no record', { ...attachment, record: undefined }],
    ['an unknown kind', { ...attachment, record: { ...record, kind: 'fine' } }],
    ['edition 0', { ...attachment, record: { ...record, edition: 0 } }],
    ['an event that is no text', { ...attachment, record: { ...record, events: [{}] } }],
    [
      'a number with a comma',
      { ...attachment, record: { ...record, numbers: [{ ...record.numbers[0], value: '1,5' }] } },
    ],
    [
      'a number with a plus',
      { ...attachment, record: { ...record, numbers: [{ ...record.numbers[0], value: '+1' }] } },
    ],
    [
      'a number in words',
      { ...attachment, record: { ...record, numbers: [{ ...record.numbers[0], value: 'NaN' }] } },
    ],
    [
      'a number with an exponent',
      { ...attachment, record: { ...record, numbers: [{ ...record.numbers[0], value: '1e3' }] } },
    ],
    [
      'decimals below zero',
      { ...attachment, record: { ...record, numbers: [{ ...record.numbers[0], decimals: -1 }] } },
    ],
    ['a short salt', { ...attachment, disclosures: [{ id: 'p', salt: 'ab', text: 'x' }] }],
    ['a salt in capitals', { ...attachment, disclosures: [{ id: 'p', salt: 'AB'.repeat(32), text: 'x' }] }],
  ])('%s is malformed', (_name, json) => {
    expect(readAttachment(json)).toEqual({ kind: 'malformed' });
  });
});

test('the QR text holds number, edition and digest, in characters a coarse code can take', () => {
  const text = certificateQrText('QUAY-1-2026-0042', 3, 'ab12'.repeat(16));
  expect(text).toBe(`DATUMLINE 1 QUAY-1-2026-0042 3 ${'AB12'.repeat(16)}`);
  // ISO/IEC 18004 alphanumeric mode: digits, capitals, blank and $%*+-./:
  expect(text).toMatch(/^[0-9A-Z $%*+\-./:]+$/);
});
