import { createHash } from 'node:crypto';
import { describe, expect, test } from 'vitest';
import {
  erasedPersonalIds,
  personalCommitment,
  personalReferences,
  sealPersonal,
} from '../../../core/job/personal.ts';

const SALT = `${'00'.repeat(31)}ff`;

function numbered() {
  let n = 0;
  return () => {
    n += 1;
    return { id: `id${n}`, salt: n.toString(16).padStart(64, '0') };
  };
}

describe('personalCommitment', () => {
  test('is SHA-256 over the salt followed by the UTF-8 of the text', () => {
    const expected = createHash('sha256')
      .update(Buffer.concat([Buffer.from(SALT, 'hex'), Buffer.from('Märta Ö.', 'utf8')]))
      .digest('hex');
    expect(personalCommitment(SALT, 'Märta Ö.')).toBe(expected);
  });

  test('another salt or another text gives another commitment', () => {
    const base = personalCommitment(SALT, 'a');
    expect(personalCommitment('11'.repeat(32), 'a')).not.toBe(base);
    expect(personalCommitment(SALT, 'b')).not.toBe(base);
  });

  test('a salt of another length is a bug: salt and text could be divided in two ways', () => {
    expect(() => personalCommitment('00', 'a')).toThrow(/32 bytes/);
  });
});

describe('sealPersonal', () => {
  test('puts marked texts aside at any depth and leaves everything else', () => {
    const sealed = sealPersonal(
      { name: { personal: 'Ada' }, list: [{ personal: 'x' }, 1, null], deep: { a: { personal: '' } }, n: 2 },
      numbered(),
    );
    expect(sealed.personal.map(({ id, text }) => [id, text])).toEqual([
      ['id1', 'Ada'],
      ['id2', 'x'],
      ['id3', ''],
    ]);
    expect(sealed.payload).toEqual({
      name: { personalId: 'id1', commitment: personalCommitment('1'.padStart(64, '0'), 'Ada') },
      list: [{ personalId: 'id2', commitment: personalCommitment('2'.padStart(64, '0'), 'x') }, 1, null],
      deep: { a: { personalId: 'id3', commitment: personalCommitment('3'.padStart(64, '0'), '') } },
      n: 2,
    });
    expect(JSON.stringify(sealed.payload)).not.toContain('Ada');
  });

  test('only the exact mark counts', () => {
    const payload = { a: { personal: 'x', more: 1 }, b: { personal: 5 }, personal: 'top' };
    expect(sealPersonal(payload, numbered())).toEqual({ payload, personal: [] });
  });

  test('its references are found again', () => {
    const { payload, personal } = sealPersonal({ a: { personal: 'x' }, b: [{ personal: 'y' }] }, numbered());
    expect(personalReferences(payload)).toEqual(
      personal.map(({ id, salt, text }) => ({ personalId: id, commitment: personalCommitment(salt, text) })),
    );
  });
});

describe('erasedPersonalIds', () => {
  test('collects the ids of erased events and nothing else', () => {
    const ids = erasedPersonalIds([
      { type: 'erased', payload: { personalIds: ['a', 'b'], reason: 'asked' } },
      { type: 'fieldRecorded', payload: { personalIds: ['c'] } },
      { type: 'erased', payload: { personalIds: [7] } },
      { type: 'erased', payload: {} },
    ]);
    expect([...ids]).toEqual(['a', 'b']);
  });
});
