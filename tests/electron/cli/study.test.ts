import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { tapeStudySchema } from '../../../core/job/repeatability.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { runStudy } from '../../../electron/cli/study.ts';

const folder = mkdtempSync(join(tmpdir(), 'study-'));
afterAll(() => rmSync(folder, { recursive: true }));

const demo = fileURLToPath(new URL('../../../assets/demo/study.json', import.meta.url));
const demoFile = () => JSON.parse(readFileSync(demo, 'utf8'));

function run(...args: readonly string[]) {
  const out: string[] = [];
  const errors: string[] = [];
  const code = runStudy(args, { print: (text) => out.push(text), error: (text) => errors.push(text) });
  return { code, out: out.join('\n'), errors: errors.join('\n') };
}

let files = 0;
function file(content: unknown): string {
  files++;
  const path = join(folder, `${files}.json`);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

describe('study FILE.json', () => {
  test('the demo: both methods, both spreads, and a line that the shop schema takes', () => {
    const { code, out, errors } = run(demo);
    expect(errors).toBe('');
    expect(code).toBe(0);
    expect(out).toContain('8 set-ups, 3 people, 3 readings of each');
    expect(out).toMatch(/^ {2}same person +0\.334 mm +9\d\.\d % +0\.332 mm +9\d\.\d %$/m);
    expect(out).toMatch(/repeated by the same person: 0\.334 mm with 62\.0 degrees of freedom/);
    expect(out).not.toMatch(/differ by more than chance/);
    const line = out.split('\n').find((each) => each.trim().startsWith('{')) ?? '';
    expect(tapeStudySchema.parse(JSON.parse(line))).toEqual({
      s: 0.334,
      dof: 62,
      date: '2026-05-04',
      document: 'Tape study of 4 May 2026',
    });
    for (const each of out.split('\n')) expect(wordFaults(each), each).toEqual([]);
  });

  test('s is the root of what is within cells and what people differ by set-up, worked by hand', () => {
    // Two set-ups, two people, two readings: within-cell squares 0.5 each of four, interaction none.
    const readings = [
      [
        [1000, 1001],
        [1000, 1001],
      ],
      [
        [2000, 2001],
        [2000, 2001],
      ],
    ];
    const { code, out } = run('--json', file({ ...demoFile(), readingsMm: readings }));
    const answer = JSON.parse(out);
    // 4 x 0.5 = 2.0 over 4 + 1 degrees of freedom, pooled.
    expect(answer.samePerson.dof).toBe(5);
    expect(answer.samePerson.s).toBeCloseTo(Math.sqrt(2 / 5), 12);
    expect(answer.line).toMatchObject({ s: 0.6325, dof: 5 });
    expect(answer.replaces).toBe(false);
    expect(code).toBe(1);
  });

  test('too few degrees of freedom by itself is said, with the line that still counts together with others', () => {
    const few = { ...demoFile(), readingsMm: demoFile().readingsMm.slice(0, 2) };
    const { code, out } = run(file(few));
    expect(code).toBe(1);
    expect(out).toMatch(/"dof":14,/);
    expect(out).toContain('20 degrees of freedom are needed');
  });

  test('people who read the tape differently are named as such', () => {
    const apart = demoFile();
    apart.readingsMm = apart.readingsMm.map((row: number[][]) =>
      row.map((cell, person) => cell.map((value) => value + 2 * person)),
    );
    const { out } = run(file(apart));
    expect(out).toMatch(/people differ by more than chance \(p = 0\.0000\)/);
    expect(out).toContain('repeated by the same person: 0.334 mm');
  });

  test('repeats that never differ give no line', () => {
    const alike = demoFile();
    alike.readingsMm = alike.readingsMm.map((row: number[][]) => row.map(() => [1000, 1000, 1000]));
    const { code, out } = run(file(alike));
    expect(code).toBe(1);
    expect(out).toContain('Repeats never differed');
    expect(out).not.toContain('"s":');
  });

  test('four readings of each have no constants for ranges; the analysis of variance stands', () => {
    const four = demoFile();
    four.readingsMm = four.readingsMm.map((row: number[][]) =>
      row.map((cell) => [...cell, cell[0] ?? Number.NaN]),
    );
    const { out } = run(file(four));
    expect(out).toContain('has constants for 2 or 3 readings');
    expect(out).toMatch(/repeated by the same person: 0\.\d{3} mm/);
    expect(JSON.parse(run('--json', file(four)).out).byRanges).toBeNull();
  });

  test('what is no study is refused with its place', () => {
    const missing = demoFile();
    missing.readingsMm[3][1].pop();
    expect(run(file(missing))).toMatchObject({ code: 2, out: '' });
    expect(run(file(missing)).errors).toContain('Set-up 4, person 2: another number of readings');
    expect(run(file({ ...demoFile(), readingsMm: [[[1, 2]]] })).errors).toContain('at least two set-ups');
    const text = demoFile();
    text.readingsMm[0][0][1] = '5';
    expect(run(file(text)).errors).toContain('readingsMm.0.0.1');
    expect(run(file({ ...demoFile(), more: 1 })).code).toBe(2);
    expect(run(file('{')).errors).toContain('cannot be read as JSON');
    expect(run()).toMatchObject({ code: 2, errors: 'study FILE.json [--json]' });
    expect(run(demo, demo).code).toBe(2);
  });
});
