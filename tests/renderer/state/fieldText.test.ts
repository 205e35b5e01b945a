import { describe, expect, test } from 'vitest';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import type { RecordedField } from '../../../core/job/job.ts';
import {
  fieldFact,
  readNumber,
  recordedText,
  shownNumber,
  typedFact,
} from '../../../renderer/state/fieldText.ts';

const recorded = (value: RecordedField['value'], text = ''): RecordedField => ({
  field: 'f',
  at: wholeJob,
  value,
  text,
  stamp: { seq: 1, utcMs: 0, offsetMin: 0, person: 'p' },
  corrections: 0,
});

describe('what the box of a recorded field shows', () => {
  test.each([
    [recorded('QUAY 1'), {}, undefined, 'QUAY 1'],
    [recorded(230), {}, { unit: 'kPa', decimals: 0 }, '230'],
    [recorded(Math.PI / 180), {}, { unit: '°', decimals: 2 }, '1.00'],
    [recorded({ personalId: 'p', commitment: '0'.repeat(64) }), { p: 'Nils' }, undefined, 'Nils'],
    [recorded({ personalId: 'p', commitment: '0'.repeat(64) }), {}, undefined, ''],
    [undefined, {}, undefined, ''],
  ] as const)('%o with %o is "%s"', (field, personal, number, shown) => {
    expect(recordedText(field, personal, number)).toBe(shown);
  });

  test('a number is never grouped and never shows a sign of zero', () => {
    expect(shownNumber(18412, 'km', 0)).toBe('18412');
    expect(shownNumber(-0.00001, '°', 2)).toBe('0.00');
  });
});

describe('what is recorded of a typed text', () => {
  test('a personal text leaves as itself once and is not repeated beside it', () => {
    const fact = typedFact({ id: 'intake.owner', kind: 'personal' }, wholeJob, 'Nils');
    expect(fact.payload).toEqual({
      field: 'intake.owner',
      at: wholeJob,
      value: { personal: 'Nils' },
      text: '',
    });
    expect(JSON.stringify(fact).match(/Nils/g)).toHaveLength(1);
  });

  test('any other text is kept as typed', () => {
    expect(typedFact({ id: 'f', kind: 'text' }, wholeJob, 'a').payload).toMatchObject({
      value: 'a',
      text: 'a',
    });
    expect(fieldFact('f', wholeJob, 230, '2,3 bar').payload).toMatchObject({ value: 230, text: '2,3 bar' });
  });
});

describe('a typed number of a form', () => {
  const limits = { min: 100, max: 900 };
  test.each([
    ['230', 230],
    ['2,3 bar', 230],
    ['33.4 psi', 230.29],
  ])('%s is %f kPa', (text, value) => {
    const read = readNumber(text, 'kPa', limits);
    expect(read.ok && read.value.value).toBeCloseTo(value, 1);
    expect(read.ok && read.value.question).toBeUndefined();
  });

  test('outside what can be, it is asked about and keeps its text', () => {
    expect(readNumber('2300', 'kPa', limits)).toMatchObject({
      ok: true,
      value: { text: '2300', question: { key: 'slip.tenTimesTooBig' } },
    });
  });

  test.each(['', 'full', '1 200', '1.200,5'])('"%s" has no reading', (text) => {
    expect(readNumber(text, 'kPa', limits).ok).toBe(false);
  });

  test('a unit of its own is a bare number', () => {
    expect(readNumber('13,2', 'V', undefined)).toMatchObject({ ok: true, value: { value: 13.2 } });
  });
});
