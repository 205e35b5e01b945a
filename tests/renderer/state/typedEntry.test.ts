import { describe, expect, test } from 'vitest';
import {
  afterRecorded,
  afterRefused,
  opened,
  restored,
  sent,
  typed,
  typedKey,
} from '../../../renderer/state/typedEntry.ts';

const error = { code: 'journal/full', details: {}, traceId: 't' };

describe('a field from its first key to the record', () => {
  test('keeps the command it was opened with while it is only typed', () => {
    const entry = typed(typed(opened('j', 'f', '1', 'first'), '12', 'x'), '123', 'y');
    expect(entry).toMatchObject({ text: '123', phase: 'typing', commandId: 'first' });
    expect(sent(entry)).toMatchObject({ phase: 'sent', commandId: 'first' });
  });

  test('is gone once its own command is recorded', () => {
    expect(afterRecorded(sent(opened('j', 'f', '1', 'first')), 'first')).toBeUndefined();
  });

  test('typed on after sending, it is another entry with another command, and the answer leaves it alone', () => {
    const on = typed(sent(opened('j', 'f', '1', 'first')), '12', 'second');
    expect(on).toMatchObject({ text: '12', phase: 'typing', commandId: 'second' });
    expect(afterRecorded(on, 'first')).toBe(on);
    expect(afterRefused(on, 'first', error, 'third')).toBe(on);
  });

  test('refused, it keeps its text, says why, and takes a new command for the next try', () => {
    const entry = afterRefused(sent(opened('j', 'f', '1', 'first')), 'first', error, 'second');
    expect(entry).toMatchObject({ text: '1', phase: 'refused', commandId: 'second', error });
    expect(typed(entry, '12', 'third')).toMatchObject({ phase: 'typing', error: null });
  });

  test('a draft of an earlier start is typed, not recorded, and saved already', () => {
    expect(restored('j', 'f', 'half', 'c')).toMatchObject({ phase: 'restored', savedText: 'half' });
  });

  test('keys of two jobs never meet', () => {
    expect(typedKey('a', 'b c')).not.toBe(typedKey('a b', 'c '));
    expect(typedKey('j1', 'f')).not.toBe(typedKey('j2', 'f'));
  });
});
