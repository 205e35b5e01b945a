/** The results of the last full runs, as they stand in the repository: complete, and without a problem. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';

type Result = {
  readonly commit: string;
  readonly seed: number;
  readonly counts: Readonly<Record<string, number>>;
  readonly problems: readonly string[];
};

function resultOf(name: string): Result {
  const path = join('tests', 'results', `${name}.json`);
  if (!existsSync(path)) throw new Error(`no result of ${name}: npm run faults -- --only ${name}`);
  return JSON.parse(readFileSync(path, 'utf8'));
}

describe('the last full run of', () => {
  test.each([
    ['kill-service', 'kills', 200],
    ['kill-journal', 'kills', 60],
    ['power-loss', 'cuts', 100],
    ['power-loss-not-flushed', 'cuts', 100],
    ['full-disk', 'fullDisks', 20],
    ['two-writers', 'pairs', 10],
    ['kill-window', 'kills', 20],
  ])('%s had no problem and at least %s = %i', (name, count, least) => {
    const result = resultOf(name);
    expect(result.problems).toEqual([]);
    expect(result.counts[count]).toBeGreaterThanOrEqual(least);
    expect(result.commit).toMatch(/^[0-9a-f]{40}$/);
  });

  test('power-loss lost nothing, and without flushing most cuts lost something', () => {
    expect(resultOf('power-loss').counts.badImages).toBe(0);
    const { badImages = 0, images = 0 } = resultOf('power-loss-not-flushed').counts;
    expect(badImages).toBeGreaterThan(images / 2);
  });

  test.each(['kill-service', 'kill-journal'])(
    '%s judged most drafts, and killed between commit and answer',
    (name) => {
      const { draftsDue = 0, draftsNotJudged = 0, recordedUnanswered = 0, kills = 0 } = resultOf(name).counts;
      expect(draftsNotJudged).toBeLessThanOrEqual(0.1 * draftsDue);
      expect(recordedUnanswered).toBeGreaterThanOrEqual(Math.floor(kills / 3) - 20);
    },
  );

  test('kill-window judged nearly every draft, and met commands that were recorded before anybody saw it', () => {
    const {
      draftsLooked = 0,
      draftsNotJudged = 0,
      recordedUnseen = 0,
      entries = 0,
    } = resultOf('kill-window').counts;
    expect(draftsLooked).toBeGreaterThanOrEqual(20);
    expect(draftsNotJudged).toBeLessThanOrEqual(0.1 * draftsLooked);
    expect(recordedUnseen).toBeGreaterThan(0);
    expect(entries).toBeGreaterThanOrEqual(40);
  });
});
