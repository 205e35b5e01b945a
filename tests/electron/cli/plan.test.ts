import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { wordFaults } from '../../../core/words/index.ts';
import { runPlan } from '../../../electron/cli/plan.ts';
import { parsePlanFile } from '../../../electron/cli/planInput.ts';

const folder = mkdtempSync(join(tmpdir(), 'plan-'));
afterAll(() => rmSync(folder, { recursive: true }));

const demo = fileURLToPath(new URL('../../../assets/demo/plan.json', import.meta.url));
const demoFile = () => JSON.parse(readFileSync(demo, 'utf8'));

function run(...args: readonly string[]) {
  const out: string[] = [];
  const errors: string[] = [];
  const code = runPlan(args, { print: (text) => out.push(text), error: (text) => errors.push(text) });
  return { code, out: out.join('\n'), errors: errors.join('\n') };
}

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

describe('plan FILE.json', () => {
  test('the demo: 3.1 mm to the side is not proven as planned, the table and the sentences say so', () => {
    const { code, out, errors } = run(demo);
    expect(errors).toBe('');
    expect(code).toBe(1);
    expect(out).toMatch(/^Invented plan: front camera/);
    expect(out).toMatch(/^ {2}\S.* u 1\.9 mm +U 3\.9 mm +k 2\.00$/m);
    expect(out).toContain("These readings cannot prove 3.1 mm to the car's left or right: U is 3.9 mm.");
    expect(out).toContain(
      "All four hubs with both diagonals, best work, would prove 3.1 mm to the car's left or right",
    );
    expect(out).toMatch(/^Fewest readings that prove every tolerance: \d+, about \d+ minutes\.$/m);
    expect(out).toMatch(/^ {2}drop of the car's left front hub: U falls from 3\.\d\d mm to 3\.\d\d mm$/m);
    for (const line of out.split('\n')) expect(wordFaults(line), line).toEqual([]);
  });

  test('--json gives numbers in mm and radians with slot keys', () => {
    const { code, out } = run('--json', demo);
    expect(code).toBe(1);
    const answer = JSON.parse(out);
    expect(answer.format).toBe('datumline-planned-1');
    expect(answer.plan['drop.FL']).toBe(2);
    expect(answer.stations.map(({ station }: { station: string }) => station)).toEqual([
      'centre',
      "car's left",
    ]);
    const left = answer.stations[0].coordinates[1];
    expect(left.coordinate).toBe('left');
    expect(left.U).toBeCloseTo(left.k * left.u, 9);
    expect(answer.proofs).toHaveLength(12);
    expect(answer.fewest.outcome).toBe('found');
    expect(answer.fewest.plan['drop.FL']).toBeGreaterThan(2);
    expect(answer.blocked).toEqual([]);
    expect(answer.ranking.candidates[0].key).toMatch(/^drop\.F/);
  });

  test('exit code 0 where everything can be proven as planned', () => {
    const content = demoFile();
    content.stations[0].left.tolerance = 10;
    const { code, out } = run(file('wide.json', content));
    expect(code).toBe(0);
    expect(out).not.toContain('cannot');
  });

  test('lines told too short are not lengthened: what blocks the diagonals is named, exit code 1', () => {
    const content = { ...demoFile(), beyondAheadMm: 1000, beyondBehindMm: 1000 };
    content.stations[0].left.tolerance = 10;
    const { code, out } = run(file('short.json', content));
    expect(code).toBe(1);
    expect(out).toContain(
      "car's-right point behind to car's-left point ahead: blocked by the car's right rear tyre and the car's left front tyre",
    );
    expect(out).toContain('Without this reading nothing can be placed, and it is blocked');
    expect(out).not.toContain('set out');
  });

  test('the rear axle alone is told plainly, with what would do', () => {
    const content = { ...demoFile(), recipe: 'rearOnly', times: {} };
    content.stations = [content.stations[0]];
    content.stations[0].ahead = { mm: 5000, from: 'rearAxle', tolerance: 10 };
    content.stations[0].left.tolerance = 10;
    const { code, out } = run(file('rear.json', content));
    expect(code).toBe(1);
    expect(out).toContain("The rear axle alone cannot prove 10.0 mm to the car's left or right: U is 1");
    expect(out).toContain('an axle need not be square to the car');
    expect(out).toContain('All four hubs with both diagonals, typical work, would prove 10.0 mm');
    expect(out).toMatch(/No number of drops and repeats proves 10\.0 mm .*The rear axle alone remains/);
  });

  test('a datum the recipe does not give, readings it does not have, a plan with a hole', () => {
    const rear = run(file('datum.json', { ...demoFile(), recipe: 'rearOnly', times: {} }));
    expect(rear.code).toBe(2);
    expect(rear.errors).toContain('planning/datumNotGiven');
    const unknown = run(file('unknown.json', { ...demoFile(), times: { 'drop.XX': 2 } }));
    expect(unknown.code).toBe(2);
    expect(unknown.errors).toContain('drop.XX');
    const hole = run(file('hole.json', { ...demoFile(), times: { 'drop.FL': 0 } }));
    expect(hole.code).toBe(2);
    expect(hole.errors).toContain('planning/undetermined');
    expect(hole.errors).toContain('drop.FL');
  });

  test('no file, no JSON, a wrong option, another document: exit code 2 and what is wrong', () => {
    expect(run().code).toBe(2);
    expect(run('--what').errors).toContain('plan FILE.json');
    expect(run(join(folder, 'absent.json')).errors).toContain('cannot be read');
    expect(run(file('broken.json', '{')).code).toBe(2);
    const other = run(file('other.json', { format: 'datumline-network-1' }));
    expect(other.code).toBe(2);
    expect(other.errors).toContain('is no plan');
  });
});

describe('the file', () => {
  const problems = (change: (content: ReturnType<typeof demoFile>) => void): string => {
    const content = demoFile();
    change(content);
    const parsed = parsePlanFile(content);
    return parsed.ok ? '' : parsed.error.join('\n');
  };

  test('angles are degrees, tolerances one number or two', () => {
    const content = demoFile();
    content.stations[0].ahead.tolerance = { lower: 0 };
    const parsed = parsePlanFile(content);
    if (!parsed.ok) throw new Error(parsed.error.join());
    const [centre] = parsed.value.setUp.stations;
    expect(centre?.yaw.value).toBeCloseTo(Math.PI, 12);
    expect(centre?.yaw.permitted?.upper).toBeCloseTo((0.2 * Math.PI) / 180, 12);
    expect(centre?.left.permitted).toEqual({ lower: -3.1, upper: 3.1, stated: true });
    expect(centre?.ahead.permitted).toEqual({ lower: 0, stated: true });
    expect(parsed.value.setUp.car.tyre).toEqual({ widthMm: 205, diameterMm: expect.closeTo(631.9, 1) });
    expect(parsed.value.setUp.instruments).toEqual({ tape: 'tape-1' });
  });

  test('each fault names its place', () => {
    expect(problems((c) => delete c.car.wheelbaseMm)).toContain('car wheelbaseMm');
    expect(problems((c) => (c.car.tyre = 'round'))).toContain('car tyre');
    expect(problems((c) => (c.stations = []))).toContain('stations');
    expect(problems((c) => (c.stations[0].left.tolerance = -3))).toContain('stations 0 left tolerance');
    expect(problems((c) => (c.stations[0].left.tolerance = { lower: 2, upper: 1 }))).toContain(
      'no tolerance',
    );
    expect(problems((c) => (c.stations[0].left.tolerance = {}))).toContain('no tolerance');
    expect(problems((c) => (c.rule = 'lenient'))).toContain('rule');
    expect(problems((c) => (c.spare = 1))).toContain('spare');
  });
});
