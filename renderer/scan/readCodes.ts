/** Reads codes from a picture. The decoder is a library in WebAssembly; where its module comes from is the caller's. */
import { prepareZXingModule, type ReaderOptions, readBarcodes } from 'zxing-wasm/reader';

/** The four that carry a VIN on cars, labels and papers. */
export const CODE_KINDS = ['Code39', 'Code128', 'DataMatrix', 'QRCode'] as const;

/** A label held askew, upside down or against the light costs a tenth of a second and is worth it. */
const OPTIONS: ReaderOptions = {
  formats: [...CODE_KINDS],
  tryHarder: true,
  tryRotate: true,
  tryInvert: true,
  maxNumberOfSymbols: 8,
};

/** Where the decoder's module is: an address to fetch it from, or its bytes. */
export type DecoderModule = { readonly address: string } | { readonly bytes: ArrayBuffer };

/** Loads the decoder; call once, before the first picture. */
export function loadDecoder(module: DecoderModule): Promise<unknown> {
  const overrides = 'bytes' in module ? { wasmBinary: module.bytes } : { locateFile: () => module.address };
  return prepareZXingModule({ overrides, fireImmediately: true });
}

/** What the worker answers to each picture. */
export type ScanAnswer =
  | { readonly ok: true; readonly texts: readonly string[] }
  | { readonly ok: false; readonly why: string };

/** The texts of all codes in a picture, each once, in the order found; none when there is none. */
export async function readCodes(picture: ImageData): Promise<readonly string[]> {
  const found = await readBarcodes(picture, OPTIONS);
  return [...new Set(found.filter((each) => each.isValid).map((each) => each.text))];
}
