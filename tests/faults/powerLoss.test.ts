/** A small dose of power cuts; `npm run faults` does a hundred. */
import { beforeAll, describe, expect, test } from 'vitest';
import { cutPower, recordingCounts, recordRun } from './powerLoss.ts';
import type { DiskCall } from './systemCalls.ts';

const SEED = 71;
const CUTS = 12;

describe(`power cut at ${CUTS} random points of a recorded run (seed ${SEED})`, () => {
  let calls: readonly DiskCall[];

  beforeAll(() => {
    calls = recordRun('full');
  }, 120_000);

  test('the recording holds answers, flushes, checkpoints and two starts', () => {
    const counts = recordingCounts(calls);
    expect(counts.answers).toBeGreaterThan(70);
    expect(counts.flushes).toBeGreaterThan(counts.answers);
    expect(counts.databaseWrites).toBeGreaterThan(100);
    expect(counts.logsMade).toBe(2);
  });

  test('everything answered is there, the chains are whole', () => {
    const { counts, problems } = cutPower(calls, SEED, CUTS);
    expect(problems).toEqual([]);
    expect(counts.images).toBe(3 * CUTS);
    expect(counts.answersLooked).toBeGreaterThan(100);
  }, 120_000);

  test('a cut while the store is being born leaves something that can be opened', () => {
    const born = calls.findIndex((call) => call.kind === 'say');
    const { problems } = cutPower(calls.slice(0, born), SEED, 30);
    expect(problems).toEqual([]);
  }, 120_000);
});

describe('the same cuts on a run that never flushes (synchronous=OFF)', () => {
  test('lose entries that were answered', () => {
    const calls = recordRun('notDurable');
    const { counts, problems } = cutPower(calls, SEED, CUTS);
    expect(counts.badImages).toBeGreaterThan(CUTS / 2);
    expect(problems.join('\n')).toMatch(/an answered command is lost/);
  }, 120_000);
});
