import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { beforeAll, describe, expect, test } from 'vitest';
import { vinFromScan } from '../../../core/entry/vinScan.ts';
import { loadDecoder, readCodes } from '../../../renderer/scan/readCodes.ts';
import { type DrawnKind, drawnCode, type Grey, imageOf } from './drawnCode.ts';

/** The worked example of a check digit that is printed most often; no car of anybody's. */
const VIN = '1M8GDM9AXKP042788';

beforeAll(async () => {
  const file = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
  const bytes = readFileSync(file);
  await loadDecoder({ bytes: bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength) });
});

const KINDS: readonly (readonly [DrawnKind, string])[] = [
  ['code39', `I${VIN}`],
  ['code39', VIN],
  ['code128', VIN],
  ['datamatrix', `[)>\x1e06\x1dI${VIN}\x1dPtype\x1e\x04`],
  ['qrcode', `VIN: ${VIN}; plate: QUAY 61`],
];

function quarterTurned({ width, height, pixels }: Grey): Grey {
  const turned = new Uint8Array(pixels.length);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) turned[x * height + (height - 1 - y)] = pixels[y * width + x] ?? 255;
  }
  return { width: height, height: width, pixels: turned };
}

/** Poor light and a noisy chip: contrast falls to a third, grey values jitter. */
function dim(picture: Grey): Grey {
  let state = 7;
  const jitter = () => {
    state = (state * 1_103_515_245 + 12_345) % 2_147_483_648;
    return (state / 2_147_483_648 - 0.5) * 24;
  };
  return { ...picture, pixels: picture.pixels.map((grey) => 60 + grey / 3 + jitter()) };
}

const inverted = (picture: Grey): Grey => ({ ...picture, pixels: picture.pixels.map((grey) => 255 - grey) });

describe.each(KINDS)('%s holding %j', (kind, text) => {
  const plain = drawnCode(kind, text, 3);
  test.each<readonly [string, Grey]>([
    ['as printed', plain],
    ['turned a quarter', quarterTurned(plain)],
    ['upside down', quarterTurned(quarterTurned(plain))],
    // Linear codes are only ever printed dark on light; the two that are squares also the other way round.
    ...(kind === 'datamatrix' || kind === 'qrcode' ? [['white on black', inverted(plain)] as const] : []),
    ['in poor light', dim(plain)],
  ])('%s: the VIN is read', async (_how, picture) => {
    const texts = await readCodes(imageOf(picture));
    expect(texts).toHaveLength(1);
    const vin = vinFromScan(texts[0] ?? '');
    expect(vin.ok && vin.value.vin).toBe(VIN);
  });
});

test('a picture without a code holds none', async () => {
  const blank: Grey = { width: 200, height: 100, pixels: new Uint8Array(20_000).fill(200) };
  expect(await readCodes(imageOf(blank))).toEqual([]);
});

test('a code of another kind is none of ours', async () => {
  const shopGoods = drawnCode('ean13' as DrawnKind, '4006381333931', 3);
  expect(await readCodes(imageOf(shopGoods))).toEqual([]);
});

test('half a code is not guessed at', async () => {
  const { width, height, pixels } = drawnCode('qrcode', VIN, 4);
  const cut = pixels.map((grey, at) => (at % width > width / 2 ? 255 : grey));
  expect(await readCodes(imageOf({ width, height, pixels: cut }))).toEqual([]);
});
