import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { runSolve } from '../../../electron/cli/solve.ts';
import { fixedPoint, freePoint, level, network, side } from '../../core/adjust/networks.ts';

const folder = mkdtempSync(join(tmpdir(), 'solve-'));
afterAll(() => rmSync(folder, { recursive: true }));

const demo = fileURLToPath(new URL('../../../assets/demo/placement-network.json', import.meta.url));

function run(...args: readonly string[]) {
  const out: string[] = [];
  const errors: string[] = [];
  const code = runSolve(args, { print: (text) => out.push(text), error: (text) => errors.push(text) });
  return { code, out: out.join('\n'), errors: errors.join('\n') };
}

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

const base = [fixedPoint('A', 0, 0), fixedPoint('B', 1000, 0)];

describe('solve FILE.json', () => {
  test('prints the adjustment of the demo placement as a table', () => {
    const { code, out, errors } = run(demo);
    expect(code).toBe(0);
    expect(errors).toBe('');
    expect(out).toContain('57 unknowns, 56 observations, 2 redundant');
    expect(out).toMatch(/global test: passed \(chi-square 0\.144, limit 5\.991 at 5 %, p 0\.931\)/);
    expect(out).toMatch(/^fixture\/pitch +0\.1\d+ +0\.0\d+ +deg$/m);
    expect(out).toMatch(/^drop\.FL\/across +0\.000 /m);
    expect(out).toContain('no check');
  });

  test('--json gives the whole solution, covariance included, as one JSON value', () => {
    const { code, out } = run('--json', demo);
    expect(code).toBe(0);
    const answer = JSON.parse(out);
    expect(answer.format).toBe('datumline-solution-1');
    expect(answer.unknowns).toHaveLength(57);
    expect(answer.covariance).toHaveLength(57);
    expect(answer.covariance[56]).toHaveLength(57);
    expect(Math.sqrt(answer.covariance[0][0])).toBeCloseTo(answer.unknowns[0].u, 12);
    expect(answer.globalTest.dof).toBe(2);
    expect(answer.freedoms).toEqual(['turn', 'x', 'y']);
    expect(answer.stopReason).toBe('converged');
    expect(answer.bodies).toHaveLength(1);
    const { id, pitchRad } = answer.bodies[0];
    expect(answer.unknowns.find((one: { id: string }) => one.id === `${id}/pitch`).value).toBe(pitchRad);
  });

  test('readings that contradict each other: solved, code 1, the suspects named', () => {
    const points = [...base, { ...freePoint('P', 400), y: { state: 'fixed', valueMm: 0 } as const }];
    const readings = [level('A', 'P', 400, 1), level('B', 'P', 612, 1)];
    const { code, out } = run(file('contradiction.json', network({ points, readings })));
    expect(code).toBe(1);
    expect(out).toContain('global test: FAILED');
    expect(out).toMatch(/suspected: one of these: [AB]-P, [AB]-P .*once more would tell most/);
  });
});

describe('what cannot be solved ends with code 2, a sentence and the ids', () => {
  test('a point that is not determined, with what would hold it', () => {
    const document = network({ points: [...base, freePoint('P')], readings: [level('A', 'P', 500, 1)] });
    const { code, out, errors } = run(file('open.json', document));
    expect(code).toBe(2);
    expect(out).toBe('');
    expect(errors).toContain('fewer readings than unknowns');
    expect(errors).toContain('P: plan is open; one of these would hold it: distance, offset, along, drop');
  });

  test('the same as JSON', () => {
    const document = network({ points: [...base, freePoint('P')], readings: [level('A', 'P', 500, 1)] });
    const { code, out } = run(file('open.json', document), '--json');
    expect(code).toBe(2);
    expect(JSON.parse(out).error).toMatchObject({ code: 'adjust/tooFewReadings', ids: ['P'] });
  });

  test('an undeclared side', () => {
    const readings = [level('A', 'P', 600, 1), level('B', 'P', 700, 1)];
    const { errors } = run(file('mirror.json', network({ points: [...base, freePoint('P')], readings })));
    expect(errors).toContain('Declare the side');
    expect(errors).toContain('concerns: P, A, B');
    const declared = network({
      points: [...base, freePoint('P')],
      readings,
      sides: [side('P', 'A', 'B', 'left')],
    });
    expect(run(file('declared.json', declared)).code).toBe(0);
  });

  test('a document that is no network, told by path', () => {
    const { code, errors } = run(file('wrong.json', { ...network({}), points: [{ id: 'A' }] }));
    expect(code).toBe(2);
    expect(errors).toContain('points.0.x');
  });

  test('no JSON, no file, no argument, two files', () => {
    expect(run(file('text.json', 'not json'))).toMatchObject({ code: 2 });
    expect(run(join(folder, 'missing.json')).errors).toContain('cannot be read');
    expect(run()).toMatchObject({ code: 2, errors: 'solve FILE.json [--json]' });
    expect(run(demo, demo).code).toBe(2);
    expect(run('--yaml').code).toBe(2);
  });
});
