/**
 * Ink, type and spacing of the printed certificate, in PDF points (1/72 inch).
 *
 * The ground stays the bare sheet: a tint would cost every owner's printer. Nothing is told by colour alone, so the
 * page means the same in black and white.
 */

export const colours = {
  ink: '#1A1D21',
  pencil: '#5A6169',
  hairline: '#C9C4B8',
  wash: '#F4F2EC',
  sheet: '#FFFFFF',
  accent: '#0B5FA5',
  proven: '#005A41',
  notProven: '#7A4B00',
  outside: '#9C1F00',
} as const;

export type FontName = 'regular' | 'bold';

/** How a run of text looks. `leading` is the distance from one line's top to the next. */
export interface TextStyle {
  readonly font: FontName;
  readonly size: number;
  readonly leading: number;
  readonly colour: string;
}

function style(font: FontName, size: number, leading: number, colour: string): TextStyle {
  return { font, size, leading, colour };
}

export const styles = {
  shop: style('bold', 11, 15, colours.ink),
  shopLine: style('regular', 7.5, 10.5, colours.pencil),
  title: style('regular', 9, 13, colours.ink),
  answer: style('bold', 22, 28, colours.ink),
  answerReversed: style('bold', 22, 28, colours.sheet),
  sentence: style('regular', 9.5, 14, colours.ink),
  sentenceReversed: style('regular', 9.5, 14, colours.sheet),
  sensor: style('bold', 9.5, 14, colours.ink),
  outcome: style('regular', 9.5, 14, colours.ink),
  heading: style('bold', 12, 16, colours.ink),
  caption: style('bold', 8.5, 12, colours.ink),
  body: style('regular', 8.5, 12.5, colours.ink),
  strong: style('bold', 8.5, 12.5, colours.ink),
  quiet: style('regular', 8, 11.5, colours.pencil),
  struck: style('regular', 8.5, 12.5, colours.pencil),
  label: style('regular', 7.5, 12.5, colours.pencil),
  head: style('bold', 7, 9.5, colours.pencil),
  cell: style('regular', 8, 11.5, colours.ink),
  cellStrong: style('bold', 8, 11.5, colours.ink),
  cellQuiet: style('regular', 7.5, 11.5, colours.pencil),
  tick: style('regular', 6.5, 8, colours.pencil),
  small: style('regular', 7.5, 11, colours.pencil),
  digest: style('regular', 7.5, 11, colours.ink),
  running: style('regular', 7.5, 10, colours.pencil),
  runningStrong: style('bold', 7.5, 10, colours.ink),
  end: style('bold', 8, 11, colours.ink),
} as const;

/** Vertical rhythm: half, whole and double step. */
export const space = { half: 4, step: 8, double: 16 } as const;

/** Line widths: the frame of an outcome, a rule under a heading, a line between rows. */
export const rule = { heavy: 2, firm: 0.9, hair: 0.5 } as const;

/** Side of the QR code on paper: 26 mm keeps a module near half a millimetre, which a telephone reads at arm's length. */
export const qrSide = (26 / 25.4) * 72;

export const pointsPerMm = 72 / 25.4;
