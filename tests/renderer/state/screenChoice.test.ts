import { afterEach, describe, expect, test } from 'vitest';
import { LANGUAGES, say, speak, spokenLanguage } from '../../../core/words/index.ts';
import { createActions } from '../../../renderer/state/actions.ts';
import {
  coverOfKey,
  KEYPAD_KEPT,
  keypadOf,
  LANGUAGE_KEPT,
  LENGTH_UNIT_KEPT,
  LENGTH_UNITS,
  languageOf,
  lengthUnitOf,
  THEME_CHOICES,
  THEME_KEPT,
  themeOf,
} from '../../../renderer/state/screenChoice.ts';
import { createWindowStore } from '../../../renderer/state/windowState.ts';
import { lengthText, showLengthsIn, shownLengthUnit } from '../../../renderer/text/lengthText.ts';
import { FakePorts } from '../fakePorts.ts';

afterEach(() => {
  speak('en');
  showLengthsIn('mm');
});

describe('the theme kept on this PC', () => {
  test.each(THEME_CHOICES)('%s comes again as it was kept', (choice) => {
    expect(themeOf(choice)).toBe(choice);
  });

  test.each([null, '', 'Dark', 'sepia', '{}'])('%o, which is no choice, follows the system', (kept) => {
    expect(themeOf(kept)).toBe('system');
  });
});

test('the keypad is out only where it was left out', () => {
  expect(keypadOf('out')).toBe(true);
  for (const kept of [null, '', 'in', 'true']) expect(keypadOf(kept)).toBe(false);
});

describe('language and unit kept on this PC', () => {
  test.each(LANGUAGES)('%s comes again', (language) => expect(languageOf(language)).toBe(language));
  test.each(LENGTH_UNITS)('%s comes again', (unit) => expect(lengthUnitOf(unit)).toBe(unit));
  test.each([null, '', 'fr', 'DE', 'inch'])('%o is neither: English and mm', (kept) => {
    expect(languageOf(kept)).toBe('en');
    expect(lengthUnitOf(kept)).toBe('mm');
  });

  test('inches have two places at least, and one more than the mm they stand for', () => {
    expect([lengthText(1350, 0), lengthText(6.04, 1)]).toEqual(['1350 mm', '6.0 mm']);
    showLengthsIn('in');
    expect([lengthText(1350, 0), lengthText(25.4, 1), lengthText(25.4, 2)]).toEqual([
      '53.15 in',
      '1.00 in',
      '1.000 in',
    ]);
  });
});

describe('keys that lay a cover over the window', () => {
  test('F8 goes to the distance view and out of it again, only where there is something to see', () => {
    expect(coverOfKey('F8', 'none', true)).toBe('distance');
    expect(coverOfKey('F8', 'distance', true)).toBe('none');
    expect(coverOfKey('F8', 'none', false)).toBeUndefined();
    // It may have been opened where it can be left by the key alone.
    expect(coverOfKey('F8', 'distance', false)).toBe('none');
  });

  test('F9 locks from anywhere; no key opens the lock, for keys are wiped too', () => {
    expect(coverOfKey('F9', 'none', false)).toBe('wipe');
    expect(coverOfKey('F9', 'distance', true)).toBe('wipe');
    for (const key of ['F9', 'F8', 'Escape', 'Enter', ' ']) {
      expect(coverOfKey(key, 'wipe', true), key).toBeUndefined();
    }
  });

  test.each(['8', 'a', 'Enter', 'Escape', 'F7'])('%s is left to whatever has the focus', (key) => {
    expect(coverOfKey(key, 'none', true)).toBeUndefined();
  });
});

describe('how the screen is set, as the actions keep it', () => {
  function started(kept: Record<string, string>) {
    const store = createWindowStore({ screen: 'home' });
    const actions = createActions(store, new FakePorts(), {
      read: (key) => kept[key] ?? null,
      write: (key, value) => {
        kept[key] = value;
      },
    });
    return { store, actions, kept };
  }

  test('what was kept stands before anything else is asked', () => {
    const { store } = started({ [THEME_KEPT]: 'dark', [KEYPAD_KEPT]: 'out' });
    expect(store.getState()).toMatchObject({ theme: 'dark', keypad: true, cover: 'none' });
  });

  test('a choice is shown and kept for the next start', () => {
    const first = started({});
    first.actions.chooseTheme('light');
    first.actions.putKeypad(true);
    expect(first.store.getState()).toMatchObject({ theme: 'light', keypad: true });
    const second = started(first.kept);
    expect(second.store.getState()).toMatchObject({ theme: 'light', keypad: true });
    second.actions.putKeypad(false);
    expect(started(second.kept).store.getState().keypad).toBe(false);
  });

  test('language and unit hold at once and from before the first word of the next start', () => {
    const first = started({});
    expect(first.store.getState()).toMatchObject({ language: 'en', lengthUnit: 'mm' });
    first.actions.chooseLanguage('de');
    first.actions.chooseLengthUnit('in');
    expect(first.store.getState()).toMatchObject({ language: 'de', lengthUnit: 'in' });
    expect([say('home.newJob'), shownLengthUnit()]).toEqual(['Neuer Vorgang', 'in']);
    expect(first.kept).toEqual({ [LANGUAGE_KEPT]: 'de', [LENGTH_UNIT_KEPT]: 'in' });
    speak('en');
    showLengthsIn('mm');
    started(first.kept);
    expect([spokenLanguage(), shownLengthUnit()]).toEqual(['de', 'in']);
  });

  test('a cover is not kept, and going elsewhere takes it away', () => {
    const { store, actions, kept } = started({});
    actions.coverWith('distance');
    expect(store.getState().cover).toBe('distance');
    expect(kept).toEqual({});
    actions.go({ screen: 'check' });
    expect(store.getState().cover).toBe('none');
  });
});
