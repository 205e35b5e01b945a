/** The window forbids code made from text: what the core and its libraries do there must work under that rule. */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const adjust = new URL('../../../core/adjust/index.ts', import.meta.url);
const uncertainty = new URL('../../../core/uncertainty/index.ts', import.meta.url);
const demo = fileURLToPath(new URL('../../../assets/demo/placement-network.json', import.meta.url));

const script = `
import { readFileSync } from 'node:fs';
import { derive, parseNetwork, solve } from '${adjust.href}';
import { decide, chiSquareQuantile, tQuantile } from '${uncertainty.href}';
let refused = false;
try { new Function('return 1')(); } catch { refused = true; }
const parsed = parseNetwork(JSON.parse(readFileSync(${JSON.stringify(demo)}, 'utf8')));
if (!parsed.ok) throw new Error('not parsed');
const solution = solve(parsed.value);
if (!solution.ok) throw new Error('not solved');
const height = derive(solution.value, ({ point }) => point('face').zMm);
console.log(JSON.stringify({
  refused,
  height: height.U,
  t: tQuantile(0.975, 5),
  chi: chiSquareQuantile(0.95, 1),
  verdict: decide(1, 0.5, { lower: -4, upper: 4 }).verdict,
}));
`;

test('parse, solve, derive, quantiles and verdict run with code generation from strings forbidden', () => {
  const output = execFileSync(
    process.execPath,
    ['--disallow-code-generation-from-strings', '--input-type=module', '--eval', script],
    { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] },
  );
  const answer = JSON.parse(output);
  expect(answer.refused).toBe(true);
  expect(answer.height).toBeCloseTo(1.6, 2);
  expect(answer.t).toBeCloseTo(2.570581835636, 9);
  expect(answer.chi).toBeCloseTo(3.841458820694, 9);
  expect(answer.verdict).toBe('proven');
});
