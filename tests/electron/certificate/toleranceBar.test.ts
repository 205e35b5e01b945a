/** The picture is the rule: the box of the bar lies between the ticks exactly when the verdict is *proven*. */
import { expect, test } from 'vitest';
import type { ToleranceBar, VerdictRow } from '../../../core/certificate/document.ts';
import { invariant } from '../../../core/result.ts';
import {
  type Operation,
  operationsOf,
  pagesOf,
} from '../../../electron/service/certificate/check/pageContent.ts';
import { openPdfFile } from '../../../electron/service/certificate/file/pdfFile.ts';
import { sampleDocument } from './sampleDocument.ts';
import { seededRandom } from './seededRandom.ts';
import { render } from './signedSample.ts';

const sample = sampleDocument().sections.flatMap((section) =>
  section.blocks.flatMap((block) => (block.block === 'verdicts' ? [block] : [])),
)[0];
invariant(sample !== undefined, 'the sample has verdicts');
const [sampleRow] = sample.rows;
invariant(sampleRow !== undefined, 'the sample has a row');

interface DrawnBar {
  /** Left and right edge of the box. */
  readonly box: readonly [number, number];
  readonly ticks: readonly number[];
}

const boxHeight = 9;
const tickWidth = 1.2;

/** Boxes and ticks in drawing order: a bar's box comes before its ticks. */
function drawnBars(operations: readonly Operation[]): readonly DrawnBar[] {
  const bars: { box: readonly [number, number]; ticks: number[] }[] = [];
  let lineWidth = 0;
  let from = 0;
  for (const { operator, operands } of operations) {
    const [a = 0, b = 0, c = 0, d = 0] = operands.map((each) => (each.type === 'number' ? each.value : 0));
    if (operator === 'w') lineWidth = a;
    if (operator === 'm') from = a;
    if (operator === 're' && d === boxHeight && bars.at(-1)?.box[0] !== a)
      bars.push({ box: [a, a + c], ticks: [] });
    if (operator === 'l' && lineWidth === tickWidth && a === from && b > 0) bars.at(-1)?.ticks.push(a);
  }
  return bars;
}

test('over 60 random decisions, on both sides of the limits (seed 3)', async () => {
  const random = seededRandom(3);
  const decisions = Array.from({ length: 60 }, () => {
    const tolerance = 1 + random(100) / 10;
    const found = (tolerance * (random(300) - 150)) / 100;
    const guard = (tolerance * (1 + random(80))) / 100;
    return { tolerance, found, guard };
  });
  const rows = decisions.map(({ tolerance, found, guard }): VerdictRow => {
    const bar: ToleranceBar = { lower: -tolerance, upper: tolerance, found, boxHalfWidth: guard };
    return { ...sampleRow, label: 'x', deviation: 'd', verdictText: 'v', probability: 'p', bar };
  });
  const block = { ...sample, rows };
  const bytes = await render({ ...sampleDocument(), sections: [{ heading: 'h', blocks: [block] }] });
  const file = openPdfFile(bytes);
  invariant(file.ok, 'the file opens');
  const bars = pagesOf(file.value).flatMap((page) => drawnBars(operationsOf(file.value, page)));
  expect(bars).toHaveLength(decisions.length);
  let proven = 0;
  decisions.forEach(({ tolerance, found, guard }, index) => {
    const bar = bars[index] ?? expect.fail('no bar');
    const [lower = 0, upper = 0] = bar.ticks;
    expect(bar.ticks).toHaveLength(2);
    const inside = bar.box[0] >= lower && bar.box[1] <= upper;
    const isProven = Math.abs(found) + guard <= tolerance;
    if (isProven) proven++;
    expect(inside, JSON.stringify({ tolerance, found, guard })).toBe(isProven);
  });
  expect(proven).toBeGreaterThan(10);
  expect(proven).toBeLessThan(50);
});
