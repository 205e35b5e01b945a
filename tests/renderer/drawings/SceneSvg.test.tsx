import { readFileSync } from 'node:fs';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, test, vi } from 'vitest';
import { cssName } from '../../../core/drawing/palette.ts';
import { SCENE_ROLES, type Scene } from '../../../core/drawing/scene.ts';
import { sheetTransform } from '../../../core/drawing/sceneView.ts';
import { sceneTouches } from '../../../core/drawing/touch.ts';
import { SceneSvg } from '../../../renderer/drawings/SceneSvg.tsx';
import { pathText } from '../../../renderer/drawings/ShapeSvg.tsx';
import { demoScenes } from '../../core/drawing/demoScenes.ts';
import { sceneTexts } from '../../core/drawing/sceneChecks.ts';

const scenes = demoScenes();

function scene(name: string): Scene {
  const found = scenes[name];
  if (found === undefined) throw new Error(`no scene ${name}`);
  return found;
}

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll("'", '&#x27;');

describe.each(Object.keys(scenes))('%s as SVG', (name) => {
  const svg = renderToStaticMarkup(<SceneSvg scene={scene(name)} />);

  test('has the sheet as its view box, a title and a description', () => {
    const { widthPt, heightPt } = scene(name).sheet;
    expect(svg).toContain(`viewBox="0 0 ${widthPt} ${heightPt}"`);
    expect(svg).toContain(`>${escaped(scene(name).title)}</title>`);
    expect(svg).toContain(`>${escaped(scene(name).description)}</desc>`);
    expect(svg).toMatch(/^<svg class="scene"[^>]* role="img"/);
  });

  test('writes every text of the scene, level: no text is turned or mirrored', () => {
    for (const { text } of sceneTexts(scene(name), sheetTransform(scene(name)))) {
      expect(svg).toContain(`>${escaped(text)}</text>`);
    }
    expect(svg).not.toMatch(/transform=|rotate|writing-mode/);
  });

  test('takes every colour from a class and nothing from a style attribute', () => {
    expect(svg).not.toMatch(/style=|#[0-9a-fA-F]{3,8}"|rgb\(|fill="|stroke="/);
    expect(svg).not.toContain('NaN');
  });
});

test('every class a shape can take has a rule, and the rule names a token', () => {
  const css = readFileSync('renderer/drawings/scene.css', 'utf8');
  for (const role of SCENE_ROLES) {
    for (const rule of [`fill-${cssName(role)}`, `fill-${cssName(role)}-pale`, `stroke-${cssName(role)}`]) {
      expect(css).toContain(`.scene-${rule} {`);
    }
  }
  expect(css).not.toMatch(/#[0-9a-fA-F]{3,8}\b/);
  expect(css).toMatch(/prefers-reduced-motion: reduce\) \{\s*\.scene-pulse \{\s*animation: none/);
});

describe('touching', () => {
  const plan = scene('plan-nothing');
  const touches = sceneTouches(plan, sheetTransform(plan));
  const svg = renderToStaticMarkup(
    <SceneSvg scene={plan} selected="drop.FL" onPick={vi.fn<(pick: string) => void>()} />,
  );

  test('is by real buttons of 48 px, each with its name, in walking order', () => {
    expect(svg).toMatch(/^<svg class="scene"[^>]* role="group"/);
    const picks = [...svg.matchAll(/data-pick="([^"]+)"/g)].map((match) => match[1]);
    expect(picks).toEqual(touches.map((touch) => touch.pick));
    expect(picks[0]).toBe('drop.FL');
    expect(svg.match(/<button type="button"/g)).toHaveLength(touches.length);
    expect(svg.match(/width="48" height="48"/g)).toHaveLength(touches.length);
    for (const touch of touches) expect(svg).toContain(`aria-label="${escaped(touch.label)}"`);
  });

  test('says which one is open', () => {
    expect(svg.match(/aria-pressed="true"/g)).toHaveLength(1);
    expect(svg).toMatch(/aria-pressed="true" data-pick="drop.FL"/);
  });

  test('is not there when nothing can be picked', () => {
    expect(renderToStaticMarkup(<SceneSvg scene={plan} />)).not.toContain('<button');
  });

  test('the next reading alone pulses', () => {
    expect(svg.match(/class="scene-pulse"/g)).toHaveLength(2);
    expect(renderToStaticMarkup(<SceneSvg scene={scene('plan-paper')} />)).not.toContain('scene-pulse');
  });
});

test('the view can be turned without composing anew', () => {
  const plan = scene('plan-turn');
  const asIStand = renderToStaticMarkup(<SceneSvg scene={plan} />);
  const carUp = renderToStaticMarkup(<SceneSvg scene={plan} view="carUp" />);
  const x = (svg: string, words: string): number =>
    Number(new RegExp(`<text[^>]* x="([\\d.]+)"[^>]*>${words}</text>`).exec(svg)?.[1]);
  // "car's left" under the fixture: on the viewer's right-hand side, and on the other one with the car up.
  const { widthPt } = plan.sheet;
  expect(x(asIStand, 'car&#x27;s left')).toBeCloseTo(widthPt - x(carUp, 'car&#x27;s left'), 1);
  expect(x(asIStand, 'car&#x27;s left')).toBeGreaterThan(x(asIStand, 'car&#x27;s right'));
  expect(x(carUp, 'car&#x27;s left')).toBeLessThan(x(carUp, 'car&#x27;s right'));
});

test('paths are written to a hundredth of a point', () => {
  expect(
    pathText([
      { command: 'move', to: { xPt: 1.23456, yPt: -2 } },
      { command: 'line', to: { xPt: 0.005, yPt: 7.999 } },
      {
        command: 'cubic',
        control1: { xPt: 1, yPt: 2 },
        control2: { xPt: 3, yPt: 4 },
        to: { xPt: 5, yPt: 6 },
      },
      { command: 'close' },
    ]),
  ).toBe('M1.23 -2L0.01 8C1 2 3 4 5 6Z');
});
