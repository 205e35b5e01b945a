/** A small dose of the kills; `npm run faults` does two hundred. */
import { describe, expect, test } from 'vitest';
import { killBatch } from './killJournal.ts';

const SEED = 41;

describe(`the writing process killed at random moments (seed ${SEED})`, () => {
  test('ten kills: nothing recorded is lost, nothing doubled, drafts return, chains are whole', async () => {
    const { counts, problems } = await killBatch(SEED, 10);
    expect(problems).toEqual([]);
    expect(counts.kills).toBe(10);
    expect(counts.entries).toBeGreaterThan(50);
    expect(counts.answeredAgain).toBeGreaterThanOrEqual(3);
    expect(counts.draftsLooked).toBeGreaterThan(counts.draftsNotJudged ?? 0);
  }, 120_000);
});

describe('the same check on a writer that breaks a promise', () => {
  test('an answer before the commit is noticed as a lost entry', async () => {
    const { problems } = await killBatch(SEED, 2, 'answersEarly');
    expect(problems.join('\n')).toMatch(/lost or another/);
  }, 120_000);

  test('a forgotten command id is noticed as a doubled entry', async () => {
    const { problems } = await killBatch(SEED, 2, 'forgetsCommands');
    expect(problems.join('\n')).toMatch(/is there twice/);
  }, 120_000);

  test('a draft that is not written is noticed', async () => {
    const { problems } = await killBatch(SEED, 4, 'forgetsDrafts');
    expect(problems.join('\n')).toMatch(/draft of field \d+, \d+ ms old, lost/);
  }, 120_000);
});
