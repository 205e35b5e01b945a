/**
 * Writes every demo drawing as a file of its own, to be looked at: `node tests/renderer/drawings/look.ts [theme]`.
 * The files go to tests/output/drawings; turn one into a picture with `rsvg-convert NAME.svg -o NAME.png`.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { paletteCss, type Theme } from '../../../core/drawing/palette.ts';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../../..');
const output = path.join(root, 'tests/output/drawings');

/** SVG text by name, rendered by the window's own component. */
async function renderAll(): Promise<Readonly<Record<string, string>>> {
  const bundle = await build({
    stdin: {
      contents: `
        import { createElement } from 'react';
        import { renderToStaticMarkup } from 'react-dom/server';
        import { SceneSvg } from './renderer/drawings/SceneSvg.tsx';
        import { demoScenes } from './tests/core/drawing/demoScenes.ts';
        export const drawings = Object.fromEntries(Object.entries(demoScenes()).map(([name, scene]) =>
          [name, { sheet: scene.sheet, svg: renderToStaticMarkup(createElement(SceneSvg, { scene })) }]));
      `,
      resolveDir: root,
      loader: 'tsx',
    },
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'node',
    jsx: 'automatic',
    loader: { '.css': 'empty' },
    logLevel: 'silent',
  });
  const code = bundle.outputFiles[0]?.text ?? '';
  const module: { exports: { drawings?: Record<string, { svg: string }> } } = { exports: {} };
  new Function('module', 'exports', 'require', code)(module, module.exports, createRequire(import.meta.url));
  return Object.fromEntries(
    Object.entries(module.exports.drawings ?? {}).map(([name, drawing]) => [name, drawing.svg]),
  );
}

/** Style rules with every token replaced by its colour, for viewers that know no custom properties. */
function plainCss(theme: Theme): string {
  const tokens = new Map(
    [...paletteCss(theme).matchAll(/(--[\w-]+): ([^;]+);/g)].map((match) => [match[1], match[2]]),
  );
  const css = readFileSync(path.join(root, 'renderer/drawings/scene.css'), 'utf8');
  return css
    .replace(/var\(--font\)/g, "'DejaVu Sans'")
    .replace(/var\((--[\w-]+)\)/g, (_whole, name: string) => tokens.get(name) ?? '0');
}

const theme: Theme = process.argv[2] === 'dark' ? 'dark' : 'light';
mkdirSync(output, { recursive: true });
for (const [name, svg] of Object.entries(await renderAll())) {
  const size = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg);
  const sized = svg.replace(
    '<svg ',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${size?.[1]}" height="${size?.[2]}" `,
  );
  const styled = sized.replace('<title', `<style>${plainCss(theme)}</style><title`);
  writeFileSync(path.join(output, `${name}${theme === 'dark' ? '-dark' : ''}.svg`), styled);
}
