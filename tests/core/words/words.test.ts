import { describe, expect, test } from 'vitest';
import { say, slotsOf, TOPICS, templateOf, WORD_KEYS, wordFaults } from '../../../core/words/index.ts';

describe('the catalogue', () => {
  test('no key is in two topics', () => {
    const all = Object.values(TOPICS).flatMap((topic) => Object.keys(topic));
    expect(all.length).toBe(new Set(all).size);
    expect(all.length).toBe(WORD_KEYS.length);
    expect(all.length).toBeGreaterThan(20);
  });

  test.each(WORD_KEYS)('%s has no banned word, no stray brace and no empty wording', (key) => {
    const template = templateOf(key) ?? '';
    expect(template.trim()).toBe(template);
    expect(template).not.toBe('');
    expect(wordFaults(template)).toEqual([]);
    expect(template.replace(/\{[A-Za-z][A-Za-z0-9]*\}/g, '')).not.toMatch(/[{}]/);
  });

  test('slots are filled, and a missing or spare value is a bug', () => {
    expect(say('dir.towardCar', { amount: '4.0 mm' })).toBe('4.0 mm toward the car');
    expect(say('side.carLeft')).toBe("car's left");
    expect(() => say('dir.towardCar')).toThrow(/\{amount\}/);
    expect(() => say('dir.none', { amount: '1' })).toThrow(/no slot/);
    expect(slotsOf('{a} of {b}, {a}')).toEqual(['a', 'b', 'a']);
    expect(templateOf('toString')).toBeUndefined();
  });
});

describe('words that may not reach a screen', () => {
  test.each([
    ['move it back 4 mm', 'ambiguousWay'],
    ['Forward a little', 'ambiguousWay'],
    ['left end higher', 'bareSide'],
    ['the right hub', 'bareSide'],
    ["the car's front left wheel", 'bareSide'],
    ['off by -4 mm', 'signedNumber'],
    ['+0.2 deg', 'signedNumber'],
    ['deviation: - 4 mm', 'signedNumber'],
    ['(\u22120.2 deg)', 'signedNumber'],
  ])('%s has %s', (text, fault) => {
    expect(wordFaults(text).map((found) => found.fault)).toEqual([fault]);
  });

  test.each([
    "car's left (steering-wheel side)",
    "car's-left end 6 mm away from the car",
    'the car\u2019s right',
    "550 mm to the car's left and right",
    'read on 2026-03-01 between 5-10 mm',
    'copyright, leftover, feedback',
    'write it as reach + 1500 mm, from 5 \u2013 10 mm',
    'U = 2.3 mm (k = 2)',
  ])('%s passes', (text) => {
    expect(wordFaults(text)).toEqual([]);
  });
});
