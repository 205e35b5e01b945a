import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  complaints,
  lastLine,
  playwrightTotals,
  runnerTotals,
  sum,
  vitestTotals,
} from '../../../electron/setup/reports.mjs';

const vitest = {
  numPassedTests: 10,
  numFailedTests: 1,
  numPendingTests: 2,
  numTodoTests: 3,
  testResults: [
    { status: 'passed', assertionResults: [{}] },
    { status: 'failed', assertionResults: [{}] },
    { status: 'failed', assertionResults: [] },
  ],
};

const playwright = { stats: { expected: 4, unexpected: 1, flaky: 1, skipped: 2 }, errors: [{}] };

let folder = '';
const write = (content: string) => {
  const file = join(folder, `${Math.random()}.json`);
  writeFileSync(file, content);
  return file;
};
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'reports-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('one runner', () => {
  test('vitest: a file that could not be loaded is a failure, todo is a skip', () => {
    expect(vitestTotals(vitest)).toEqual({ passed: 10, failed: 2, skipped: 5 });
  });

  test('Playwright: flaky and errors outside tests are failures', () => {
    expect(playwrightTotals(playwright)).toEqual({ passed: 4, failed: 3, skipped: 2 });
  });

  test('its report is read', () => {
    expect(runnerTotals(write(JSON.stringify(playwright)), 1, playwrightTotals).passed).toBe(4);
  });

  const oneFailure = { passed: 0, failed: 1, skipped: 0 };
  test('no report is a failure, whatever the exit code', () => {
    expect(runnerTotals(join(folder, 'none.json'), 0, vitestTotals)).toEqual(oneFailure);
  });

  test.each(['', '{', '{}', '[]', '{"stats":{},"errors":[]}'])(
    'a report that is not one is a failure: %s',
    (text) => {
      expect(runnerTotals(write(text), 0, playwrightTotals)).toEqual(oneFailure);
    },
  );

  test('a bad end without a failed test is a failure', () => {
    const good = { stats: { expected: 4, unexpected: 0, flaky: 0, skipped: 0 }, errors: [] };
    expect(runnerTotals(write(JSON.stringify(good)), 1, playwrightTotals)).toEqual({
      passed: 4,
      failed: 1,
      skipped: 0,
    });
    expect(runnerTotals(write(JSON.stringify(good)), 0, playwrightTotals)).toEqual({
      passed: 4,
      failed: 0,
      skipped: 0,
    });
  });
});

describe('the whole run', () => {
  test('adds up and prints the last line', () => {
    const total = sum([vitestTotals(vitest), playwrightTotals(playwright)]);
    expect(total).toEqual({ passed: 14, failed: 5, skipped: 7 });
    expect(lastLine(total)).toBe('14 passed, 5 failed, 7 skipped');
  });

  test('nothing to complain about', () => {
    expect(complaints({ passed: 14, failed: 0, skipped: 0 }, 14)).toEqual([]);
  });

  test.each([
    [{ passed: 14, failed: 1, skipped: 0 }, 14, '1 failed'],
    [{ passed: 14, failed: 0, skipped: 1 }, 14, '1 skipped'],
    [{ passed: 13, failed: 0, skipped: 0 }, 14, 'at least 14'],
    [{ passed: 14, failed: 0, skipped: 0 }, Number.NaN, 'does not name a number'],
    [{ passed: 14, failed: 0, skipped: 0 }, 0, 'does not name a number'],
  ])('%j with floor %d is not good', (totals, floor, why) => {
    expect(complaints(totals, floor)).toEqual([expect.stringContaining(why)]);
  });
});
