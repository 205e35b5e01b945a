import { expect, test } from 'vitest';
import { openText } from '../../../core/job/event.ts';
import { rememberingOpenText } from '../../../electron/service/journal/openedTexts.ts';
import { chainOfEvents } from '../../core/job/chainOfEvents.ts';

test('the remembered answer is the plain one, and the same object the second time', () => {
  const open = rememberingOpenText();
  for (const text of chainOfEvents(3)) {
    expect(open(text)).toEqual(openText(text));
    expect(open(text)).toBe(open(text));
  }
});

test('a text changed by one character is another text', () => {
  const open = rememberingOpenText();
  const [text = ''] = chainOfEvents(1);
  const before = open(text);
  const changed = text.replace('"seq":1', '"seq":2');
  expect(changed).not.toBe(text);
  expect(open(changed).hash).not.toBe(before.hash);
  expect(open(changed)).toEqual(openText(changed));
});

test('it forgets the oldest and answers as before', () => {
  const open = rememberingOpenText(2);
  const texts = chainOfEvents(3);
  const first = open(texts[0] ?? '');
  for (const text of texts) open(text);
  const again = open(texts[0] ?? '');
  expect(again).not.toBe(first);
  expect(again).toEqual(first);
});
