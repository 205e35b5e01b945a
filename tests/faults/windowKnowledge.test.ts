import { describe, expect, test } from 'vitest';
import {
  afterLook,
  type FieldKnowledge,
  judgeField,
  type StoreLook,
  type WindowLook,
} from './windowKnowledge.ts';

const death = { atMs: 10_000, keptUp: true };
const slowDeath = { ...death, keptUp: false };

/** A field with these texts typed (age in ms at the kill) and sent (true where the record was seen). */
function field(
  typed: readonly (readonly [string, number])[],
  sent: Record<string, boolean> = {},
): FieldKnowledge {
  return {
    key: 'f',
    sent: new Map(Object.entries(sent)),
    typed: typed.map(([text, age]) => ({ text, atMs: death.atMs - age })),
  };
}

const store = (recorded: readonly string[], draft?: string): StoreLook => ({ recorded, draft });
const problems = (
  known: FieldKnowledge,
  look: StoreLook,
  shown?: WindowLook,
  end = death,
): readonly string[] => judgeField(known, look, shown, end).problems;

describe('what must be in the store after a kill', () => {
  test('an entry that was shown as recorded, once', () => {
    expect(problems(field([], { a: true }), store(['a']))).toEqual([]);
    expect(problems(field([], { a: true }), store([]))).toEqual(['f: "a" was shown as recorded and is lost']);
    expect(problems(field([], { a: true }), store(['a', 'a']))).toEqual(['f: "a" is recorded 2 times']);
  });

  test('an entry without an answer may be there or not, but not twice', () => {
    expect(problems(field([['a', 100]], { a: false }), store(['a']))).toEqual([]);
    expect(problems(field([['a', 100]], { a: false }), store([]))).toEqual([]);
    expect(problems(field([['a', 100]], { a: false }), store(['a', 'a']))).toEqual([
      'f: "a" is recorded 2 times',
    ]);
    expect(judgeField(field([], { a: false }), store(['a']), undefined, death).counts.recordedUnseen).toBe(1);
  });

  test('nothing that was not sent', () => {
    expect(problems(field([['ab', 900]]), store(['ab']))).toEqual(['f: "ab" is recorded and was never sent']);
  });
});

describe('drafts', () => {
  const typed = field([
    ['a', 900],
    ['ab', 600],
    ['abc', 400],
  ]);

  test('the newest text of 500 ms or more is there, or a later one', () => {
    expect(problems(typed, store([], 'ab'))).toEqual([]);
    expect(problems(typed, store([], 'abc'))).toEqual([]);
    expect(problems(typed, store([], 'a'))).toEqual(['f: the draft "ab", 600 ms old, is lost; "a" is there']);
    expect(problems(typed, store([]))).toEqual(['f: the draft "ab", 600 ms old, is lost; "" is there']);
    expect(problems(typed, store([], 'xyz'))[0]).toBe('f: the draft "xyz" was never typed');
  });

  test('on a machine that did not keep up a young one is counted apart, one seen before is not', () => {
    expect(judgeField(typed, store([]), undefined, slowDeath)).toMatchObject({
      counts: { draftsNotJudged: 1 },
      problems: [],
    });
    const seen = field([['ab', 600]]);
    afterLook(seen, store([], 'ab'));
    expect(problems(seen, store([]), undefined, slowDeath)).toHaveLength(1);
  });

  test('what was recorded with the last text leaves none; text sent into the kill is a draft as before', () => {
    expect(problems(field([['ab', 900]], { ab: false }), store(['ab']))).toEqual([]);
    expect(problems(field([['ab', 900]], { ab: false }), store([], 'ab'))).toEqual([]);
    expect(problems(field([['ab', 900]], { ab: false }), store([]))).toHaveLength(1);
  });

  test('is shown in its field as typed, not recorded', () => {
    expect(problems(typed, store([], 'ab'), { text: 'ab', mark: 'restored' })).toEqual([]);
    expect(problems(typed, store([], 'ab'), { text: 'ab', mark: 'recorded' })).toHaveLength(1);
    expect(problems(typed, store([], 'ab'), { text: '', mark: 'restored' })).toHaveLength(1);
    expect(problems(field([]), store(['a']), { text: 'a', mark: 'restored' })).toHaveLength(2);
  });
});

test('the next life starts from what the store holds', () => {
  const known = field([['ab', 900]], { x: true, y: false, z: false });
  afterLook(known, store(['x', 'y'], 'ab'));
  expect([...known.sent]).toEqual([
    ['x', true],
    ['y', true],
  ]);
  expect(known.typed).toEqual([{ text: 'ab', atMs: Number.NEGATIVE_INFINITY }]);
});
