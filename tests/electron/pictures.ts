// Small pictures by their structure, for tests that look at it. A real one that decodes comes from the window.

const ascii = (text: string): number[] => [...text].map((each) => each.charCodeAt(0));
const two = (value: number): number[] => [value >> 8, value & 255];
const four = (value: number): number[] => [...two(value >>> 16), ...two(value & 0xffff)];

/** A JPEG segment with its marker and length. */
export function segment(marker: number, text: string): number[] {
  return [0xff, marker, ...two(text.length + 2), ...ascii(text)];
}

const JFIF_HEAD = [0xff, 0xe0, 0, 16, ...ascii('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0];

/** The skeleton of a JPEG: head, frame, a scan with a stuffed byte and a restart, end. */
export function jpegOf(
  widthPx: number,
  heightPx: number,
  more: { readonly before?: number[]; readonly after?: number[]; readonly tail?: Uint8Array } = {},
): Uint8Array {
  const frame = [0xff, 0xc0, 0, 11, 8, ...two(heightPx), ...two(widthPx), 1, 1, 0x11, 0];
  const scan = [0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0, 0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56];
  const { before = [], after = [], tail = [] } = more;
  return new Uint8Array([
    0xff,
    0xd8,
    ...JFIF_HEAD,
    ...before,
    ...frame,
    ...scan,
    ...after,
    0xff,
    0xd9,
    ...tail,
  ]);
}

/** The skeleton of a PNG with these chunks between head and data; checksums are not looked at. */
export function pngOf(widthPx: number, heightPx: number, chunks: readonly string[] = []): Uint8Array {
  const chunk = (name: string, data: readonly number[]) => [
    ...four(data.length),
    ...ascii(name),
    ...data,
    0,
    0,
    0,
    0,
  ];
  return new Uint8Array([
    0x89,
    ...ascii('PNG\r\n'),
    0x1a,
    0x0a,
    ...chunk('IHDR', [...four(widthPx), ...four(heightPx), 8, 2, 0, 0, 0]),
    ...chunks.flatMap((name) => chunk(name, ascii('words'))),
    ...chunk('IDAT', [1, 2, 3]),
    ...chunk('IEND', []),
  ]);
}
