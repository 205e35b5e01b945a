/** A small dose of the kills; `npm run faults` does two hundred. */
import { describe, expect, test } from 'vitest';
import { journalTarget } from './journalTarget.ts';
import { killBatch } from './killRun.ts';
import { serviceTarget } from './serviceTarget.ts';

const SEED = 41;

describe(`the service killed at random moments and between commit and answer (seed ${SEED})`, () => {
  test('ten kills: nothing recorded is lost, nothing doubled, drafts return, chains are whole', async () => {
    const { counts, problems } = await killBatch(serviceTarget, SEED, 10);
    expect(problems).toEqual([]);
    expect(counts.kills).toBe(10);
    expect(counts.entries).toBeGreaterThan(50);
    expect(counts.recordedUnanswered).toBeGreaterThanOrEqual(3);
    expect(counts.draftsDue).toBeGreaterThan(counts.draftsNotJudged ?? 0);
  }, 300_000);
});

describe('the same check on a writer that breaks a promise', () => {
  test('an answer before the commit is noticed as a lost entry', async () => {
    const { problems } = await killBatch(journalTarget('answersEarly'), SEED, 2, () => true);
    expect(problems.join('\n')).toMatch(/lost or another/);
  }, 120_000);

  test('a forgotten command id is noticed as a doubled entry', async () => {
    const { problems } = await killBatch(journalTarget('forgetsCommands'), SEED, 2, () => true);
    expect(problems.join('\n')).toMatch(/is there twice/);
  }, 120_000);

  test('a draft that is not written is noticed', async () => {
    const { problems } = await killBatch(journalTarget('forgetsDrafts'), SEED, 4, () => false);
    expect(problems.join('\n')).toMatch(/draft of field \d+, \d+ ms old, lost/);
  }, 120_000);
});
