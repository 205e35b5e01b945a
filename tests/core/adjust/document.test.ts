import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readingModels } from '../../../core/adjust/models/table.ts';
import { networkSchema } from '../../../core/adjust/network.ts';
import { parseNetwork } from '../../../core/adjust/parseNetwork.ts';
import { solve } from '../../../core/adjust/solve.ts';
import { demoNetwork, trueLayout } from '../../bench/demoNetwork.ts';
import { failed, level, network, solved } from './networks.ts';
import { networkJsonSchema } from './writeSchema.ts';

const asset = (path: string): string =>
  readFileSync(new URL(`../../../assets/${path}`, import.meta.url), 'utf8');

describe('the network document', () => {
  test('the published JSON Schema is the one in the code', () => {
    expect(asset('schemas/network.schema.json')).toBe(networkJsonSchema());
  });

  test('the JSON Schema names every kind of reading', () => {
    const text = networkJsonSchema();
    for (const kind of Object.keys(readingModels)) expect(text).toContain(`"const": "${kind}"`);
  });

  test('the demo document is the one its true layout gives, and parses', () => {
    const document: unknown = JSON.parse(asset('demo/placement-network.json'));
    expect(document).toEqual(JSON.parse(JSON.stringify(demoNetwork())));
    const parsed = parseNetwork(document);
    expect(parsed.ok && parsed.value).toEqual(document);
  });

  test('unknown fields, other formats, wrong types and missing parts are told by their path', () => {
    const good = demoNetwork();
    const first = good.readings[0];
    const cases: readonly (readonly [unknown, RegExp])[] = [
      [{ ...good, format: 'datumline-network-2' }, /^format: /],
      [{ ...good, colour: 'red' }, /colour/],
      [{ ...good, points: undefined }, /^points: /],
      [{ ...good, readings: [{ ...first, alongMm: 'twelve' }] }, /^readings\.0\.alongMm: /],
      [{ ...good, readings: [{ ...first, kind: 'guess' }] }, /^readings\.0/],
      [{ ...good, readings: [{ ...first, uAlongMm: -1 }] }, /^readings\.0\.uAlongMm: /],
      [{ ...good, readings: [{ ...first, id: 'a b' }] }, /^readings\.0\.id: /],
      ['text', /./],
      [null, /./],
    ];
    for (const [document, path] of cases) {
      const error = failed(parseNetwork(document));
      expect(error).toMatchObject({ code: 'adjust/invalidNetwork', cure: 'correctDocument' });
      expect('issues' in error ? error.issues[0] : '').toMatch(path);
    }
  });

  test('numbers that are not finite do not pass the parser either', () => {
    for (const valueMm of [Number.NaN, Number.POSITIVE_INFINITY]) {
      const error = failed(parseNetwork(network({ readings: [level('A', 'B', valueMm, 1)] })));
      expect(error.code).toBe('adjust/invalidNetwork');
    }
  });

  test('a thousand faults are not all told', () => {
    const readings = Array.from({ length: 1000 }, (_, i) => ({
      ...level('A', 'B', 1, 1),
      id: `r${i}`,
      uMm: -1,
    }));
    const error = failed(parseNetwork(network({ readings })));
    expect('issues' in error ? error.issues.length : 0).toBeLessThanOrEqual(20);
  });
});

describe('the page that explains the format', () => {
  const page = asset('schemas/network.md');
  const examples = [
    ...page.matchAll(/^## ([^\n]*)\n(?:(?!^## )[\s\S])*?```json\n([\s\S]*?)```\n\nGives: ([^\n]*)\.$/gm),
  ].map(([, name = '', json = '', gives = '']) => ({ name, json, gives }));

  test('has its examples found, all of them', () => {
    expect(examples.length).toBe(page.match(/^```json$/gm)?.length);
    expect(examples.length).toBeGreaterThanOrEqual(6);
  });

  test.each(examples)('$name: the example is read, solved, and gives what it says', ({ json, gives }) => {
    const parsed = parseNetwork(JSON.parse(json));
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.error));
    const answer = solved(solve(parsed.value));
    expect(answer.globalTest.passed).toBe(true);
    const told = [...gives.matchAll(/`([^`]+)` = (-?[\d.]+) ± ([\d.]+)/g)];
    expect(told.length).toBe(gives.split(';').length);
    for (const [, id, value = '', u = ''] of told) {
      const unknown = answer.unknowns.find((one) => one.id === id);
      const decimals = value.split('.')[1]?.length ?? 0;
      expect(unknown?.value, id).toBeCloseTo(Number(value), decimals);
      expect(unknown?.u, id).toBeCloseTo(Number(u), decimals);
    }
  });

  test('shows every kind of reading, and names every field of the schema', () => {
    for (const kind of Object.keys(readingModels)) {
      expect(page).toContain(`"kind": "${kind}"`);
      expect(page).toContain(`\`${kind}\``);
    }
    for (const field of Object.keys(networkSchema.shape)) expect(page, field).toContain(`"${field}"`);
  });
});

describe('the demo placement', () => {
  const solution = solved(solve(demoNetwork()));

  test('57 unknowns, 56 rows, three freedoms, two redundant readings, nothing suspected', () => {
    expect(solution.unknowns).toHaveLength(57);
    expect(solution.rows).toHaveLength(56);
    expect(solution.gauge).toEqual(['turn', 'x', 'y']);
    expect(solution.globalTest).toMatchObject({ dof: 2, passed: true });
    expect(solution.suspicions).toEqual([]);
    expect(solution.stopReason).toBe('converged');
  });

  test('every distance between points agrees with the true layout to the rounding of its readings', () => {
    const truth = trueLayout();
    const ids = [...truth.keys()].filter((id) => !id.startsWith('hub'));
    for (const [i, a] of ids.entries()) {
      for (const b of ids.slice(i + 1)) {
        const [p, q] = [truth.get(a) ?? [0, 0, 0], truth.get(b) ?? [0, 0, 0]];
        const [s, t] = [solution.estimates.point(a), solution.estimates.point(b)];
        const found = Math.hypot(s.xMm - t.xMm, s.yMm - t.yMm);
        expect(Math.abs(found - Math.hypot(p[0] - q[0], p[1] - q[1])), `${a} ${b}`).toBeLessThan(1);
      }
    }
  });
});
