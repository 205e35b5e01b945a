/**
 * `npm run faults`: runs all fault programs in full, or some: `-- --only kill-journal,power-loss --seed 5 --count 50`. An
 * interrupted run is taken up again. Ends with 1 when anything was not as it must be.
 */
import { parseArgs } from 'node:util';
import { badDiskProgram, twoWritersProgram } from './badDisk.ts';
import { type FaultProgram, runProgram } from './faultProgram.ts';
import { killJournalProgram, killServiceProgram } from './killRun.ts';
import { powerLossOffProgram, powerLossProgram } from './powerLoss.ts';
import { killWindowProgram } from './windowKillProgram.ts';

const programs: readonly FaultProgram[] = [
  powerLossProgram,
  powerLossOffProgram,
  badDiskProgram,
  twoWritersProgram,
  killJournalProgram,
  killServiceProgram,
  killWindowProgram,
];

const { values } = parseArgs({
  options: { only: { type: 'string' }, seed: { type: 'string' }, count: { type: 'string' } },
});

function wholeNumber(name: string, text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  if (!/^\d+$/.test(text)) throw new Error(`--${name} wants a whole number, not ${text}`);
  return Number(text);
}

const names = values.only?.split(',') ?? programs.map((program) => program.name);
const unknown = names.filter((name) => !programs.some((program) => program.name === name));
if (unknown.length > 0) throw new Error(`no such fault program: ${unknown.join(', ')}`);
const asked = { seed: wholeNumber('seed', values.seed), count: wholeNumber('count', values.count) };
let failed = 0;
for (const program of programs.filter(({ name }) => names.includes(name))) {
  const { counts, problems } = await runProgram(program, asked);
  console.log(`${program.name}: ${JSON.stringify(counts)}`);
  for (const problem of problems.slice(0, 20)) console.log(`  ${problem}`);
  if (problems.length > 0) failed += 1;
}
console.log(`${names.length - failed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;
