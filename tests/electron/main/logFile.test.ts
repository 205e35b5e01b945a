import { closeSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { openLog } from '../../../electron/main/logFile.ts';

let folder = '';
const path = () => join(folder, 'logs', 'service.log');
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'log-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

test('lines are added to what is there', () => {
  for (const text of ['one', 'two']) {
    const log = openLog(folder);
    log.write(text);
    closeSync(log.descriptor);
  }
  expect(readFileSync(path(), 'utf8')).toMatch(/^\S+Z main: one\n\S+Z main: two\n$/);
});

test('a large one is put aside once, so there are never more than two', () => {
  for (const mark of ['first', 'second']) {
    closeSync(openLog(folder).descriptor);
    writeFileSync(path(), mark.padEnd(2_000_001));
    closeSync(openLog(folder).descriptor);
    expect(statSync(path()).size).toBe(0);
    expect(readdirSync(join(folder, 'logs')).sort()).toEqual(['service.log', 'service.old.log']);
    expect(readFileSync(join(folder, 'logs', 'service.old.log'), 'utf8').startsWith(mark)).toBe(true);
  }
});
