import { describe, expect, test } from 'vitest';
import { instrumentSchema } from '../../../core/job/equipment.ts';

const gauge = {
  id: 'gauge-1',
  name: 'Laser distance meter 1',
  serial: '4711',
  certificate: '',
  dueOn: '2027-03-01',
  kind: 'tape',
  accuracyClass: null,
  resolution: 0.1,
  startsAt: 'zero',
  numbersIn: 'mm',
};
const stream = {
  source: { kind: 'serial', port: 'ttyUSB0', baud: 9600, dataBits: 8, stopBits: 1, parity: 'none' },
  format: { pattern: '(?<value>[-+0-9.]+)', kind: 'length', unit: 'mm', channel: '', good: [] },
};

describe('an instrument of the shop', () => {
  test('may say how it sends its readings, and need not', () => {
    expect(instrumentSchema.parse(gauge)).toEqual(gauge);
    expect(instrumentSchema.parse({ ...gauge, stream })).toEqual({ ...gauge, stream });
  });

  test.each([
    ['a path for a port', { ...stream, source: { ...stream.source, port: '/dev/sda' } }],
    ['no format', { source: stream.source }],
    ['something more', { ...stream, code: 'x' }],
  ])('but not with %s', (_name, bad) => {
    expect(instrumentSchema.safeParse({ ...gauge, stream: bad }).success).toBe(false);
  });
});
