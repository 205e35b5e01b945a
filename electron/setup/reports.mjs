// Adding up what the runners reported. A runner that left no report has failed: silence is never a pass.
import { existsSync, readFileSync } from 'node:fs';

/** @typedef {{ passed: number, failed: number, skipped: number }} Totals */

/**
 * A vitest JSON report. A file that could not be loaded has no tests in it: it counts as one failure.
 * @param {any} report
 * @returns {Totals}
 */
export function vitestTotals(report) {
  const broken = report.testResults.filter(
    (/** @type {any} */ file) => file.status === 'failed' && file.assertionResults.length === 0,
  );
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + broken.length,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

/**
 * A Playwright JSON report. Flaky counts as failed: there are no retries, so there should be none.
 * @param {any} report
 * @returns {Totals}
 */
export function playwrightTotals(report) {
  const { expected, unexpected, flaky, skipped } = report.stats;
  return { passed: expected, failed: unexpected + flaky + report.errors.length, skipped };
}

/**
 * One runner's totals from its report and its exit code. A runner that ended badly without a failed test (an
 * unhandled error, a crash after the last test) has one failure.
 * @param {string} file
 * @param {number} exitCode
 * @param {(report: any) => Totals} read
 * @returns {Totals}
 */
export function runnerTotals(file, exitCode, read) {
  if (!existsSync(file)) return { passed: 0, failed: 1, skipped: 0 };
  try {
    const totals = read(JSON.parse(readFileSync(file, 'utf8')));
    if (!Object.values(totals).every(Number.isInteger)) return { passed: 0, failed: 1, skipped: 0 };
    return exitCode !== 0 && totals.failed === 0 ? { ...totals, failed: 1 } : totals;
  } catch {
    return { passed: 0, failed: 1, skipped: 0 };
  }
}

/** @param {readonly Totals[]} parts @returns {Totals} */
export function sum(parts) {
  const total = { passed: 0, failed: 0, skipped: 0 };
  for (const part of parts) {
    total.passed += part.passed;
    total.failed += part.failed;
    total.skipped += part.skipped;
  }
  return total;
}

/** @param {Totals} totals */
export function lastLine({ passed, failed, skipped }) {
  return `${passed} passed, ${failed} failed, ${skipped} skipped`;
}

/**
 * Why the run is not good, empty when it is.
 * @param {Totals} totals
 * @param {number} floor the number of passed tests below which some were lost
 * @returns {string[]}
 */
export function complaints({ passed, failed, skipped }, floor) {
  const list = [];
  if (failed > 0) list.push(`${failed} failed`);
  if (skipped > 0) list.push(`${skipped} skipped: a missing tool is a failure, never a skip`);
  if (!Number.isInteger(floor) || floor < 1) list.push(`tests/floor.json does not name a number: ${floor}`);
  else if (passed < floor) list.push(`${passed} passed, but tests/floor.json says at least ${floor}`);
  return list;
}
