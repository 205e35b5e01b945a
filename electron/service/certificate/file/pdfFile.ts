/**
 * A PDF file opened through its cross-reference tables (ISO 32000-1 clause 7.5), as a viewer opens it: what a reader
 * sees is what is checked, never the first thing a text search happens to find.
 */
import { inflateSync } from 'node:zlib';
import { err, ok, type Result } from '../../../../core/result.ts';
import { type PdfDictionary, PdfReader, PdfSyntaxError, type PdfValue } from './pdfValue.ts';

/**
 * - `pdf/notPdf`: the bytes do not begin as a PDF does
 * - `pdf/truncated`: it has no end
 * - `pdf/otherWriter`: written or rewritten by a program other than ours (compressed tables, encryption)
 * - `pdf/damaged`: something in it cannot be read
 */
export interface PdfProblem {
  readonly code: 'pdf/notPdf' | 'pdf/truncated' | 'pdf/otherWriter' | 'pdf/damaged';
  readonly problem: string;
  readonly offset: number;
}

export interface PdfObject {
  readonly value: PdfValue;
  /** The stream's bytes as they stand in the file. */
  readonly raw?: Uint8Array;
}

/** No file of ours comes near these; they bound the work a hostile file can ask for. */
const mostRevisions = 32;
const mostObjects = 200_000;
const mostInflatedBytes = 64 * 1024 * 1024;

export class PdfFile {
  readonly bytes: Uint8Array;
  readonly trailer: PdfDictionary;
  /** How many times something was added at the end after the file was first written. */
  readonly updates: number;
  readonly #offsets: ReadonlyMap<number, number>;
  readonly #objects = new Map<number, PdfObject>();

  constructor(
    bytes: Uint8Array,
    trailer: PdfDictionary,
    offsets: ReadonlyMap<number, number>,
    updates: number,
  ) {
    this.bytes = bytes;
    this.trailer = trailer;
    this.#offsets = offsets;
    this.updates = updates;
  }

  object(id: number): PdfObject {
    const known = this.#objects.get(id);
    if (known !== undefined) return known;
    const offset = this.#offsets.get(id);
    if (offset === undefined) throw new PdfSyntaxError(`object ${id} is missing`, 0);
    const object = this.#read(id, offset);
    this.#objects.set(id, object);
    return object;
  }

  /** The value itself, or what a reference points to. */
  resolve(value: PdfValue | undefined): PdfValue | undefined {
    return value?.type === 'reference' ? this.object(value.id).value : value;
  }

  entry(dictionary: PdfDictionary, name: string): PdfValue | undefined {
    return this.resolve(dictionary.entries.get(name));
  }

  dictionary(value: PdfValue | undefined, what: string): PdfDictionary {
    const resolved = this.resolve(value);
    if (resolved?.type !== 'dictionary') throw new PdfSyntaxError(`no ${what}`, resolved?.start ?? 0);
    return resolved;
  }

  get catalog(): PdfDictionary {
    return this.dictionary(this.trailer.entries.get('Root'), 'catalog');
  }

  /** The decoded bytes of the stream a reference points to. */
  stream(value: PdfValue | undefined, what: string): Uint8Array {
    if (value?.type !== 'reference') throw new PdfSyntaxError(`no ${what}`, value?.start ?? 0);
    const { raw, value: head } = this.object(value.id);
    if (raw === undefined || head.type !== 'dictionary') throw new PdfSyntaxError(`no ${what}`, head.start);
    const filter = this.entry(head, 'Filter');
    if (filter === undefined) return raw;
    if (filter.type !== 'name' || filter.value !== 'FlateDecode' || head.entries.has('DecodeParms')) {
      throw new PdfSyntaxError(`${what} is packed in a way ours is not`, filter.start);
    }
    try {
      return inflateSync(raw, { maxOutputLength: mostInflatedBytes });
    } catch {
      throw new PdfSyntaxError(`${what} cannot be unpacked`, head.start);
    }
  }

  #read(id: number, offset: number): PdfObject {
    const reader: PdfReader = new PdfReader(this.bytes, offset);
    if (reader.integer() !== id) reader.fail(`object ${id} is not where the table says`);
    reader.integer();
    reader.keyword('obj');
    const value = reader.value();
    reader.skipWhiteSpace();
    const next = reader.word();
    if (next === 'endobj') return { value };
    if (next !== 'stream' || value.type !== 'dictionary') reader.fail('an object without end');
    if (reader.peek() === 13) reader.at++;
    if (reader.peek() !== 10) reader.fail('a stream without line end');
    const start = reader.at + 1;
    const length = value.entries.get('Length');
    if (length?.type !== 'number' || !Number.isInteger(length.value) || length.value < 0) {
      reader.fail('a stream without length');
    }
    reader.at = start + length.value;
    reader.keyword('endstream');
    reader.keyword('endobj');
    return { value, raw: this.bytes.subarray(start, start + length.value) };
  }
}

/** Opens a file. Nothing but its tables is read yet; use `attempt` around whatever reads more. */
export function openPdfFile(bytes: Uint8Array): Result<PdfFile, PdfProblem> {
  const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length);
  if (text.toString('latin1', 0, 7) !== '%PDF-1.') return err(problem('pdf/notPdf', 'no PDF header', 0));
  const last = text.lastIndexOf('startxref');
  if (last < 0 || text.indexOf('%%EOF', last) < 0) {
    return err(problem('pdf/truncated', 'the end is missing', bytes.length));
  }
  const opened = attempt(() => readTables(bytes, last + 'startxref'.length));
  if (!opened.ok) return opened;
  if (opened.value === undefined) {
    return err(problem('pdf/otherWriter', 'tables this program does not write', last));
  }
  return ok(opened.value);
}

/** Runs `read`, which may meet unreadable bytes, and gives them as an outcome. Other errors are bugs and pass. */
export function attempt<T>(read: () => T): Result<T, PdfProblem> {
  try {
    return ok(read());
  } catch (error) {
    if (error instanceof PdfSyntaxError) return err(problem('pdf/damaged', error.message, error.offset));
    throw error;
  }
}

function problem(code: PdfProblem['code'], words: string, offset: number): PdfProblem {
  return { code, problem: words, offset };
}

/** `undefined` for a table that another program wrote. The newest table wins, as in a viewer. */
function readTables(bytes: Uint8Array, at: number): PdfFile | undefined {
  const offsets = new Map<number, number>();
  let newest: PdfDictionary | undefined;
  let place: number | undefined = new PdfReader(bytes, at).integer();
  let revisions = 0;
  while (place !== undefined) {
    if (++revisions > mostRevisions) throw new PdfSyntaxError('too many updates', place);
    const trailer = readTable(bytes, place, offsets);
    if (trailer === undefined) return undefined;
    newest ??= trailer;
    const previous = trailer.entries.get('Prev');
    place = previous?.type === 'number' ? previous.value : undefined;
  }
  if (newest === undefined) return undefined;
  return new PdfFile(bytes, newest, offsets, revisions - 1);
}

function readTable(bytes: Uint8Array, at: number, offsets: Map<number, number>): PdfDictionary | undefined {
  const reader: PdfReader = new PdfReader(bytes, at);
  reader.skipWhiteSpace();
  if (reader.word() !== 'xref') return undefined;
  for (;;) {
    reader.skipWhiteSpace();
    const before = reader.at;
    if (reader.word() === 'trailer') break;
    reader.at = before;
    readSubsection(reader, offsets);
  }
  const trailer = reader.value();
  if (trailer.type !== 'dictionary') reader.fail('no trailer');
  const foreign = trailer.entries.has('Encrypt') || trailer.entries.has('XRefStm');
  return foreign ? undefined : trailer;
}

function readSubsection(reader: PdfReader, offsets: Map<number, number>): void {
  const first = reader.integer();
  const count = reader.integer();
  if (first + count > mostObjects) reader.fail('too many objects');
  for (let id = first; id < first + count; id++) {
    const offset = reader.integer();
    reader.integer();
    reader.skipWhiteSpace();
    const use = reader.word();
    if (use !== 'n' && use !== 'f') reader.fail('an entry that is neither used nor free');
    if (use === 'n' && !offsets.has(id)) offsets.set(id, offset);
  }
}
