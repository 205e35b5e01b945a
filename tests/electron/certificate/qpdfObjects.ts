/** A file's objects as an independent reader (qpdf) sees them. */
import { z } from 'zod';
import { runTool } from './tools.ts';

const dictionary = z.record(z.string(), z.unknown());
const object = z.union([
  z.looseObject({ value: z.unknown() }),
  z.looseObject({ stream: z.looseObject({ dict: dictionary, data: z.string().optional() }) }),
]);
const report = z.looseObject({ qpdf: z.tuple([z.looseObject({}), z.record(z.string(), object)]) });

export type Dictionary = Readonly<Record<string, unknown>>;

export interface QpdfObjects {
  /** Every dictionary that is an object of its own, streams' dictionaries included. */
  readonly all: readonly Dictionary[];
  readonly trailer: Dictionary;
  readonly catalog: Dictionary;
  /** What a reference points to, or the value itself. */
  readonly resolve: (value: unknown) => unknown;
  readonly dictionary: (value: unknown) => Dictionary;
  /** Decoded bytes of a stream. */
  readonly stream: (reference: unknown) => Buffer;
}

export function isDictionary(value: unknown): value is Dictionary {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export function qpdfObjects(path: string): QpdfObjects {
  const answer = runTool('qpdf', '--json=2', '--json-stream-data=inline', '--decode-level=generalized', path);
  const [, objects] = report.parse(JSON.parse(answer.stdout)).qpdf;
  const entry = (reference: unknown) => objects[`obj:${String(reference)}`];
  const resolve = (value: unknown): unknown => {
    const found = typeof value === 'string' && /^\d+ \d+ R$/.test(value) ? entry(value) : undefined;
    if (found === undefined) return value;
    return 'stream' in found ? z.looseObject({ dict: dictionary }).parse(found.stream).dict : found.value;
  };
  const asDictionary = (value: unknown): Dictionary => dictionary.parse(resolve(value));
  const trailer = asDictionary(objects.trailer?.value);
  return {
    all: Object.keys(objects)
      .map((name) => resolve(name.replace(/^obj:/, '')))
      .filter(isDictionary),
    trailer,
    catalog: asDictionary(trailer['/Root']),
    resolve,
    dictionary: asDictionary,
    stream: (reference) => {
      const found = z.looseObject({ stream: z.looseObject({ data: z.string() }) }).parse(entry(reference));
      return Buffer.from(found.stream.data, 'base64');
    },
  };
}
