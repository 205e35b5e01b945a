/** `solve FILE.json`: adjusts a network of readings; a table to read, or everything as JSON. */
import { readFileSync } from 'node:fs';
import {
  type AdjustError,
  parseNetwork,
  type RowResult,
  type Solution,
  solve,
  type Unknown,
} from '../../core/adjust/index.ts';
import { degFromRad, formatFixed } from '../../core/units.ts';
import type { CommandIo } from './commandIo.ts';

/** mm to 0.001, angles in degrees to 0.0001, ratios in parts per million to 0.1. */
function text(value: number, unit: Unknown['unit']): string {
  if (unit === 'mm') return formatFixed(value, 3);
  return unit === 'rad' ? formatFixed(degFromRad(value), 4) : formatFixed(value * 1e6, 1);
}

const UNIT_NAMES = { mm: 'mm', rad: 'deg', ratio: 'ppm' } as const;

/** Columns padded to their widest cell: the first to the left, the others to the right. */
function table(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_cell, i) => Math.max(...rows.map((row) => row[i]?.length ?? 0)));
  const pad = (cell: string, i: number) =>
    i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0);
  return rows.map((row) => row.map(pad).join('  ').trimEnd()).join('\n');
}

function unknownRows(unknowns: readonly Unknown[]): string {
  const rows = unknowns.map(({ id, unit, value, u }) => [
    id,
    text(value, unit),
    text(u, unit),
    UNIT_NAMES[unit],
  ]);
  return table([['unknown', 'value', 'u', 'unit'], ...rows]);
}

function readingRows(rows: readonly RowResult[]): string {
  const optional = (value: number | undefined, unit: Unknown['unit']) =>
    value === undefined ? '-' : text(value, unit);
  return table([
    ['reading', 'observed', 'residual', 'u', 'unit', 'redundancy', 'standardised', 'least error found'],
    ...rows.map((row) => [
      row.id,
      text(row.observed, row.unit),
      text(row.residual, row.unit),
      text(row.u, row.unit),
      UNIT_NAMES[row.unit],
      formatFixed(row.redundancy, 3),
      row.standardised === undefined ? '-' : formatFixed(row.standardised, 2),
      optional(row.minimalDetectable, row.unit),
    ]),
  ]);
}

function suspicionLines(solution: Solution): readonly string[] {
  return solution.suspicions.map(({ sources, standardised, repeatToSeparate }) => {
    const which = sources.length > 1 ? `one of ${sources.join(', ')}` : (sources[0] ?? '');
    const repeat =
      repeatToSeparate === undefined ? '' : `; read ${repeatToSeparate} again to tell them apart`;
    return `suspect: ${which} (standardised residual ${formatFixed(standardised, 1)})${repeat}`;
  });
}

function report(solution: Solution): string {
  const { globalTest: test, gauge } = solution;
  return [
    unknownRows(solution.unknowns),
    '',
    readingRows(solution.rows),
    '',
    `chi-square ${formatFixed(test.chiSquare, 3)} with ${test.dof} redundant readings, limit ${formatFixed(test.limit, 3)} at ${test.alpha}: ${test.passed ? 'passed' : 'NOT passed'}`,
    ...suspicionLines(solution),
    ...(gauge.length === 0
      ? []
      : [`no datum given for ${gauge.join(', ')}: coordinates are those of the smallest norm`]),
    `${solution.stopReason} after ${solution.iterations} steps, condition ${solution.condition.toExponential(1)}`,
  ].join('\n');
}

function asJson(solution: Solution): string {
  const { unknowns, covariance, rows, globalTest, suspicions, gauge, iterations, stopReason, condition } =
    solution;
  const n = unknowns.length;
  const square = Array.from({ length: n }, (_row, i) => [...covariance.subarray(i * n, (i + 1) * n)]);
  return JSON.stringify(
    { unknowns, covariance: square, rows, globalTest, suspicions, gauge, iterations, stopReason, condition },
    null,
    2,
  );
}

function failure(error: AdjustError): string {
  const details = Object.entries(error)
    .filter(([name]) => name !== 'code' && name !== 'cure')
    .map(([name, value]) => `${name}: ${JSON.stringify(value)}`);
  return [`${error.code} (cure: ${error.cure})`, ...details].join('\n  ');
}

/** Exit code 0: adjusted and the readings agree. 1: they do not. 2: not adjusted, or the file cannot be read. */
export function runSolve(args: readonly string[], io: CommandIo): number {
  const json = args.includes('--json');
  const file = args.find((arg) => !arg.startsWith('--'));
  if (file === undefined) {
    io.error('solve FILE.json [--json]');
    return 2;
  }
  let document: unknown;
  try {
    document = JSON.parse(readFileSync(file, 'utf8'));
  } catch (fault) {
    io.error(`${file} cannot be read: ${fault instanceof Error ? fault.message : String(fault)}`);
    return 2;
  }
  const network = parseNetwork(document);
  const solution = network.ok ? solve(network.value) : network;
  if (!solution.ok) {
    io.error(failure(solution.error));
    return 2;
  }
  io.print(json ? asJson(solution.value) : report(solution.value));
  return solution.value.globalTest.passed ? 0 : 1;
}
