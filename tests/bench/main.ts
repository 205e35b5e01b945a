/**
 * `npm run bench`: all comparisons, or `-- --only solve,start`. Writes `tests/results/bench.json`. Reports only; with
 * `--check` it ends with 1 when an aim was missed.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { hasDisplay, startDisplay } from '../../electron/setup/display.mjs';
import { commitNow, machine } from '../faults/faultProgram.ts';
import { benchCertificate } from './certificate.ts';
import type { Comparison } from './compare.ts';
import { benchSolve } from './solve.ts';
import { benchStart } from './start.ts';

const benches: Readonly<Record<string, () => Promise<readonly Comparison[]>>> = {
  solve: benchSolve,
  certificate: async () => [await benchCertificate()],
  start: async () => [await onSomeDisplay(benchStart)],
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

const { values } = parseArgs({ options: { only: { type: 'string' }, check: { type: 'boolean' } } });
const names = values.only?.split(',') ?? Object.keys(benches);
const results: Comparison[] = [];
for (const name of names) {
  const bench = benches[name];
  if (bench === undefined) throw new Error(`no such bench: ${name}`);
  for (const result of await bench()) {
    console.log(told(result));
    results.push(result);
  }
}
const folder = join(import.meta.dirname, '..', 'results');
mkdirSync(folder, { recursive: true });
const file = {
  name: 'bench',
  commit: commitNow(),
  machine: machine(),
  finishedAt: new Date().toISOString(),
  results,
};
writeFileSync(join(folder, 'bench.json'), `${JSON.stringify(file, null, 2)}\n`);
const missed = results.filter((each) => each.ratio > each.aim);
console.log(`${results.length - missed.length} passed, ${missed.length} failed`);
process.exitCode = values.check && missed.length > 0 ? 1 : 0;
