import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  contentSecurityPolicy,
  headersFor,
  injectedStyleHash,
  policyOf,
} from '../../../electron/main/headers.ts';

/** The style react-aria injects, put together from its installed source as the browser will see it. */
function injectedStyle(): string {
  const path = new URL(
    '../../../node_modules/react-aria/dist/private/interactions/usePress.mjs',
    import.meta.url,
  );
  const source = readFileSync(path, 'utf8');
  const [, template = ''] = /style\.textContent = `([\s\S]*?)`\.trim\(\)/.exec(source) ?? [];
  const [placeholder = '', name = ''] = /\$\{([^}]+)\}/.exec(template) ?? [];
  const [, value = ''] = new RegExp(`const ${name.replaceAll('$', '\\$')} = '([^']+)'`).exec(source) ?? [];
  return template.replace(placeholder, () => value).trim();
}

test('the one allowed style is the one the installed react-aria injects', () => {
  const style = injectedStyle();
  expect(style).toContain('touch-action: pan-x pan-y pinch-zoom');
  expect(`sha256-${createHash('sha256').update(style).digest('base64')}`).toBe(injectedStyleHash);
});

test('the policy starts from nothing and allows nothing inline and no evaluation', () => {
  expect(contentSecurityPolicy.startsWith("default-src 'none'; ")).toBe(true);
  expect(contentSecurityPolicy).not.toMatch(/unsafe|\*|http|data:/);
  const blob = contentSecurityPolicy.split('; ').filter((part) => part.includes('blob:'));
  expect(blob).toEqual(["img-src 'self' blob:"]);
});

test('every answer has the policy and is not guessed at', () => {
  const headers = headersFor('text/plain', { 'Cache-Control': 'no-store' });
  expect(headers.get('content-security-policy')).toBe(contentSecurityPolicy);
  expect(headers.get('x-content-type-options')).toBe('nosniff');
  expect(headers.get('content-type')).toBe('text/plain');
  expect(headers.get('cache-control')).toBe('no-store');
});

test('one script may compile WebAssembly, by its exact place, and may do nothing else more', () => {
  const own = policyOf('/assets/scanWorker-B1x_9-aZ.js');
  expect(own).toContain("script-src 'self' 'wasm-unsafe-eval';");
  expect(own.replace(" 'wasm-unsafe-eval'", '')).toBe(contentSecurityPolicy);
  for (const path of [
    '/index.html',
    '/assets/index-B1x.js',
    '/scanWorker-B1x.js',
    '/assets/scanWorker-B1x.js.map',
    '/assets/../assets/scanWorker-B1x.js/x',
    '/file/scanWorker-B1x.js',
  ]) {
    expect(policyOf(path)).toBe(contentSecurityPolicy);
  }
});
