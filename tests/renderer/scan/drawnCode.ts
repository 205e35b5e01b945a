/** Codes drawn as grey pictures by a library that shares nothing with the decoder. */
import bwipjs from 'bwip-js/node';

export type DrawnKind = 'code39' | 'code128' | 'datamatrix' | 'qrcode';

export interface Grey {
  readonly width: number;
  readonly height: number;
  /** One byte a pixel, 255 white. */
  readonly pixels: Uint8Array;
}

type Modules = {
  readonly columns: number;
  readonly rows: number;
  isDark(column: number, row: number): boolean;
};

/** The bars or squares of a code, one module each. */
function modulesOf(kind: DrawnKind, text: string): Modules {
  const [raw] = bwipjs.raw({ bcid: kind, text }) as readonly (
    | { readonly sbs: readonly number[] }
    | { readonly pixs: readonly number[]; readonly pixx: number; readonly pixy: number }
  )[];
  if (raw === undefined) throw new Error(`nothing drawn for ${kind}`);
  if ('sbs' in raw) {
    const bars = raw.sbs.flatMap((width, index) => Array<boolean>(width).fill(index % 2 === 0));
    return { columns: bars.length, rows: 30, isDark: (column) => bars[column] === true };
  }
  const { pixs, pixx, pixy } = raw;
  return { columns: pixx, rows: pixy, isDark: (column, row) => pixs[row * pixx + column] === 1 };
}

/** The code in the middle of a white picture, `scale` pixels a module. */
export function drawnCode(
  kind: DrawnKind,
  text: string,
  scale: number,
  size?: { width: number; height: number },
): Grey {
  const { columns, rows, isDark } = modulesOf(kind, text);
  const quiet = 12 * scale;
  const width = size?.width ?? columns * scale + 2 * quiet;
  const height = size?.height ?? rows * scale + 2 * quiet;
  const left = Math.floor((width - columns * scale) / 2);
  const top = Math.floor((height - rows * scale) / 2);
  if (left < 0 || top < 0) throw new Error('the code does not fit the picture');
  const pixels = new Uint8Array(width * height).fill(255);
  for (let y = 0; y < rows * scale; y += 1) {
    for (let x = 0; x < columns * scale; x += 1) {
      if (isDark(Math.floor(x / scale), Math.floor(y / scale))) pixels[(top + y) * width + left + x] = 0;
    }
  }
  return { width, height, pixels };
}

/** As the canvas gives it: four bytes a pixel. */
export function imageOf({ width, height, pixels }: Grey): ImageData {
  const data = new Uint8ClampedArray(width * height * 4).fill(255);
  for (const [at, grey] of pixels.entries()) data.fill(grey, at * 4, at * 4 + 3);
  return { data, width, height, colorSpace: 'srgb' } as ImageData;
}
