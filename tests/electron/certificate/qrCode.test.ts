import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import jsQR from 'jsqr';
import { describe, expect, test } from 'vitest';
import { qrRuns } from '../../../electron/service/certificate/render/qrCode.ts';
import { sampleDocument } from './sampleDocument.ts';
import { render } from './signedSample.ts';
import { runTool, temporaryFile, temporaryFolder } from './tools.ts';

/** A page as a camera would see it: red, green, blue and opacity per pixel. */
function raster(pdf: Uint8Array, dotsPerInch: number) {
  const path = temporaryFile('file.pdf', pdf);
  const folder = temporaryFolder();
  const resolution = String(dotsPerInch);
  runTool('pdftoppm', '-r', resolution, '-f', '1', '-l', '1', '-singlefile', path, join(folder, 'page'));
  const image = execFileSync('cat', [join(folder, 'page.ppm')], { maxBuffer: 1e9 });
  const header = /^P6\s+(\d+) (\d+)\s+255\s/.exec(image.toString('latin1', 0, 40));
  const [width, height] = [Number(header?.[1]), Number(header?.[2])];
  const pixels = image.subarray(image.length - width * height * 3);
  const colours = new Uint8ClampedArray(width * height * 4).fill(255);
  for (let at = 0; at < width * height; at++) {
    for (const channel of [0, 1, 2]) colours[at * 4 + channel] = pixels[at * 3 + channel] ?? 0;
  }
  return { colours, width, height };
}

describe('the QR code on page 1', () => {
  test.each(['A4', 'Letter'] as const)(
    'is read from a 150 dpi picture of the whole %s page',
    async (paper) => {
      const document = sampleDocument({ paper });
      const { colours, width, height } = raster(await render(document), 150);
      expect(jsQR(colours, width, height)?.data).toBe(document.qrText);
    },
  );

  test('holds number, edition and digest and nothing else', () => {
    const { qrText, recordDigest, number } = sampleDocument({ edition: 2 });
    expect(qrText).toBe(`DATUMLINE 1 ${number} 2 ${recordDigest.toUpperCase()}`);
  });
});

test('runs are the dark modules of the code, finder pattern first', () => {
  const { side, runs } = qrRuns('hello');
  expect(side).toBe(21);
  // ISO/IEC 18004: a finder pattern is 7 modules wide, dark at its edge, in three corners.
  expect(runs.filter(([, row]) => row === 0).at(0)).toEqual([0, 0, 7]);
  expect(runs.filter(([, row]) => row === 0).at(-1)).toEqual([14, 0, 7]);
  expect(runs.filter(([, row]) => row === 20).at(0)).toEqual([0, 20, 7]);
});
