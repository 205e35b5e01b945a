/**
 * Decodes camera pictures beside the window, so that typing never waits for it. One picture in, one answer out.
 * It is the only script that may compile WebAssembly: the main process gives that right to this file alone.
 */
import address from 'zxing-wasm/reader/zxing_reader.wasm?url';
import { loadDecoder, readCodes, type ScanAnswer } from './readCodes.ts';

const ready = loadDecoder({ address: new URL(address, import.meta.url).href });

async function answer(picture: ImageData): Promise<ScanAnswer> {
  try {
    await ready;
    return { ok: true, texts: await readCodes(picture) };
  } catch (fault) {
    return { ok: false, why: fault instanceof Error ? fault.message : String(fault) };
  }
}

self.onmessage = async ({ data }: MessageEvent<ImageData>) => {
  self.postMessage(await answer(data));
};
