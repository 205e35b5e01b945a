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
import { longerWording } from '../../window/longerWords.ts';

afterEach(() => speak('en'));

const german: Readonly<Record<string, string>> = GERMAN;

/** What is left of a template's length when its slots are taken out: they are as long in every language. */
const lengthOf = (template: string): number => template.replace(/\{[^}]*\}/g, '').length;

/** A word or two may be longer than a third more: the window in German itself is looked at for those. */
const SHORT = 30;

describe('the German catalogue', () => {
  test('has a wording for every key, and for nothing else', () => {
    expect(Object.keys(german).filter((key) => !WORD_KEYS.includes(key))).toEqual([]);
    expect(WORD_KEYS.filter((key) => !Object.hasOwn(german, key))).toEqual([]);
  });

  test.each(Object.entries(german))('%s: same slots, no banned word, tidy', (key, template) => {
    expect([...slotsOf(template)].sort()).toEqual([...slotsOf(templateOf(key, 'en') ?? '')].sort());
    expect(inLanguage('de', () => wordFaults(template))).toEqual([]);
    expect(template.trim()).toBe(template);
    expect(template).not.toBe('');
    expect(template.replace(/\{[A-Za-z][A-Za-z0-9]*\}/g, '')).not.toMatch(/[{}]/);
  });

  test('no text is longer than the window is tested for: its English a third longer', () => {
    const tooLong = Object.entries(german).flatMap(([key, template]) => {
      const most = Math.max(SHORT, lengthOf(longerWording(templateOf(key, 'en') ?? '')));
      return lengthOf(template) > most ? [`${key}: ${lengthOf(template)} of ${most}`] : [];
    });
    expect(tooLong).toEqual([]);
  });

  test('no text is left in English by oversight: a sentence reads alike in both only as a name', () => {
    const alike = Object.entries(german).filter(
      ([key, template]) =>
        template === templateOf(key, 'en') && /\p{L}{4,}/u.test(template.replace(/\{[^}]*\}/g, '')),
    );
    const same = [
      'certificate.verdicts.caption',
      'act.enter',
      'first.title',
      'sensor.inSight',
      'thing.name',
      'summary.station',
    ];
    expect(alike.map(([key]) => key)).toEqual(same);
  });

  test('the reader is never addressed as a friend, nor in two manners', () => {
    const spoken = Object.entries(german).filter(([, template]) =>
      /(?<!\p{L})(?:du|dir|dich|dein\p{L}*|Ihnen|Ihr Gerät|bitte)(?!\p{L})/iu.test(template),
    );
    expect(spoken).toEqual([]);
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
    '4 mm Fahrzeug rechts',
    'linke und rechte Fahrzeugseite',
    'vor dem Fahrzeug, vor der Arbeit',
    'Vorprüfung, Hinterachse, zurückgezogen, Vorgang',
    'senkrecht, rechtwinklig, verlinkt, Rechteck',
    '2026-03-01, 5-10 mm',
  ])('%s passes', (text) => {
    expect(inLanguage('de', () => wordFaults(text))).toEqual([]);
  });
});
