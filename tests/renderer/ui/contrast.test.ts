import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  COLOUR_TOKENS,
  type ColourToken,
  cssName,
  type Hex,
  PALETTE,
  paleColour,
  rgbOfHex,
  type Theme,
} from '../../../core/drawing/palette.ts';

type Colour = readonly [number, number, number];

/** WCAG 2.2: relative luminance, and the contrast ratio of two colours. */
function luminance(colour: Colour): number {
  const [r, g, b] = colour.map((byte) => {
    const share = byte / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * (r ?? 0) + 0.7152 * (g ?? 0) + 0.0722 * (b ?? 0);
}

function contrast(a: Colour, b: Colour): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const of = (hex: Hex): Colour => rgbOfHex(hex);

/** `color-mix(in srgb, a SHARE, b)`. */
function mix(a: Colour, share: number, b: Colour): Colour {
  const part = (at: 0 | 1 | 2): number => a[at] * share + b[at] * (1 - share);
  return [part(0), part(1), part(2)];
}

const sheets = ['controls.css', 'covers.css'].map((name) => readFileSync(`renderer/ui/${name}`, 'utf8'));

/** The colour of one rule's ground, as the style sheet has it. */
function ground(selector: string, theme: Theme): Colour {
  const rules = sheets.flatMap((css) =>
    [...css.matchAll(/([^{}]+)\{([^}]*)\}/g)].filter(([, names = '']) =>
      names.split(',').some((name) => name.replace(/\/\*[\s\S]*?\*\//g, '').trim() === selector),
    ),
  );
  const text =
    rules.map(([, , body = '']) => /background: ([^;]+);/.exec(body)?.[1] ?? '').find(Boolean) ?? '';
  const mixed = /^color-mix\(in srgb, var\(--accent\) (\d+)%, var\(--ink\)\)$/.exec(text);
  if (mixed !== null) {
    return mix(of(PALETTE[theme].accent), Number(mixed[1]) / 100, of(PALETTE[theme].ink));
  }
  const plain = /^var\(--([a-z-]+?)(-pale)?\)$/.exec(text);
  const token = COLOUR_TOKENS.find((each) => cssName(each) === plain?.[1]);
  if (token === undefined) throw new Error(`${selector} has the ground "${text}"`);
  return of(plain?.[2] === undefined ? PALETTE[theme][token] : paleColour(token, theme));
}

test('the measure itself: black on white is 21', () => {
  expect(contrast([0, 0, 0], [255, 255, 255])).toBeCloseTo(21, 9);
  expect(mix([0, 0, 0], 0.25, [100, 200, 40])).toEqual([75, 150, 30]);
});

describe.each(['light', 'dark'] as const)('in the %s theme', (theme) => {
  const colour = (token: ColourToken): Colour => of(PALETTE[theme][token]);

  test.each([
    '.button-main',
    '.button-main[data-hovered]',
    '.button-main[data-pressed]',
    '.key-enter',
    '.key-enter:active',
  ])('the label of %s, which does the next action, keeps 7 to 1', (selector) => {
    expect(contrast(colour('sheet'), ground(selector, theme))).toBeGreaterThanOrEqual(7);
  });

  test('the next action and the digits across the bay keep 7 to 1 on paper and on sheet', () => {
    for (const under of ['paper', 'sheet'] as const) {
      expect(contrast(colour('ink'), colour(under))).toBeGreaterThanOrEqual(7);
    }
  });

  test.each(['proven', 'notProven', 'outside'] as const)(
    'the verdict %s keeps 7 to 1 wherever it stands',
    (verdict) => {
      for (const under of ['paper', 'sheet'] as const) {
        expect(contrast(colour(verdict), colour(under))).toBeGreaterThanOrEqual(7);
      }
    },
  );

  test('a question keeps 7 to 1 on its own ground', () => {
    expect(contrast(colour('ink'), ground('.question', theme))).toBeGreaterThanOrEqual(7);
  });

  test('what cannot be pressed can be read: 4.5 to 1', () => {
    expect(contrast(colour('pencil'), ground('.button-main[data-disabled]', theme))).toBeGreaterThanOrEqual(
      4.5,
    );
  });

  test('text under a pointer or a finger keeps 4.5 to 1', () => {
    for (const selector of [
      '.button[data-hovered]',
      '.button[data-pressed]',
      '.choice[data-hovered]',
      '.key:hover',
      '.key:active',
    ]) {
      expect(contrast(colour('ink'), ground(selector, theme)), selector).toBeGreaterThanOrEqual(4.5);
    }
  });
});
