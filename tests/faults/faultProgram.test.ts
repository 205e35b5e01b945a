import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { type FaultProgram, mergedCounts, runProgram, subjectDigest } from './faultProgram.ts';
import { seededRandom } from './seededRandom.ts';

const NAME = 'trial-of-the-frame';
const RESULT = join('tests', 'results', `${NAME}.json`);
const PROGRESS = join('tests', 'output', 'faults', `${NAME}.json`);

/** A program that breaks off at its nth batch. */
function trial(breaksAt?: number) {
  const seeds: number[] = [];
  const program: FaultProgram = {
    name: NAME,
    defaults: { seed: 10, count: 7 },
    batchSize: 3,
    runBatch: async (seed, count) => {
      if (seeds.length + 1 === breaksAt) throw new Error('the power went');
      seeds.push(seed);
      return { counts: { done: count, mostMs: seed }, problems: seed === 13 ? ['one thing'] : [] };
    },
  };
  return { program, seeds };
}

function cleanUp(): void {
  onTestFinished(() => {
    for (const path of [RESULT, PROGRESS]) rmSync(path, { force: true });
  });
}

describe('a fault program', () => {
  test('runs all batches, adds up, and leaves a result that says on what', async () => {
    cleanUp();
    const { program, seeds } = trial();
    const { counts, problems } = await runProgram(program, {});
    expect(seeds).toEqual([10, 13, 16]);
    expect(counts).toEqual({ done: 7, mostMs: 16 });
    expect(problems).toEqual(['one thing']);
    expect(existsSync(PROGRESS)).toBe(false);
    const result = JSON.parse(readFileSync(RESULT, 'utf8'));
    expect(result).toMatchObject({
      name: NAME,
      seed: 10,
      count: 7,
      counts,
      problems,
      subject: subjectDigest(),
    });
    expect(result.machine.processors).toBeGreaterThan(0);
  });

  test('that was interrupted goes on where it stopped', async () => {
    cleanUp();
    await expect(runProgram(trial(2).program, { seed: 100 })).rejects.toThrow('the power went');
    const { program, seeds } = trial();
    const { counts } = await runProgram(program, { seed: 100 });
    expect(seeds).toEqual([103, 106]);
    expect(counts.done).toBe(7);
  });

  test('that was interrupted with another seed begins anew', async () => {
    cleanUp();
    await expect(runProgram(trial(2).program, { seed: 100 })).rejects.toThrow('the power went');
    const { program, seeds } = trial();
    await runProgram(program, { seed: 200, count: 4 });
    expect(seeds).toEqual([200, 203]);
  });
});

describe('the parts', () => {
  test('counts add up, and the most of each is kept', () => {
    expect(mergedCounts({ a: 1, mostMs: 5 }, { a: 2, b: 3, mostMs: 4 })).toEqual({ a: 3, b: 3, mostMs: 5 });
  });

  test('the random source repeats for a seed and differs between seeds', () => {
    const draw = (seed: number) => {
      const random = seededRandom(seed);
      return Array.from({ length: 50 }, () => random.whole(1, 6));
    };
    expect(draw(1)).toEqual(draw(1));
    expect(draw(1)).not.toEqual(draw(2));
    expect(new Set(draw(3))).toEqual(new Set([1, 2, 3, 4, 5, 6]));
  });
});
