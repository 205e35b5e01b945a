/** What a file is by its first bytes, whatever its name says: PDF (ISO 32000-1, 7.5.2), JPEG (SOI marker), PNG signature. */
export type PageKind = 'pdf' | 'picture';

const STARTS: readonly (readonly [PageKind, readonly number[]])[] = [
  ['pdf', [0x25, 0x50, 0x44, 0x46, 0x2d]],
  ['picture', [0xff, 0xd8, 0xff]],
  ['picture', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]],
];

/** The kind of page, or undefined for anything that is not shown. */
export function pageKindOf(start: Uint8Array): PageKind | undefined {
  return STARTS.find(([, bytes]) => bytes.every((byte, at) => start[at] === byte))?.[0];
}
