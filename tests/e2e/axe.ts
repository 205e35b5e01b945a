// The accessibility engine, put into the page once per load: its builder for test runners sends it anew with every
// question, which costs more than all the answers.
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from '@playwright/test';
import type { AxeResults, RunOptions } from 'axe-core';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

declare global {
  interface Window {
    readonly axe?: { run(context: unknown, options: RunOptions): Promise<AxeResults> };
  }
}

/** Each violation with its places, short enough to be read in a report. The stored PDF is Chromium's to draw, not ours. */
async function run(page: Page, options: RunOptions): Promise<readonly string[]> {
  if (!(await page.evaluate(() => window.axe !== undefined))) await page.evaluate(source);
  return page.evaluate(async (asked) => {
    const found = await window.axe?.run({ exclude: ['iframe'] }, { ...asked, resultTypes: ['violations'] });
    if (found === undefined) throw new Error('the engine is not in the page');
    return found.violations.flatMap((each) =>
      each.nodes.map((node) => `${each.id} at ${node.target.join(' ')}: ${node.html.slice(0, 160)}`),
    );
  }, options);
}

export function violations(page: Page): Promise<readonly string[]> {
  return run(page, {});
}

/** The contrast of colours alone: all that another theme can change on the same page. */
export function contrastViolations(page: Page): Promise<readonly string[]> {
  return run(page, { runOnly: ['color-contrast'] });
}
