import { expect, test } from 'vitest';
import { buildKind } from '../../../electron/main/buildKind.ts';
import { serviceEnvironment } from '../../../electron/main/serviceChild.ts';

test('the service gets its place and build, and nothing that would change its Node', () => {
  const env = {
    PATH: '/bin',
    TZ: 'Europe/Oslo',
    NODE_OPTIONS: '--require /tmp/evil.js',
    NODE_PATH: '/tmp',
    NODE_CHANNEL_FD: '3',
    ELECTRON_RUN_AS_NODE: '1',
    DATUMLINE_DATA: '/elsewhere',
  };
  expect(serviceEnvironment(env, { dataFolder: '/data', build: 'test build' })).toEqual({
    PATH: '/bin',
    TZ: 'Europe/Oslo',
    DATUMLINE_DATA: '/data',
    DATUMLINE_BUILD: 'test build',
  });
});

test('another Electron than the pinned one is a test build, packaged or not', () => {
  expect(buildKind('33.2.1', '45.3.4', false)).toBe('test build');
  expect(buildKind('33.2.1', '45.3.4', true)).toBe('test build');
  expect(buildKind('45.3.4', '45.3.4', false)).toBe('development');
  expect(buildKind('45.3.4', '45.3.4', true)).toBe('release');
});
