import { describe, expect, test } from 'vitest';
import { type LineFormat, tryFormat } from '../../../core/instruments/index.ts';

const format: LineFormat = {
  pattern: '^(?<channel>D[12]) (?<value>[-+0-9.]+)$',
  kind: 'length',
  unit: 'mm',
  channel: 'D1',
  good: [],
};

describe('a format tried on a sample', () => {
  test('fits when every line is read; lines of another channel do not disturb', () => {
    const trial = tryFormat(format, ['D1 +1.0', 'D2 +9.9', 'D1 +3.0']);
    expect(trial.fits).toBe(true);
    expect(trial.take).toEqual({ n: 2, mean: 2, s: Math.SQRT2 });
    expect(trial.lines.map(({ value }) => value?.value ?? null)).toEqual([1, null, 3]);
  });

  test('does not fit when one line is not read, and says which and why', () => {
    const trial = tryFormat(format, ['D1 +1.0', 'D1 +-', 'garbage']);
    expect(trial.fits).toBe(false);
    expect(trial.lines.map(({ fault }) => fault?.key ?? null)).toEqual([
      null,
      'instrument.notANumber',
      'instrument.noMatch',
    ]);
  });

  test('does not fit when no line had a value', () => {
    expect(tryFormat(format, ['D2 1']).fits).toBe(false);
    expect(tryFormat(format, []).fits).toBe(false);
  });

  test('of a format that cannot be used no line is tried', () => {
    const trial = tryFormat({ ...format, pattern: '(' }, ['D1 1']);
    expect(trial).toMatchObject({ fits: false, lines: [], take: null });
    expect(trial.problem?.key).toBe('instrument.patternUnreadable');
  });
});
