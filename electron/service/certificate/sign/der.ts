/** The few DER encodings a signature needs (ITU-T X.690 clauses 8 and 10), and a strict reader for the same. */

export const tags = {
  integer: 0x02,
  bitString: 0x03,
  octetString: 0x04,
  null: 0x05,
  objectIdentifier: 0x06,
  sequence: 0x30,
  set: 0x31,
  context0: 0xa0,
} as const;

/** One encoding: tag, shortest definite length, content. */
export function der(tag: number, ...contents: readonly Uint8Array[]): Uint8Array {
  const length = contents.reduce((sum, part) => sum + part.length, 0);
  return Buffer.concat([Uint8Array.of(tag, ...lengthBytes(length)), ...contents]);
}

function lengthBytes(length: number): readonly number[] {
  if (length < 0x80) return [length];
  const bytes: number[] = [];
  for (let rest = length; rest > 0; rest = Math.floor(rest / 256)) bytes.unshift(rest % 256);
  return [0x80 + bytes.length, ...bytes];
}

/** A small whole number from 0 to 127. */
export function derSmallInteger(value: number): Uint8Array {
  return der(tags.integer, Uint8Array.of(value));
}

/** An object identifier written with dots. */
export function derOid(dotted: string): Uint8Array {
  const [first = 0, second = 0, ...rest] = dotted.split('.').map(Number);
  const bytes = [first * 40 + second, ...rest].flatMap((arc) => base128(arc));
  return der(tags.objectIdentifier, Uint8Array.from(bytes));
}

function base128(arc: number): readonly number[] {
  const digits = [arc % 128];
  for (let rest = Math.floor(arc / 128); rest > 0; rest = Math.floor(rest / 128)) {
    digits.unshift(128 + (rest % 128));
  }
  return digits;
}

/** SET OF, its members in the order DER asks for (X.690 clause 11.6). */
export function derSetOf(tag: number, members: readonly Uint8Array[]): Uint8Array {
  return der(tag, ...[...members].sort((a, b) => Buffer.compare(a, b)));
}

/** One encoding found in bytes: its tag, its content, and the whole. */
export interface DerElement {
  readonly tag: number;
  readonly content: Uint8Array;
  readonly whole: Uint8Array;
}

/** Reads the encodings that fill `bytes` exactly; `undefined` when they do not, or a length is not the shortest. */
export function readDer(bytes: Uint8Array): readonly DerElement[] | undefined {
  const elements: DerElement[] = [];
  for (let at = 0; at < bytes.length; ) {
    const element = readOne(bytes, at);
    if (element === undefined) return undefined;
    elements.push(element);
    at += element.whole.length;
  }
  return elements;
}

/** Reads one encoding at a place, whatever follows it. */
export function readOne(bytes: Uint8Array, at: number): DerElement | undefined {
  const tag = bytes[at];
  const first = bytes[at + 1];
  if (tag === undefined || first === undefined) return undefined;
  const extra = first < 0x80 ? 0 : first - 0x80;
  if (extra > 4 || (first >= 0x80 && extra === 0)) return undefined;
  let length = extra === 0 ? first : 0;
  for (let index = 0; index < extra; index++) length = length * 256 + (bytes[at + 2 + index] ?? 0);
  const start = at + 2 + extra;
  const end = start + length;
  if (end > bytes.length || lengthBytes(length).length !== extra + 1) return undefined;
  return { tag, content: bytes.subarray(start, end), whole: bytes.subarray(at, end) };
}
