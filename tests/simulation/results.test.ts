/** The kept results of the studies: complete, and saying what the documents may say of them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { MONTE_CARLO } from '../bench/monteCarlo.ts';
import { type CellResult, plannedFor, SIMULATION } from '../bench/placementSimulation.ts';

interface Kept<R> {
  readonly commit: string;
  readonly results: readonly [R];
}

const kept = <R>(name: string): Kept<R> =>
  JSON.parse(readFileSync(join('tests', 'results', `${name}.json`), 'utf8')) as Kept<R>;

describe('placementSimulation', () => {
  const { commit, results } = kept<{
    readonly leastRuns: number;
    readonly errorModel: readonly string[];
    readonly cells: readonly CellResult[];
  }>('placementSimulation');
  const [{ leastRuns, errorModel, cells }] = results;
  const cell = (toleranceMm: number, rule: string, work: string): CellResult => {
    const found = cells.find((c) => c.toleranceMm === toleranceMm && c.rule === rule && c.work === work);
    if (found === undefined) throw new Error(`no cell ${toleranceMm} ${rule} ${work}`);
    return found;
  };

  test('has all 27 cells and says of each how many placements; those of 10 mm under the default rule in full', () => {
    expect(commit).toMatch(/^[0-9a-f]{40}$/);
    expect(cells).toHaveLength(27);
    expect(leastRuns).toBe(Math.min(...cells.map(({ runs }) => runs)));
    for (const work of ['typical', 'careful', 'best']) {
      expect(cell(10, 'guarded', work).runs).toBe(SIMULATION.runs);
    }
  });

  test('careful work at 10 mm, guarded: one proof set in the middle, 95 % within two, nearly all truly within', () => {
    const { product, classical } = cell(10, 'guarded', 'careful');
    expect(product.median).toBe(1);
    expect(product.p95).toBeLessThanOrEqual(2);
    expect(product.never).toBeLessThanOrEqual(0.01);
    expect(product.trulyWithin).toBeGreaterThan(0.98);
    // The quicker of the two men who work to half the tolerance.
    const passes = Math.min(classical.byEye.median ?? Number.NaN, classical.held.median ?? Number.NaN);
    expect(passes).toBeGreaterThanOrEqual(3 * (product.median ?? Number.POSITIVE_INFINITY));
  });

  test('looks are not paid for in readings: at 10 mm the guided way takes no more of them than the classical', () => {
    for (const work of ['typical', 'careful', 'best']) {
      const { product, classical } = cell(10, 'guarded', work);
      expect(product.readings.median ?? Number.POSITIVE_INFINITY, work).toBeLessThanOrEqual(
        classical.byEye.readings.median ?? 0,
      );
      expect(product.looks.median, work).toBeGreaterThanOrEqual(3);
    }
  });

  test('the error model stands beside the numbers', () => {
    expect(errorModel.join(' ')).toMatch(/5 % and 2 mm/);
    expect(errorModel.join(' ')).toMatch(/2 mm of settling/);
  });

  test('what planning calls unprovable is never proven; planning says so of the same cells today', () => {
    for (const each of cells) {
      expect(plannedFor(each).provable, `${each.toleranceMm} ${each.rule} ${each.work}`).toBe(each.provable);
      if (!each.provable) expect(each.product.never).toBeGreaterThan(0.9);
    }
    expect(cells.filter(({ provable }) => !provable).length).toBeGreaterThanOrEqual(6);
  });

  test('proven means within: 95 % of the proven placements of every guarded cell truly are', () => {
    for (const each of cells.filter(({ rule, product }) => rule !== 'simple' && product.never < 0.5)) {
      const proven = each.runs * (1 - each.product.never);
      // A cell of few placements is held to what chance leaves of 95 % in two standard deviations.
      const chance = each.runs < SIMULATION.runs ? 2 * Math.sqrt((0.05 * 0.95) / proven) : 0;
      const least = 0.95 - chance;
      expect(each.product.trulyWithin, `${each.toleranceMm} ${each.rule} ${each.work}`).toBeGreaterThan(
        least,
      );
    }
  });
});

describe('monteCarlo', () => {
  const [found] = kept<{
    readonly trials: number;
    readonly loop: { readonly trials: number; readonly differenceMm: number; readonly differenceRad: number };
    readonly loopSeconds: number;
    readonly cpuSeconds: number;
    readonly adaptive: { readonly stable: boolean; readonly trials: number; readonly generator: string };
  }>('monteCarlo').results;

  test('100,000 trials, each as the general solver has it to 1e-6 mm', () => {
    expect(found.trials).toBe(MONTE_CARLO.trials);
    expect(found.loop.trials).toBe(MONTE_CARLO.loopTrials);
    expect(found.loop.differenceMm).toBeLessThan(1e-6);
    expect(found.loop.differenceRad).toBeLessThan(1e-9);
  });

  test('at least twenty times as fast as the loop', () => {
    expect(found.loopSeconds / found.cpuSeconds).toBeGreaterThan(20);
  });

  test('the adaptive run settled, and names its generator', () => {
    expect(found.adaptive.stable).toBe(true);
    expect(found.adaptive.generator).toContain('xoshiro128**');
  });
});
