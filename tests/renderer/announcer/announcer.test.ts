import { describe, expect, test } from 'vitest';
import { announce, MOST_KEPT, type Said, type Sound, toneOf } from '../../../renderer/announcer/announcer.ts';
import type { NextLine } from '../../../renderer/state/nextLine.ts';

const at = { utcMs: 1_000, languageTag: 'en-GB' };

function sound(voices: readonly string[]): Sound & { readonly heard: string[] } {
  const heard: string[] = [];
  return {
    heard,
    speak: (text, tag) => {
      if (!voices.includes(tag)) return false;
      heard.push(text);
      return true;
    },
    tone: (kind) => heard.push(`tone ${kind}`),
  };
}

test('with a voice of the language the line is spoken, without one a tone is given; both stand in the list', () => {
  const english = sound(['en-GB']);
  const first = announce('Turn the base', 'move', [], at, english);
  const second = announce('Basis drehen', 'move', first, { utcMs: 2_000, languageTag: 'de-DE' }, english);
  expect(english.heard).toEqual(['Turn the base', 'tone move']);
  expect(second).toEqual([
    { atUtcMs: 2_000, text: 'Basis drehen', given: 'tone' },
    { atUtcMs: 1_000, text: 'Turn the base', given: 'voice' },
  ]);
});

test('the list keeps the newest and does not grow without limit', () => {
  const quiet = sound([]);
  let said: readonly Said[] = [];
  for (let line = 1; line <= MOST_KEPT + 5; line += 1)
    said = announce(`line ${line}`, 'next', said, at, quiet);
  expect(said).toHaveLength(MOST_KEPT);
  expect(said[0]?.text).toBe(`line ${MOST_KEPT + 5}`);
});

describe('what a tone means', () => {
  const line: NextLine = { text: 'x', go: undefined, moves: [] };
  const move = { kind: 'turn' } as unknown as NextLine['moves'][number];

  test('a move, a reading, a stage that is finished', () => {
    expect(toneOf({ ...line, moves: [move] })).toBe('move');
    expect(toneOf(line)).toBe('next');
    expect(toneOf({ ...line, go: 'stations' })).toBe('finished');
  });
});
