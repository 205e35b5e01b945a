import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  COLOUR_TOKENS,
  type ColourToken,
  cssName,
  type Hex,
  PALETTE,
  paleColour,
  paletteCss,
  rgbOfHex,
  type Theme,
} from '../../../core/drawing/palette.ts';

/** Relative luminance and contrast ratio as WCAG 2.2 defines them. */
function luminance(hex: Hex): number {
  const [r, g, b] = rgbOfHex(hex).map((byte) => {
    const share = byte / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * (r ?? 0) + 0.7152 * (g ?? 0) + 0.0722 * (b ?? 0);
}

function contrast(a: Hex, b: Hex): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return ((light ?? 0) + 0.05) / ((dark ?? 0) + 0.05);
}

const THEMES: readonly Theme[] = ['light', 'dark'];
const GROUNDS = ['paper', 'sheet'] as const;

test('the measure itself: black on white is 21, a colour on itself is 1', () => {
  expect(contrast('#000000', '#FFFFFF')).toBeCloseTo(21, 9);
  expect(contrast('#0B5FA5', '#0B5FA5')).toBe(1);
  // WCAG's own example of a failing grey: #777777 on white is 4.48.
  expect(contrast('#777777', '#FFFFFF')).toBeCloseTo(4.48, 2);
});

describe.each(THEMES)('contrast in the %s theme', (theme) => {
  const least: Readonly<Partial<Record<ColourToken, number>>> = {
    ink: 13,
    pencil: 5.5,
    accent: 4.5,
    proven: 7,
    notProven: 7,
    outside: 7,
  };

  test.each(Object.entries(least))('%s keeps at least %d to 1 on paper and on sheet', (token, ratio) => {
    for (const ground of GROUNDS) {
      const colour = PALETTE[theme][token as ColourToken];
      expect(contrast(colour, PALETTE[theme][ground])).toBeGreaterThanOrEqual(ratio);
    }
  });

  test('text on a pale surface of its own role keeps 4.5 to 1', () => {
    for (const token of ['ink', 'pencil', 'accent', 'proven', 'notProven', 'outside'] as const) {
      expect(contrast(PALETTE[theme][token], paleColour(token, theme))).toBeGreaterThanOrEqual(4.4);
    }
    for (const token of ['proven', 'notProven', 'outside', 'accent', 'pencil'] as const) {
      expect(contrast(PALETTE[theme].ink, paleColour(token, theme))).toBeGreaterThanOrEqual(7);
    }
  });

  test('lines of the drawing stand out from the sheet: 3 to 1 and more', () => {
    for (const token of ['ink', 'pencil', 'accent'] as const) {
      expect(contrast(PALETTE[theme][token], PALETTE[theme].sheet)).toBeGreaterThanOrEqual(3);
    }
  });
});

describe('pale surfaces', () => {
  test('are opaque mixes with the sheet: the sheet stays the sheet, ink turns to a light grey', () => {
    expect(paleColour('sheet', 'light')).toBe('#FFFFFF');
    expect(paleColour('ink', 'light')).toBe('#DFDFE0');
    expect(paleColour('sheet', 'dark')).toBe(PALETTE.dark.sheet);
  });
});

describe('the style sheet of the window', () => {
  const css = readFileSync('renderer/ui/tokens.css', 'utf8');

  test.each(THEMES)('holds every token of the %s theme as the palette has it', (theme) => {
    for (const line of paletteCss(theme).split('\n')) expect(css).toContain(line.trim());
  });

  test('holds no colour of its own', () => {
    const known = new Set(
      THEMES.flatMap((theme) =>
        COLOUR_TOKENS.flatMap((token) => [PALETTE[theme][token], paleColour(token, theme)]),
      ).map((hex) => hex.toLowerCase()),
    );
    for (const [hex] of css.matchAll(/#[0-9a-fA-F]{3,8}\b/g)) expect(known).toContain(hex.toLowerCase());
  });

  test('names tokens in kebab case', () => {
    expect(cssName('notProven')).toBe('not-proven');
    expect(cssName('ink')).toBe('ink');
  });
});

test('a colour that is none is a bug', () => {
  expect(() => rgbOfHex('#12345')).toThrow(/colour/);
  expect(rgbOfHex('#0B5FA5')).toEqual([11, 95, 165]);
});
