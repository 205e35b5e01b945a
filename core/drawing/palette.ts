/**
 * The colours of the product, once: the window's style sheet is written from this table and the certificate prints
 * its light column. Chosen so that red-green blind people tell them apart, and so that text keeps 4.5:1 and verdicts
 * and the next action keep 7:1 on either ground (WCAG 2.2, relative luminance and contrast ratio).
 */
import { invariant } from '../result.ts';

/** The colour tokens. `paper` is the ground of the window, `sheet` of cards and drawings. */
export const COLOUR_TOKENS = [
  'paper',
  'sheet',
  'ink',
  'pencil',
  'hairline',
  'accent',
  'proven',
  'notProven',
  'outside',
] as const;
/** One colour token. */
export type ColourToken = (typeof COLOUR_TOKENS)[number];

/** Light for day and paper, dark for a dim bay. */
export type Theme = 'light' | 'dark';

/** A colour as `#rrggbb`. */
export type Hex = `#${string}`;

/** Token to colour, per theme. */
export const PALETTE: Readonly<Record<Theme, Readonly<Record<ColourToken, Hex>>>> = {
  light: {
    paper: '#FBFAF7',
    sheet: '#FFFFFF',
    ink: '#1A1D21',
    pencil: '#5A6169',
    hairline: '#D9D5CC',
    accent: '#0B5FA5',
    proven: '#005A41',
    notProven: '#7A4B00',
    outside: '#9C1F00',
  },
  dark: {
    paper: '#14171A',
    sheet: '#1D2125',
    ink: '#F2F0EA',
    pencil: '#A9B0B7',
    hairline: '#33393F',
    accent: '#6CB6F5',
    proven: '#35C79A',
    notProven: '#F2B64C',
    outside: '#FF8A66',
  },
};

/** How much of a role is mixed into the sheet for a pale surface. */
export const PALE_SHARE = 0.14;

/** Red, green, blue from 0 to 255. */
export type Rgb = readonly [number, number, number];

/** The three bytes of a colour: `rgbOfHex('#0B5FA5')` gives `[11, 95, 165]`. */
export function rgbOfHex(hex: Hex): Rgb {
  invariant(/^#[0-9A-Fa-f]{6}$/.test(hex), `not a colour: ${hex}`);
  const byte = (at: number): number => Number.parseInt(hex.slice(at, at + 2), 16);
  return [byte(1), byte(3), byte(5)];
}

function hexOfRgb(rgb: Rgb): Hex {
  return `#${rgb.map((byte) => byte.toString(16).padStart(2, '0').toUpperCase()).join('')}`;
}

/** The pale tone of a token: an opaque mix with the sheet, so that print needs no transparency. */
export function paleColour(token: ColourToken, theme: Theme): Hex {
  const own = rgbOfHex(PALETTE[theme][token]);
  const sheet = rgbOfHex(PALETTE[theme].sheet);
  const mix = (at: 0 | 1 | 2): number => Math.round(own[at] * PALE_SHARE + sheet[at] * (1 - PALE_SHARE));
  return hexOfRgb([mix(0), mix(1), mix(2)]);
}

/** The name of a token in the style sheet: `notProven` is `not-proven`. */
export function cssName(token: ColourToken): string {
  return token.replace(/[A-Z]/g, (capital) => `-${capital.toLowerCase()}`);
}

/** The custom properties of one theme, one per line: token and pale token. */
export function paletteCss(theme: Theme): string {
  return COLOUR_TOKENS.flatMap((token) => [
    `  --${cssName(token)}: ${PALETTE[theme][token].toLowerCase()};`,
    `  --${cssName(token)}-pale: ${paleColour(token, theme).toLowerCase()};`,
  ]).join('\n');
}
