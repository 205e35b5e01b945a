/**
 * `solve FILE.json`: adjusts a network of readings and prints estimates, residuals and tests. Exit code 0: solved and
 * the readings agree. 1: solved, but the global test fails. 2: not solved, or the file cannot be read.
 */
import { readFileSync } from 'node:fs';
import {
  type AdjustError,
  type Network,
  parseNetwork,
  type RowResult,
  type Solution,
  solve,
  summarise,
  type Unknown,
} from '../../core/adjust/index.ts';
import { err, type Result } from '../../core/result.ts';
import { degFromRad, formatFixed } from '../../core/units.ts';
import type { CommandIo } from './commandIo.ts';
import { failureLines } from './solveWords.ts';

const USAGE = 'solve FILE.json [--json]';

/** Adjusts the network in a file; see the exit codes above. */
export function runSolve(args: readonly string[], io: CommandIo): number {
  const json = args.includes('--json');
  const [file, ...more] = args.filter((arg) => arg !== '--json');
  if (file === undefined || more.length > 0 || file.startsWith('--')) {
    io.error(USAGE);
    return 2;
  }
  const document = readDocument(file, io);
  if (document === undefined) return 2;
  const solution = solveDocument(document.value);
  if (!solution.ok) {
    printFailure(solution.error, json, io);
    return 2;
  }
  io.print(json ? JSON.stringify(summarise(solution.value)) : solutionTable(solution.value));
  return solution.value.globalTest.passed ? 0 : 1;
}

function readDocument(file: string, io: CommandIo): { readonly value: unknown } | undefined {
  try {
    const value: unknown = JSON.parse(readFileSync(file, 'utf8'));
    return { value };
  } catch (fault) {
    io.error(`${file} cannot be read as JSON: ${fault instanceof Error ? fault.message : String(fault)}`);
    return undefined;
  }
}

function solveDocument(document: unknown): Result<Solution, AdjustError> {
  const parsed: Result<Network, AdjustError> = parseNetwork(document);
  return parsed.ok ? solve(parsed.value) : err(parsed.error);
}

function printFailure(error: AdjustError, json: boolean, io: CommandIo): void {
  if (json) {
    io.print(JSON.stringify({ error }));
    return;
  }
  for (const line of failureLines(error)) io.error(line);
}

/** The whole adjustment as text: lengths in mm, angles in degrees. */
export function solutionTable(solution: Solution): string {
  const { globalTest: test, network } = solution;
  const title = network.title === undefined ? [] : [network.title, ''];
  return [
    ...title,
    `${solution.unknowns.length} unknowns, ${solution.rows.length} observations, ${test.dof} redundant`,
    `${solution.stopReason} after ${solution.iterations} iterations, condition ${solution.condition.toExponential(1)}`,
    `free as a whole: ${solution.gauge.length === 0 ? 'nothing, the datum is given' : solution.gauge.join(', ')}`,
    testLine(solution),
    ...suspicionLines(solution),
    '',
    ...table(['unknown', 'value', 'u', 'unit'], solution.unknowns.map(unknownCells)),
    '',
    ...table(
      [
        'observation',
        'observed',
        'computed',
        'residual',
        'u',
        'redundancy',
        'standardised',
        'detectable',
        'unit',
      ],
      solution.rows.map(rowCells),
    ),
  ].join('\n');
}

function testLine({ globalTest: { chiSquare, dof, limit, alpha, p, passed } }: Solution): string {
  if (dof === 0) return 'global test: nothing to test, no redundant observation';
  const numbers = `chi-square ${formatFixed(chiSquare, 3)}, limit ${formatFixed(limit, 3)} at ${100 * alpha} %, p ${formatFixed(p, 3)}`;
  return `global test: ${passed ? 'passed' : 'FAILED'} (${numbers})`;
}

function suspicionLines({ suspicions }: Solution): string[] {
  return suspicions.map(({ sources, standardised, repeatToSeparate }) => {
    const who = sources.length === 1 ? sources[0] : `one of these: ${sources.join(', ')}`;
    const advice =
      repeatToSeparate === undefined ? '' : `; reading ${repeatToSeparate} once more would tell most`;
    return `suspected: ${who} (standardised residual ${formatFixed(standardised, 1)})${advice}`;
  });
}

type Unit = Unknown['unit'];
const PRINTED: Readonly<Record<Unit, { readonly name: string; readonly decimals: number }>> = {
  mm: { name: 'mm', decimals: 3 },
  rad: { name: 'deg', decimals: 4 },
  ratio: { name: '', decimals: 7 },
};

function printed(value: number, unit: Unit): string {
  return formatFixed(unit === 'rad' ? degFromRad(value) : value, PRINTED[unit].decimals);
}

function unknownCells({ id, value, u, unit }: Unknown): string[] {
  return [id, printed(value, unit), printed(u, unit), PRINTED[unit].name];
}

function rowCells(row: RowResult): string[] {
  const { unit } = row;
  const numbers = [row.observed, row.computed, row.residual, row.u].map((value) => printed(value, unit));
  const tested = row.standardised === undefined ? 'no check' : formatFixed(row.standardised, 2);
  const detectable = row.minimalDetectable === undefined ? '' : printed(row.minimalDetectable, unit);
  return [row.id, ...numbers, formatFixed(row.redundancy, 3), tested, detectable, PRINTED[unit].name];
}

/** Columns padded to their widest cell, the first to the left, the others to the right. */
function table(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const widths = head.map((cell, i) => Math.max(cell.length, ...rows.map((row) => (row[i] ?? '').length)));
  return [head, ...rows].map((row) =>
    row
      .map((cell, i) => (i === 0 ? cell.padEnd(widths[i] ?? 0) : cell.padStart(widths[i] ?? 0)))
      .join('  ')
      .trimEnd(),
  );
}
