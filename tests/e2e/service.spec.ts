// The service dies and comes back; the application is alone on its data; nothing is left when it is gone.
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type {} from '../../renderer/api.ts';
import { expect, test } from './fixtures.ts';
import { appArguments, appVariables, executablePath } from './launch.ts';

/** Process numbers of the services started so far on this data folder, as the log tells them. */
function servicePids(dataFolder: string): number[] {
  const log = readFileSync(join(dataFolder, 'logs', 'service.log'), 'utf8');
  return [...log.matchAll(/ready, process (\d+)/g)].map(([, pid]) => Number(pid));
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

test('a killed service is told, started again, and answers', async ({ page, bench }) => {
  await page.evaluate(() => window.datumline.call('app.status', {}));
  const [first = 0] = servicePids(bench.dataFolder);
  const heard = await page.evaluateHandle(() => {
    const states: string[] = [];
    window.datumline.on('service.state', ({ state }) => states.push(state));
    return states;
  });
  process.kill(first, 'SIGKILL');
  await expect.poll(() => heard.jsonValue()).toEqual(['restarting', 'running']);
  const answer = await page.evaluate(() => window.datumline.call('app.status', {}));
  expect(answer.ok).toBe(true);
  const pids = servicePids(bench.dataFolder);
  expect(pids).toHaveLength(2);
  expect(isAlive(first)).toBe(false);
});

test('calls made while the service is dead are answered by the next one', async ({ page, bench }) => {
  await page.evaluate(() => window.datumline.call('app.status', {}));
  const [first = 0] = servicePids(bench.dataFolder);
  process.kill(first, 'SIGSTOP');
  const calls = page.evaluate(() =>
    Promise.all(Array.from({ length: 20 }, () => window.datumline.call('app.status', {}))),
  );
  process.kill(first, 'SIGKILL');
  const answers = await calls;
  expect(answers.map(({ ok }) => ok)).toEqual(answers.map(() => true));
});

test('the service ends when its application is killed', async ({ launched, bench }) => {
  await launched.page.evaluate(() => window.datumline.call('app.status', {}));
  const [pid = 0] = servicePids(bench.dataFolder);
  expect(isAlive(pid)).toBe(true);
  launched.mainProcess.kill('SIGKILL');
  await expect.poll(() => isAlive(pid)).toBe(false);
});

test('a second start on the same data folder gives way to the first', async ({ launched, bench }) => {
  const second = spawn(executablePath(), appArguments(), {
    env: appVariables(bench.dataFolder),
    stdio: 'ignore',
  });
  const code = await new Promise((resolve) => second.once('exit', resolve));
  expect(code).toBe(0);
  const answer = await launched.page.evaluate(() => window.datumline.call('app.status', {}));
  expect(answer.ok).toBe(true);
  expect(servicePids(bench.dataFolder)).toHaveLength(1);
});

test('closing the window ends application and service in order', async ({ launched, bench }) => {
  await launched.page.evaluate(() => window.datumline.call('app.status', {}));
  const [pid = 0] = servicePids(bench.dataFolder);
  const gone = new Promise((resolve) => launched.mainProcess.once('exit', resolve));
  await launched.app.close();
  expect(await gone).toBe(0);
  expect(isAlive(pid)).toBe(false);
  expect(readFileSync(join(bench.dataFolder, 'logs', 'service.log'), 'utf8')).toContain('closing: asked to');
});
