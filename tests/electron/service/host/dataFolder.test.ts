import { expect, test } from 'vitest';
import { dataFolder } from '../../../../electron/service/host/dataFolder.ts';
import { surroundingsFrom } from '../../../../electron/service/host/surroundings.ts';

test('the named folder comes first, on every system', () => {
  expect(dataFolder({ DATUMLINE_DATA: '/bay/data' }, 'linux', '/home/a')).toBe('/bay/data');
  expect(dataFolder({ DATUMLINE_DATA: 'D:\\bay', APPDATA: 'C:\\x' }, 'win32', 'C:\\Users\\a')).toBe(
    'D:\\bay',
  );
});

test('else the place of application data', () => {
  expect(dataFolder({}, 'linux', '/home/a')).toBe('/home/a/.config/Datumline');
  expect(dataFolder({ XDG_CONFIG_HOME: '/cfg' }, 'linux', '/home/a')).toBe('/cfg/Datumline');
  expect(dataFolder({}, 'darwin', '/Users/a')).toBe('/Users/a/Library/Application Support/Datumline');
  expect(dataFolder({ APPDATA: 'C:\\R' }, 'win32', 'C:\\Users\\a')).toBe('C:\\R\\Datumline');
  expect(dataFolder({}, 'win32', 'C:\\Users\\a')).toBe('C:\\Users\\a\\AppData\\Roaming\\Datumline');
});

test('an empty variable is no folder', () => {
  expect(dataFolder({ DATUMLINE_DATA: '', XDG_CONFIG_HOME: '' }, 'linux', '/home/a')).toBe(
    '/home/a/.config/Datumline',
  );
});

test('the build kind is one of three, and a development build unless it is said otherwise', () => {
  expect(surroundingsFrom({ DATUMLINE_BUILD: 'test build' }).build).toBe('test build');
  expect(surroundingsFrom({ DATUMLINE_BUILD: 'anything' }).build).toBe('development');
  expect(surroundingsFrom({}).version).toMatch(/^\d+\.\d+\.\d+$/);
});
