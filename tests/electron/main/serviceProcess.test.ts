// The keeper of the service against real child processes that misbehave on demand.
import { type ChildProcess, fork } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import {
  pauseMs,
  type ServiceProcess,
  type ServiceState,
  startServiceProcess,
} from '../../../electron/main/serviceProcess.ts';

// Answers "echo"; dies before or after noting a "die" call; takes its time for "slow"; ends on close.
const script = `
import { appendFileSync, existsSync, writeFileSync } from 'node:fs';
const [folder] = process.argv.slice(2);
appendFileSync(folder + '/starts', process.pid + '\\n');
if (existsSync(folder + '/broken')) process.exit(3);
const answer = (id, value) => process.send({ type: 'answer', id, envelope: { ok: true, value } });
process.on('disconnect', () => process.exit(0));
process.on('message', (message) => {
  if (message.type === 'close') return process.exit(0);
  const { id, request } = message;
  if (request.name === 'dieAlways') process.exit(1);
  if (request.name === 'dieOnce' && !existsSync(folder + '/died')) {
    writeFileSync(folder + '/died', '');
    process.kill(process.pid, 'SIGKILL');
  }
  if (request.name === 'notice') process.send({ type: 'notice', name: 'job.changed', value: { job: 'j', seq: 1 } });
  if (request.name === 'hang') return;
  answer(id, request.inputText);
});
process.send({ type: 'ready' });
`;

let folder = '';
let scriptFile = '';
const keepers: ServiceProcess[] = [];
const children: ChildProcess[] = [];
const states: ServiceState[] = [];
const onNotice = vi.fn();

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'keeper-'));
  scriptFile = join(folder, 'service.mjs');
  writeFileSync(scriptFile, script);
});
afterEach(async () => {
  await Promise.all(keepers.splice(0).map((keeper) => keeper.stop()));
  for (const child of children.splice(0)) child.kill('SIGKILL');
  states.length = 0;
  for (const name of ['died', 'broken', 'starts']) rmSync(join(folder, name), { force: true });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function keep(): ServiceProcess {
  const keeper = startServiceProcess({
    start: () => {
      const child = fork(scriptFile, [folder], {
        execArgv: [],
        serialization: 'json',
        stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
      });
      children.push(child);
      return child;
    },
    onNotice,
    onState: (state) => states.push(state),
    log: () => undefined,
  });
  keepers.push(keeper);
  return keeper;
}

const call = (keeper: ServiceProcess, name: string, inputText = '') =>
  keeper.request({ kind: 'call', name, inputText, traceId: 'trace' });
const starts = () => readFileSync(join(folder, 'starts'), 'utf8').trim().split('\n').length;

test('calls made before the service is ready are answered when it is', async () => {
  const keeper = keep();
  expect(keeper.state).toBe('starting');
  const answers = await Promise.all(['a', 'b', 'c'].map((text) => call(keeper, 'echo', text)));
  expect(answers).toEqual(['a', 'b', 'c'].map((value) => ({ ok: true, value })));
  expect(states).toEqual(['running']);
});

test('notices are handed on', async () => {
  await call(keep(), 'notice');
  expect(onNotice).toHaveBeenCalledWith('job.changed', { job: 'j', seq: 1 });
});

test('a call during which the service dies is repeated by the next one, and so are those behind it', async () => {
  const keeper = keep();
  const answers = await Promise.all([call(keeper, 'dieOnce', 'x'), call(keeper, 'echo', 'y')]);
  expect(answers).toEqual([
    { ok: true, value: 'x' },
    { ok: true, value: 'y' },
  ]);
  expect(states).toEqual(['running', 'restarting', 'running']);
  expect(starts()).toBe(2);
});

test('a call that two services died of is given up, and the third goes on', async () => {
  const keeper = keep();
  expect(await call(keeper, 'dieAlways')).toEqual({
    ok: false,
    error: { code: 'service/interrupted', details: {}, traceId: 'trace' },
  });
  expect(await call(keeper, 'echo', 'z')).toEqual({ ok: true, value: 'z' });
  expect(starts()).toBe(3);
});

test('a service that cannot start is told "stopped", tried on, and found again when it is mended', async () => {
  writeFileSync(join(folder, 'broken'), '');
  const keeper = keep();
  const stopped = { ok: false, error: { code: 'service/stopped', details: {}, traceId: 'trace' } };
  // A call waits through the pauses, and is answered when waiting has become pointless; later ones at once.
  expect(await call(keeper, 'echo', 'early')).toEqual(stopped);
  expect(await call(keeper, 'echo', 'late')).toEqual(stopped);
  expect(states).toEqual(['restarting', 'stopped']);
  rmSync(join(folder, 'broken'));
  await vi.waitUntil(() => keeper.state === 'running', 20_000);
  expect(await call(keeper, 'echo', 'mended')).toEqual({ ok: true, value: 'mended' });
});

describe('stopping', () => {
  test('ends the service and starts no other', async () => {
    const keeper = keep();
    await call(keeper, 'echo');
    await keeper.stop();
    expect(children.every((child) => child.exitCode === 0)).toBe(true);
    expect(starts()).toBe(1);
    expect(await call(keeper, 'echo')).toMatchObject({ error: { code: 'service/interrupted' } });
  });
});

test('the pauses double from a tenth of a second to five', () => {
  expect([0, 1, 2, 3, 4, 5, 6, 7, 1000].map(pauseMs)).toEqual([
    100, 200, 400, 800, 1_600, 3_200, 5_000, 5_000, 5_000,
  ]);
});
