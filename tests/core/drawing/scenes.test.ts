import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { planScene } from '../../../core/drawing/plan.ts';
import { sheetTransform } from '../../../core/drawing/sceneView.ts';
import { itemShapes } from '../../../core/drawing/shapes.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { answerFor, DEMO_PLANS } from './demoPlans.ts';
import { demoScenes } from './demoScenes.ts';
import { offSheet, sceneTexts, textClashes } from './sceneChecks.ts';

const SCENES = Object.entries(demoScenes());

test('there is a drawing for every situation', () => {
  expect(SCENES.length).toBeGreaterThanOrEqual(18);
});

describe.each(SCENES)('%s', (name, scene) => {
  test('lies wholly on its sheet', () => {
    expect(offSheet(scene)).toEqual([]);
  });

  test('has no label over another', () => {
    expect(textClashes(scene)).toEqual([]);
  });

  test('and neither when the view is turned by half a turn', () => {
    if (scene.view === 'level' || scene.viewerAt !== 'ahead') return;
    const other = scene.view === 'carUp' ? 'asIStand' : 'carUp';
    expect(textClashes(scene, other)).toEqual([]);
    expect(offSheet(scene, other)).toEqual([]);
  });

  test('says nothing that depends on where the reader stands, and no signed number', () => {
    const transform = sheetTransform(scene);
    const words = [scene.title, scene.description, ...sceneTexts(scene, transform).map((text) => text.text)];
    for (const text of words) expect(wordFaults(text)).toEqual([]);
    for (const item of scene.items) {
      if (item.pick !== undefined) expect(item.pickLabel ?? '').toMatch(/\p{L}{2}/u);
    }
  });

  test('comes out the same every time, as plain JSON', () => {
    const again = demoScenes()[name];
    expect(JSON.stringify(again)).toBe(JSON.stringify(scene));
    const text = JSON.stringify(scene);
    expect(text).not.toContain('null');
    expect(JSON.stringify(JSON.parse(text))).toBe(text);
  });

  test('keeps its text readable: 14 px on the screen, 7 points on paper', () => {
    const least = scene.sheet.widthPt > 600 || name.startsWith('bar') ? 14 : 7;
    for (const text of sceneTexts(scene, sheetTransform(scene))) {
      expect(text.sizePt).toBeGreaterThanOrEqual(least);
    }
  });
});

describe('whatever the fixture does (seed 20261125)', () => {
  const base = DEMO_PLANS.turn;
  const deviation = fc.record({
    aheadMm: fc.double({ min: -400, max: 400, noNaN: true }),
    leftMm: fc.double({ min: -400, max: 400, noNaN: true }),
    yawRad: fc.double({ min: -0.12, max: 0.12, noNaN: true }),
    upMm: fc.constant(0),
    pitchRad: fc.constant(0),
    uAheadMm: fc.double({ min: 0.2, max: 12, noNaN: true }),
    uLeftMm: fc.double({ min: 0.2, max: 12, noNaN: true }),
    correlation: fc.double({ min: -0.95, max: 0.95, noNaN: true }),
  });

  test('the plan stays on its sheet with finite places', () => {
    if (base === undefined) throw new Error('the demo plan exists');
    fc.assert(
      fc.property(deviation, (demo) => {
        const scene = planScene({ ...base, answer: answerFor(demo, []) });
        const transform = sheetTransform(scene);
        expect(offSheet(scene)).toEqual([]);
        expect(textClashes(scene)).toEqual([]);
        for (const item of scene.items) {
          expect(JSON.stringify(itemShapes(item, transform))).not.toContain('null');
        }
      }),
      { seed: 20261125, numRuns: 150 },
    );
  });
});
