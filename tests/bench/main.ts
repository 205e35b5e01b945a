/**
 * `npm run bench`: everything, or `-- --only solve,home`. Writes the comparisons to `tests/results/bench.json` and the
 * timings of each bench to `tests/results/bench-NAME.json`; studies keep their own `tests/results/NAME.json`. Reports only; with `--check` it ends with 1 when an aim or a
 * limit was missed; `--runs 60` makes the placement study with so many placements a cell.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { hasDisplay, startDisplay } from '../../electron/setup/display.mjs';
import { commitNow, machine } from '../faults/faultProgram.ts';
import { benchCertificate } from './certificate.ts';
import type { Comparison } from './compare.ts';
import { studyCoverage } from './coverage.ts';
import { benchGrowth } from './growth.ts';
import { benchHome } from './home.ts';
import { benchInstruments } from './instruments.ts';
import { studyMonteCarlo } from './monteCarlo.ts';
import { benchPaint } from './paint.ts';
import { studyPlacement } from './placementSimulation.ts';
import { benchRecord } from './record.ts';
import { benchSolve } from './solve.ts';
import { benchStart } from './start.ts';
import type { Aim, Study } from './study.ts';
import { keepsLimit, type Timing } from './timing.ts';

const benches: Readonly<Record<string, () => Promise<readonly Comparison[]>>> = {
  solve: benchSolve,
  certificate: async () => [await benchCertificate()],
  start: async () => [await onSomeDisplay(benchStart)],
};

const timers: Readonly<Record<string, () => Promise<readonly Timing[]>>> = {
  growth: benchGrowth,
  home: benchHome,
  instruments: benchInstruments,
  paint: () => onSomeDisplay(benchPaint),
  record: benchRecord,
};

/** `runs`: what `--runs` asks for, for a first answer with fewer placements than are wanted. */
const studies: Readonly<Record<string, (runs?: number) => Promise<Study>>> = {
  monteCarlo: () => studyMonteCarlo(),
  placementSimulation: studyPlacement,
  coverage: () => studyCoverage(),
};

/** Runs with the display there is, or with one of our own. */
async function onSomeDisplay<T>(run: () => Promise<T>): Promise<T> {
  if (hasDisplay()) return run();
  const own = await startDisplay();
  process.env.DISPLAY = own.display;
  try {
    return await run();
  } finally {
    delete process.env.DISPLAY;
    own.stop();
  }
}

function told({ name, ratio, ratioRange, aim, oursMs, theirsMs }: Comparison): string {
  const range = ratioRange.join(' to ');
  const met = ratio <= aim ? 'met' : 'MISSED';
  return `${name}: ${ratio} of the other (${range}), ours ${oursMs} ms, theirs ${theirsMs} ms; aim at most ${aim}: ${met}`;
}

function toldTiming(timing: Timing): string {
  const { name, runs, medianMs, p95Ms, slowestMs, limitMs } = timing;
  const limit =
    limitMs === null ? 'no limit' : `at most ${limitMs} ms: ${keepsLimit(timing) ? 'met' : 'MISSED'}`;
  return `${name}: median ${medianMs} ms, 95 % ${p95Ms} ms, slowest ${slowestMs} ms of ${runs}; ${limit}`;
}

function writeResults(name: string, results: readonly object[]): void {
  const folder = join(import.meta.dirname, '..', 'results');
  mkdirSync(folder, { recursive: true });
  const finishedAt = new Date().toISOString();
  const file = { name, commit: commitNow(), machine: machine(), finishedAt, results };
  writeFileSync(join(folder, `${name}.json`), `${JSON.stringify(file, null, 2)}\n`);
}

const { values } = parseArgs({
  options: { only: { type: 'string' }, check: { type: 'boolean' }, runs: { type: 'string' } },
});
const names = values.only?.split(',') ?? Object.keys({ ...benches, ...timers, ...studies });
const comparisons: Comparison[] = [];
const timings: Timing[] = [];
const aims: Aim[] = [];
for (const name of names) {
  const [bench, timer, study] = [benches[name], timers[name], studies[name]];
  if ((bench ?? timer ?? study) === undefined) throw new Error(`no such bench: ${name}`);
  for (const result of (await bench?.()) ?? []) {
    console.log(told(result));
    comparisons.push(result);
  }
  const measured = (await timer?.()) ?? [];
  for (const timing of measured) console.log(toldTiming(timing));
  timings.push(...measured);
  if (measured.length > 0) writeResults(`bench-${name}`, measured);
  const found = await study?.(values.runs === undefined ? undefined : Number(values.runs));
  if (found === undefined) continue;
  for (const line of found.lines) console.log(line);
  for (const { what, met } of found.aims) console.log(`${what}: ${met ? 'met' : 'MISSED'}`);
  aims.push(...found.aims);
  writeResults(
    name,
    found.results.map((result) => ({ ...result, aims: found.aims })),
  );
}
if (comparisons.length > 0) writeResults('bench', comparisons);
const missed =
  comparisons.filter((each) => each.ratio > each.aim).length +
  timings.filter((each) => !keepsLimit(each)).length +
  aims.filter(({ met }) => !met).length;
console.log(`${comparisons.length + timings.length + aims.length - missed} passed, ${missed} failed`);
process.exitCode = values.check && missed > 0 ? 1 : 0;
