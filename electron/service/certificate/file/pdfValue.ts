/**
 * Values of a PDF file (ISO 32000-1 clause 7.3) read from bytes, each with the place it was read from.
 *
 * Only what our own files hold is read; anything else throws `PdfSyntaxError`, which `attempt` turns into a typed
 * outcome at the edge of this folder.
 */

interface Span {
  /** Offset of the first byte. */
  readonly start: number;
  /** Offset after the last byte. */
  readonly end: number;
}

export type PdfDictionary = Span & {
  readonly type: 'dictionary';
  readonly entries: ReadonlyMap<string, PdfValue>;
};
export type PdfArray = Span & { readonly type: 'array'; readonly items: readonly PdfValue[] };
export type PdfString = Span & {
  readonly type: 'string';
  readonly bytes: Uint8Array;
  readonly isHex: boolean;
};
export type PdfReferenceValue = Span & {
  readonly type: 'reference';
  readonly id: number;
  readonly generation: number;
};

export type PdfValue =
  | PdfDictionary
  | PdfArray
  | PdfString
  | PdfReferenceValue
  | (Span & { readonly type: 'null' })
  | (Span & { readonly type: 'boolean'; readonly value: boolean })
  | (Span & { readonly type: 'number'; readonly value: number })
  | (Span & { readonly type: 'name'; readonly value: string });

/** The bytes are not what they must be. `offset` says where. */
export class PdfSyntaxError extends Error {
  readonly offset: number;
  constructor(problem: string, offset: number) {
    super(problem);
    this.offset = offset;
  }
}

/** Deeper nesting than any file of ours has; a hostile file cannot exhaust the stack. */
const deepest = 64;

const whiteSpace = new Set([0, 9, 10, 12, 13, 32]);
const delimiters = new Set([...'()<>[]{}/%'].map((character) => character.charCodeAt(0)));
const code = (character: string) => character.charCodeAt(0);

/** Reads values from a place in the bytes on. */
export class PdfReader {
  readonly bytes: Uint8Array;
  at: number;

  constructor(bytes: Uint8Array, at: number) {
    this.bytes = bytes;
    this.at = at;
  }

  fail(problem: string): never {
    throw new PdfSyntaxError(problem, this.at);
  }

  peek(ahead = 0): number {
    return this.bytes[this.at + ahead] ?? -1;
  }

  skipWhiteSpace(): void {
    for (;;) {
      while (whiteSpace.has(this.peek())) this.at++;
      if (this.peek() !== code('%')) return;
      while (this.at < this.bytes.length && this.peek() !== 10 && this.peek() !== 13) this.at++;
    }
  }

  /** The next run of regular characters. */
  word(): string {
    const start = this.at;
    while (this.at < this.bytes.length && !whiteSpace.has(this.peek()) && !delimiters.has(this.peek()))
      this.at++;
    return this.textBetween(start, this.at);
  }

  keyword(expected: string): void {
    this.skipWhiteSpace();
    const found = this.word();
    if (found !== expected) this.fail(`expected ${expected}`);
  }

  integer(): number {
    this.skipWhiteSpace();
    const word = this.word();
    if (!/^\d{1,15}$/.test(word)) this.fail('expected a whole number');
    return Number(word);
  }

  textBetween(start: number, end: number): string {
    // A damaged table or length may point behind the end: there is nothing there.
    return Buffer.from(this.bytes.subarray(start, end)).toString('latin1');
  }

  value(depth = 0): PdfValue {
    if (depth > deepest) this.fail('nested too deeply');
    this.skipWhiteSpace();
    const first = this.peek();
    if (first === code('/')) return this.#name();
    if (first === code('(')) return this.#literalString();
    if (first === code('[')) return this.#array(depth);
    if (first === code('<')) return this.peek(1) === first ? this.#dictionary(depth) : this.#hexString();
    return this.#numberOrWord();
  }

  #name(): PdfValue {
    const start = this.at++;
    const text = this.word();
    const value = text.replace(/#([0-9a-fA-F]{2})/g, (_, hex: string) =>
      String.fromCharCode(Number.parseInt(hex, 16)),
    );
    return { type: 'name', value, start, end: this.at };
  }

  #numberOrWord(): PdfValue {
    const start = this.at;
    const word = this.word();
    const span = () => ({ start, end: this.at });
    if (word === 'true' || word === 'false') return { type: 'boolean', value: word === 'true', ...span() };
    if (word === 'null') return { type: 'null', ...span() };
    if (!/^[+-]?(?:\d+\.?\d*|\.\d+)$/.test(word)) this.fail('expected a value');
    return this.#reference(start, word) ?? { type: 'number', value: Number(word), ...span() };
  }

  /** `12 0 R`, where the first number was just read. */
  #reference(start: number, word: string): PdfReferenceValue | undefined {
    if (!/^\d{1,10}$/.test(word)) return undefined;
    const after = this.at;
    const tail = /^ (\d{1,5}) R(?![A-Za-z0-9])/.exec(
      this.textBetween(after, Math.min(after + 10, this.bytes.length)),
    );
    if (tail === null) return undefined;
    this.at = after + tail[0].length;
    return { type: 'reference', id: Number(word), generation: Number(tail[1]), start, end: this.at };
  }

  #array(depth: number): PdfArray {
    const start = this.at++;
    const items: PdfValue[] = [];
    for (;;) {
      this.skipWhiteSpace();
      if (this.peek() === code(']')) break;
      items.push(this.value(depth + 1));
    }
    this.at++;
    return { type: 'array', items, start, end: this.at };
  }

  #dictionary(depth: number): PdfDictionary {
    const start = this.at;
    this.at += 2;
    const entries = new Map<string, PdfValue>();
    for (;;) {
      this.skipWhiteSpace();
      if (this.peek() === code('>') && this.peek(1) === code('>')) break;
      const key = this.value(depth + 1);
      if (key.type !== 'name') this.fail('expected a name in a dictionary');
      if (entries.has(key.value)) this.fail(`the name ${key.value} twice in a dictionary`);
      entries.set(key.value, this.value(depth + 1));
    }
    this.at += 2;
    return { type: 'dictionary', entries, start, end: this.at };
  }

  #hexString(): PdfString {
    const start = this.at;
    const close = this.bytes.indexOf(code('>'), start);
    if (close < 0) this.fail('a string without end');
    const text = this.textBetween(start + 1, close);
    if (!/^(?:[0-9a-fA-F]{2})*$/.test(text)) this.fail('not a hexadecimal string');
    this.at = close + 1;
    return { type: 'string', bytes: Buffer.from(text, 'hex'), isHex: true, start, end: this.at };
  }

  #literalString(): PdfString {
    const start = this.at++;
    const bytes: number[] = [];
    let open = 1;
    for (;;) {
      const byte = this.peek();
      if (byte < 0) this.fail('a string without end');
      this.at++;
      if (byte === code('\\')) bytes.push(...this.#escape());
      else {
        if (byte === code('(')) open++;
        if (byte === code(')') && --open === 0) break;
        bytes.push(byte);
      }
    }
    return { type: 'string', bytes: Uint8Array.from(bytes), isHex: false, start, end: this.at };
  }

  #escape(): readonly number[] {
    const octal = /^[0-7]{1,3}/.exec(this.textBetween(this.at, Math.min(this.at + 3, this.bytes.length)));
    if (octal !== null) {
      this.at += octal[0].length;
      return [Number.parseInt(octal[0], 8) & 0xff];
    }
    const byte = this.peek();
    this.at++;
    if (byte === 13 || byte === 10) {
      if (byte === 13 && this.peek() === 10) this.at++;
      return [];
    }
    const place = 'nrtbf'.indexOf(String.fromCharCode(byte));
    return [place < 0 ? byte : code('\n\r\t\b\f'.charAt(place))];
  }
}
