/** A format tried on lines that an instrument has sent, before anybody trusts it. */
import type { InstrumentFault } from './fault.ts';
import { lineReader, type StreamedValue } from './lineReader.ts';
import type { LineFormat } from './schema.ts';
import { type Take, takeOf } from './take.ts';

/** One line with what it says: `value` or `fault`; neither for a line of another channel. */
export type TriedLine = {
  readonly line: string;
  readonly value: StreamedValue | null;
  readonly fault: InstrumentFault | null;
};

/** What became of a trial. `fits`: the format is sound and every line was read, at least one to a value. */
export type Trial = {
  readonly fits: boolean;
  /** What is wrong with the format itself; then no line was tried. */
  readonly problem: InstrumentFault | null;
  readonly lines: readonly TriedLine[];
  /** Over the values of all lines; null without any. */
  readonly take: Take | null;
};

/** Tries a format on sample lines. */
export function tryFormat(format: LineFormat, sample: readonly string[]): Trial {
  const reader = lineReader(format);
  if (!reader.ok) return { fits: false, problem: reader.error, lines: [], take: null };
  const lines = sample.map((line): TriedLine => {
    const read = reader.value(line);
    return read.ok
      ? { line, value: read.value ?? null, fault: null }
      : { line, value: null, fault: read.error };
  });
  const values = lines.flatMap(({ value }) => (value === null ? [] : [value.value]));
  return {
    fits: values.length > 0 && lines.every((each) => each.fault === null),
    problem: null,
    lines,
    take: takeOf(values) ?? null,
  };
}
