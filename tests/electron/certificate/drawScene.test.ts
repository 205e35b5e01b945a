import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import PDFDocument from 'pdfkit';
import { afterAll, describe, expect, test } from 'vitest';
import { PALETTE, rgbOfHex } from '../../../core/drawing/palette.ts';
import type { Scene } from '../../../core/drawing/scene.ts';
import { sheetTransform } from '../../../core/drawing/sceneView.ts';
import { sceneShapes } from '../../../core/drawing/shapes.ts';
import { drawScene, type PaperBox } from '../../../electron/service/certificate/drawScene.ts';
import { demoScenes } from '../../core/drawing/demoScenes.ts';
import { sceneTexts } from '../../core/drawing/sceneChecks.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'scene-'));
afterAll(() => rmSync(folder, { recursive: true }));

const scenes = demoScenes();
function scene(name: string): Scene {
  const found = scenes[name];
  if (found === undefined) throw new Error(`no scene ${name}`);
  return found;
}

async function onPaper(drawn: Scene, box: PaperBox): Promise<Buffer> {
  const doc = new PDFDocument({
    size: 'A4',
    margin: 0,
    compress: false,
    // Identity and subset names of a file follow from its date.
    info: { CreationDate: new Date(0) },
  });
  const chunks: Buffer[] = [];
  const done = new Promise<Buffer>((resolve) => {
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
  });
  doc.registerFont('regular', readFileSync('assets/fonts/DejaVuSans.ttf'));
  doc.registerFont('bold', readFileSync('assets/fonts/DejaVuSans-Bold.ttf'));
  drawScene(doc, drawn, box);
  doc.end();
  return done;
}

const box = { x: 42, y: 60, width: (180 * 72) / 25.4, height: (150 * 72) / 25.4 };
const name = 'plan-paperOff';

describe('a scene on paper', () => {
  test('prints every text of the scene, and nothing more', async () => {
    const file = path.join(folder, 'plan.pdf');
    writeFileSync(file, await onPaper(scene(name), box));
    const printed = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
    const wanted = sceneTexts(scene(name), sheetTransform(scene(name))).map((text) => text.text);
    for (const text of wanted) expect(printed).toContain(text);
    const letters = (text: string): string => [...text.replace(/\s/g, '')].sort().join('');
    expect(letters(printed)).toBe(letters(wanted.join('')));
  });

  test('is all vectors: no picture, no transparency', async () => {
    const pdf = (await onPaper(scene(name), box)).toString('latin1');
    expect(pdf).not.toMatch(/\/Subtype \/Image|\/SMask|\/ca [0-9]|\/CA [0-9]/);
    const strokes = sceneShapes(scene(name), sheetTransform(scene(name))).filter(
      (shape) => shape.kind === 'path' && shape.stroke !== undefined,
    );
    const drawn = pdf.match(/^(?:S|B)$/gm) ?? [];
    expect(drawn).toHaveLength(strokes.length);
  });

  test('is byte for byte the same each time', async () => {
    const first = await onPaper(scene(name), box);
    expect(first.equals(await onPaper(scene(name), box))).toBe(true);
  });

  test('uses the light palette and whole dash patterns', async () => {
    const pdf = (await onPaper(scene(name), box)).toString('latin1');
    const accent = rgbOfHex(PALETTE.light.accent).map((byte) => byte / 255);
    expect(pdf).toContain(`${accent.join(' ')} SCN`);
    expect(pdf).toContain('[14 3 2 3] 0 d');
    expect(pdf).toContain('[6 3.5] 0 d');
  });

  test('keeps the state of the page: dash off, graphics state balanced', async () => {
    const pdf = (await onPaper(scene(name), box)).toString('latin1');
    const content = pdf.slice(pdf.indexOf('stream'), pdf.indexOf('endstream'));
    expect((content.match(/^q$/gm) ?? []).length).toBe((content.match(/^Q$/gm) ?? []).length);
    expect(content.lastIndexOf('[] 0 d')).toBeGreaterThan(content.lastIndexOf('[6 3.5] 0 d'));
  });
});

describe('fitting a box', () => {
  const matrices = (pdf: Buffer): readonly number[][] =>
    [...pdf.toString('latin1').matchAll(/^([-\d.]+) 0 0 ([-\d.]+) ([-\d.]+) ([-\d.]+) cm$/gm)].map((match) =>
      match.slice(1).map(Number),
    );

  test('of its own size keeps the size of its text', async () => {
    const found = matrices(await onPaper(scene(name), box));
    expect(found).toContainEqual([1, 1, 42, 60]);
  });

  test('that is smaller scales it down evenly and centres it', async () => {
    const half = { x: 0, y: 0, width: box.width / 2, height: box.height };
    const found = matrices(await onPaper(scene(name), half));
    expect(found.some(([a, d]) => Math.abs((a ?? 0) - 0.5) < 1e-3 && a === d)).toBe(true);
    expect(found.some(([, , , f]) => Math.abs((f ?? 0) - box.height / 4) < 0.1)).toBe(true);
  });
});

test('without colour the two bars of the detail still differ: one thick and whole, one dashed', () => {
  const shapes = sceneShapes(scene(name), sheetTransform(scene(name)));
  const strokes = (role: string) =>
    shapes.flatMap((shape) => (shape.kind === 'path' && shape.stroke?.role === role ? [shape.stroke] : []));
  expect(
    strokes('accent')
      .filter((stroke) => stroke.widthPt > 2)
      .every((s) => s.dashPt.length === 0),
  ).toBe(true);
  expect(strokes('ink').filter((stroke) => stroke.dashPt.join() === '6,3.5').length).toBeGreaterThan(1);
  expect(strokes('ink').filter((stroke) => stroke.dashPt.join() === '6,3.5' && stroke.widthPt > 2)).toEqual(
    [],
  );
});
