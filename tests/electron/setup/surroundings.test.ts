// Small decisions of the set-up that depend on the machine.
import { describe, expect, test } from 'vitest';
import { hasDisplay } from '../../../electron/setup/display.mjs';
import { pathWithoutProject, pathWithPinnedNode } from '../../../electron/setup/paths.mjs';
import { sandboxArguments } from '../../../electron/setup/sandbox.mjs';

describe('a display', () => {
  test('on Linux there is one when X or Wayland says so', () => {
    expect(hasDisplay({}, 'linux')).toBe(false);
    expect(hasDisplay({ DISPLAY: '', WAYLAND_DISPLAY: '' }, 'linux')).toBe(false);
    expect(hasDisplay({ DISPLAY: ':0' }, 'linux')).toBe(true);
    expect(hasDisplay({ WAYLAND_DISPLAY: 'wayland-0' }, 'linux')).toBe(true);
  });

  test('elsewhere there always is', () => {
    expect(hasDisplay({}, 'win32')).toBe(true);
    expect(hasDisplay({}, 'darwin')).toBe(true);
  });
});

describe('the sandbox', () => {
  test('is given up for root and for nobody else', () => {
    expect(sandboxArguments(0)).toEqual(['--no-sandbox']);
    expect(sandboxArguments(1000)).toEqual([]);
  });
});

describe('PATH', () => {
  test('npm ci sees no Node of the project', () => {
    expect(pathWithoutProject('/p/node_modules/.bin:/usr/bin:/p/node_modules/x/bin:/bin')).toBe(
      '/usr/bin:/bin',
    );
  });

  test('everything else sees the pinned Node first, once', () => {
    const once = pathWithPinnedNode('/usr/bin:/bin');
    expect(once).toMatch(/node_modules\/\.bin:\/usr\/bin:\/bin$/);
    expect(pathWithPinnedNode(once)).toBe(once);
  });
});
