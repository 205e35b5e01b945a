/** How an instrument sends, as texts of a form and back. The schemas of the core have the last word. Pure. */
import {
  type LineFormat,
  type LineStream,
  lineFormatSchema,
  type StreamSource,
  streamSourceSchema,
} from '../../core/instruments/index.ts';
import { err, ok, type Result } from '../../core/result.ts';

type Texts = Readonly<Record<string, string>>;

/** Fields that cannot be read yet. */
interface Unread {
  readonly fields: readonly string[];
}

/** Speeds that instruments use (common practice, no source); any other can be typed. */
export const COMMON_BAUD = ['1200', '2400', '4800', '9600', '19200', '38400', '57600', '115200'] as const;

/** A pattern that reads the first number with its unit: where most begin. */
export const FIRST_PATTERN = '(?<value>[-+]?[0-9]+[.,]?[0-9]*) *(?<unit>mm|cm|in)?';

const wholeNumber = (text: string | undefined): number =>
  /^\d{1,7}$/.test(text?.trim() ?? '') ? Number(text) : Number.NaN;

/** The texts of a stream; those of a fresh form for none. */
export function textsOfStream(stream: LineStream | undefined): Texts {
  const kind = stream?.source.kind ?? 'none';
  const format = stream?.format;
  return {
    'stream.kind': kind,
    'stream.host': stream?.source.kind === 'tcp' ? stream.source.host : '',
    'stream.port': stream?.source.kind === 'tcp' ? String(stream.source.port) : '',
    'stream.serialPort': stream?.source.kind === 'serial' ? stream.source.port : '',
    'stream.baud': stream?.source.kind === 'serial' ? String(stream.source.baud) : '9600',
    'stream.pattern': format?.pattern ?? FIRST_PATTERN,
    'stream.measures': format?.kind ?? 'length',
    'stream.unit': format?.unit ?? 'mm',
    'stream.channel': format?.channel ?? '',
    'stream.good': format?.good.join(', ') ?? '',
  };
}

/** Where the lines come from; undefined where it sends nothing. */
export function sourceOfTexts(
  texts: Texts,
  before: LineStream | undefined,
): Result<StreamSource | undefined, Unread> {
  const kind = texts['stream.kind'];
  if (kind === undefined || kind === 'none') return ok(undefined);
  const tcp = { kind, host: texts['stream.host']?.trim(), port: wholeNumber(texts['stream.port']) };
  // Eight bits, no parity, one stop bit hold for nearly all (common practice, no source); what was set otherwise stays.
  const line =
    before?.source.kind === 'serial'
      ? { dataBits: before.source.dataBits, stopBits: before.source.stopBits, parity: before.source.parity }
      : { dataBits: 8, stopBits: 1, parity: 'none' };
  const serial = {
    kind,
    port: texts['stream.serialPort']?.trim(),
    baud: wholeNumber(texts['stream.baud']),
    ...line,
  };
  const parsed = streamSourceSchema.safeParse(kind === 'tcp' ? tcp : serial);
  if (parsed.success) return ok(parsed.data);
  const named: Readonly<Record<string, string>> =
    kind === 'tcp'
      ? { host: 'stream.host', port: 'stream.port' }
      : { port: 'stream.serialPort', baud: 'stream.baud' };
  return err({ fields: parsed.error.issues.map(({ path }) => named[String(path[0])] ?? 'stream.kind') });
}

/** How a line is read. */
export function formatOfTexts(texts: Texts): Result<LineFormat, Unread> {
  const parsed = lineFormatSchema.safeParse({
    pattern: texts['stream.pattern'] ?? '',
    kind: texts['stream.measures'],
    unit: (texts['stream.unit'] ?? '').trim(),
    channel: (texts['stream.channel'] ?? '').trim(),
    good: (texts['stream.good'] ?? '')
      .split(',')
      .map((each) => each.trim())
      .filter(Boolean),
  });
  if (parsed.success) return ok(parsed.data);
  const field = (name: string): string => `stream.${name === 'kind' ? 'measures' : name}`;
  return err({ fields: parsed.error.issues.map(({ path }) => field(String(path[0]))) });
}

/** The whole of it; undefined where it sends nothing. */
export function streamOfTexts(
  texts: Texts,
  before: LineStream | undefined,
): Result<LineStream | undefined, Unread> {
  const source = sourceOfTexts(texts, before);
  if (!source.ok || source.value === undefined) return source.ok ? ok(undefined) : source;
  const format = formatOfTexts(texts);
  return format.ok ? ok({ source: source.value, format: format.value }) : format;
}

/** One text per stream, to tell whether it is the one that was tried or the one that was kept. */
export function streamText(stream: LineStream | undefined): string {
  return stream === undefined ? '' : JSON.stringify([stream.source, stream.format]);
}
