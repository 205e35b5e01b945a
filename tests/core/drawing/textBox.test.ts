import { readFileSync } from 'node:fs';
import PDFDocument from 'pdfkit';
import { describe, expect, test } from 'vitest';
import type { TextAlign, TextRise } from '../../../core/drawing/scene.ts';
import { sheetTransform } from '../../../core/drawing/sceneView.ts';
import { boxesOverlap, textBox } from '../../../core/drawing/textBox.ts';
import { textShapes } from '../../../core/drawing/textShapes.ts';
import { textWidthPt } from '../../../core/drawing/textSize.ts';

const sheet = { widthPt: 200, heightPt: 100 };
const bounds = { minXMm: 0, minYMm: 0, maxXMm: 200, maxYMm: 100 };
const level = sheetTransform({ view: 'level', viewerAt: 'ahead', bounds, sheet });
const plan = { view: 'asIStand', viewerAt: 'ahead', bounds, sheet } as const;

describe('widths of texts against the font itself', () => {
  const doc = new PDFDocument();
  doc.registerFont('regular', readFileSync('assets/fonts/DejaVuSans.ttf'));
  doc.registerFont('bold', readFileSync('assets/fonts/DejaVuSans-Bold.ttf'));
  const samples = [
    "turned 0.21°, car's-left end away from the car",
    'Target centre, 80 × the plan; one square 5 mm',
    'thrust line 0,12°, drawn × 20',
    '2712.4 mm',
    '0123456789 (±) – — … → ·',
    'AVATAR To. Wa',
  ];

  test.each(samples)('%s', (text) => {
    for (const bold of [false, true]) {
      doc.font(bold ? 'bold' : 'regular').fontSize(14);
      // One sign at a time, so that no pair is kerned.
      const measured = [...text].reduce((sum, each) => sum + doc.widthOfString(each), 0);
      expect(textWidthPt(text, 14, bold)).toBeCloseTo(measured, 6);
    }
  });

  test('kerning only ever makes the words of a drawing narrower, by at most a fiftieth', () => {
    for (const text of samples.slice(0, 5)) {
      doc.font('regular').fontSize(14);
      const kerned = doc.widthOfString(text);
      expect(kerned).toBeLessThanOrEqual(textWidthPt(text, 14, false) + 1e-9);
      expect(kerned).toBeGreaterThan(textWidthPt(text, 14, false) * 0.98);
    }
  });

  test('a sign that no table holds counts a full em, never nothing', () => {
    expect(textWidthPt('\u4e00', 10, false)).toBe(10);
    expect(textWidthPt('', 10, true)).toBe(0);
  });
});

describe('the room of a text', () => {
  const text = (align: TextAlign, rise: TextRise) => ({
    at: { xMm: 100, yMm: 50 },
    text: 'wide text',
    sizePt: 10,
    bold: false,
    align,
    rise,
  });

  test('lies to the side it was asked for', () => {
    const width = textWidthPt('wide text', 10, false);
    expect(textBox(text('start', 'middle'), level).minXPt).toBe(100);
    expect(textBox(text('end', 'middle'), level).maxXPt).toBeCloseTo(100, 9);
    expect(textBox(text('middle', 'middle'), level).minXPt).toBeCloseTo(100 - width / 2, 9);
    expect(textBox(text('start', 'above'), level).maxYPt).toBe(50);
    expect(textBox(text('start', 'below'), level).minYPt).toBe(50);
  });

  test('has its baseline inside, with room for tails', () => {
    for (const rise of ['above', 'middle', 'below'] as const) {
      const box = textBox(text('start', rise), level);
      expect(box.baselinePt).toBeLessThan(box.maxYPt - 2);
      expect(box.baselinePt).toBeGreaterThan(box.minYPt + 7);
    }
  });

  test('turns by half a turn with what it names, and stays level', () => {
    const composed = sheetTransform(plan);
    const turned = sheetTransform(plan, 'carUp');
    for (const align of ['start', 'middle', 'end'] as const) {
      for (const rise of ['above', 'middle', 'below'] as const) {
        const before = textBox(text(align, rise), composed);
        const after = textBox(text(align, rise), turned);
        expect(after.minXPt).toBeCloseTo(sheet.widthPt - before.maxXPt, 9);
        expect(after.maxYPt).toBeCloseTo(sheet.heightPt - before.minYPt, 9);
        expect(after.baselinePt).toBeLessThan(after.maxYPt);
      }
    }
  });

  test('a masked text clears its room first and writes on it', () => {
    const shapes = textShapes(
      { kind: 'text', ...text('middle', 'middle'), role: 'ink', masked: true },
      level,
    );
    expect(shapes.map((shape) => shape.kind)).toEqual(['path', 'text']);
    expect(shapes[0]).toMatchObject({ fill: { role: 'sheet', tone: 'full' } });
  });
});

describe('overlap of two boxes', () => {
  const box = (minXPt: number, minYPt: number, maxXPt: number, maxYPt: number) => ({
    minXPt,
    minYPt,
    maxXPt,
    maxYPt,
  });

  test('is told from touching and from being apart', () => {
    expect(boxesOverlap(box(0, 0, 10, 10), box(9, 9, 20, 20))).toBe(true);
    expect(boxesOverlap(box(0, 0, 10, 10), box(10, 0, 20, 10))).toBe(false);
    expect(boxesOverlap(box(0, 0, 10, 10), box(10, 0, 20, 10), 1)).toBe(true);
    expect(boxesOverlap(box(0, 0, 10, 10), box(0, 11, 10, 20))).toBe(false);
  });
});
