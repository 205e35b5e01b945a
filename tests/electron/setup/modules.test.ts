import { describe, expect, test } from 'vitest';
import { isInstalled } from '../../../electron/setup/modules.mjs';

const locked = {
  packages: {
    '': { version: '0.1.0' },
    'node_modules/a': { version: '1.0.0' },
    'node_modules/a/node_modules/b': { version: '2.0.0' },
    'node_modules/b-win32': { version: '3.0.0', optional: true },
  },
};
const installed = {
  packages: { 'node_modules/a': { version: '1.0.0' }, 'node_modules/a/node_modules/b': { version: '2.0.0' } },
};

describe('whether node_modules is what the lock file says', () => {
  test('every locked package in its version; optional ones for other platforms may be absent', () => {
    expect(isInstalled(locked, installed)).toBe(true);
  });

  test('a missing package', () => {
    expect(isInstalled(locked, { packages: { 'node_modules/a': { version: '1.0.0' } } })).toBe(false);
  });

  test('another version, of a required or of an optional package', () => {
    const older = { packages: { ...installed.packages, 'node_modules/a': { version: '0.9.0' } } };
    const optional = { packages: { ...installed.packages, 'node_modules/b-win32': { version: '2.9.0' } } };
    expect(isInstalled(locked, older)).toBe(false);
    expect(isInstalled(locked, optional)).toBe(false);
  });

  test('an interrupted install has no list', () => {
    expect(isInstalled(locked, {})).toBe(false);
  });

  test('a lock file that locks nothing is not "installed"', () => {
    expect(isInstalled({}, installed)).toBe(false);
    expect(isInstalled({ packages: { '': {} } }, installed)).toBe(false);
  });
});
