/** A study answers a question with a table, not with a time: what it prints, what it keeps, which aims it met. */
export interface Study {
  /** What a person reads. */
  readonly lines: readonly string[];
  /** Kept in `tests/results`. */
  readonly results: readonly object[];
  readonly aims: readonly Aim[];
}

/** Something that was wanted of a study beforehand. */
export interface Aim {
  readonly what: string;
  readonly met: boolean;
}

/** Quantile of numbers by the smallest one that at least this share does not exceed. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

/** Columns of text as wide as their widest cell. */
export function table(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = (rows[0] ?? []).map((_, c) => Math.max(...rows.map((row) => row[c]?.length ?? 0)));
  return rows.map((row) =>
    row
      .map((cell, c) => cell.padEnd(widths[c] ?? 0))
      .join('  ')
      .trimEnd(),
  );
}
