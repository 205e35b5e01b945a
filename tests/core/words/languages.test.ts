import { afterEach, describe, expect, test } from 'vitest';
import { GERMAN } from '../../../core/words/de/index.ts';
import {
  inLanguage,
  languageOfTag,
  say,
  slotsOf,
  speak,
  spokenLanguage,
  templateOf,
  WORD_KEYS,
  wordFaults,
} from '../../../core/words/index.ts';

afterEach(() => speak('en'));

const german: Readonly<Record<string, string>> = GERMAN;

describe('the German catalogue', () => {
  test('every German key is an English one', () => {
    expect(Object.keys(german).filter((key) => !WORD_KEYS.includes(key))).toEqual([]);
  });

  test.each(Object.entries(german))('%s: same slots, no banned word, tidy', (key, template) => {
    expect([...slotsOf(template)].sort()).toEqual([...slotsOf(templateOf(key, 'en') ?? '')].sort());
    expect(inLanguage('de', () => wordFaults(template))).toEqual([]);
    expect(template.trim()).toBe(template);
    expect(template).not.toBe('');
    expect(template.replace(/\{[A-Za-z][A-Za-z0-9]*\}/g, '')).not.toMatch(/[{}]/);
  });
});

describe('the language that is spoken', () => {
  test('is English until it is set, and is set for all that follows', () => {
    expect(spokenLanguage()).toBe('en');
    expect(say('cure.keep', { value: '12 mm' })).toBe('keep 12 mm');
    speak('de');
    expect(say('cure.keep', { value: '12 mm' })).toBe('12 mm behalten');
  });

  test('is another one for a while only, and only inside', () => {
    expect(inLanguage('de', () => say('cure.keep', { value: '12 mm' }))).toBe('12 mm behalten');
    expect(spokenLanguage()).toBe('en');
    expect(inLanguage('de', () => inLanguage('en', () => spokenLanguage()))).toBe('en');
    expect(() =>
      inLanguage('de', () => {
        throw new Error('in between');
      }),
    ).toThrow('in between');
    expect(spokenLanguage()).toBe('en');
  });

  test.each([
    ['de', 'de'],
    ['de-DE', 'de'],
    ['de_AT', 'de'],
    ['EN-us', 'en'],
    ['fr', undefined],
    ['', undefined],
    ['deu', undefined],
  ])('the tag %s is %s', (tag, language) => {
    expect(languageOfTag(tag)).toBe(language);
  });
});

describe('German words that may not reach a screen', () => {
  test.each([
    ['Gestell 4 mm zurück', 'ambiguousWay'],
    ['Gestell nach vorn schieben', 'ambiguousWay'],
    ['4 mm vor, dann messen', 'ambiguousWay'],
    ['nach hinten', 'ambiguousWay'],
    ['Balkenende links', 'bareSide'],
    ['das rechte Vorderrad', 'bareSide'],
    ['4 mm nach Rechts', 'bareSide'],
    ['linke Seite', 'bareSide'],
    ['Abweichung: -4 mm', 'signedNumber'],
  ])('%s has %s', (text, fault) => {
    expect(inLanguage('de', () => wordFaults(text)).map((found) => found.fault)).toEqual([fault]);
  });

  test.each([
    'Vorderrad fahrzeuglinks',
    'auf der linken Fahrzeugseite',
    'linke und rechte Fahrzeugseite',
    'vor dem Fahrzeug, vor der Arbeit',
    'Vorprüfung, Hinterachse, zurückgezogen, Vorgang',
    'senkrecht, rechtwinklig, verlinkt, Rechteck',
    '2026-03-01, 5-10 mm',
  ])('%s passes', (text) => {
    expect(inLanguage('de', () => wordFaults(text))).toEqual([]);
  });
});
