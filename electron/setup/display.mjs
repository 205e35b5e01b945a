// A display of our own for the tests: nothing on the person's screen moves, and a bare machine has none.
import { spawn } from 'node:child_process';
import { keepTrack } from './child.mjs';
import { SetupError } from './say.mjs';

const START_LIMIT_MS = 20_000;

/** Whether a window could be shown to a person here. @param {NodeJS.ProcessEnv} [env] @param {string} [platform] */
export function hasDisplay(env = process.env, platform = process.platform) {
  return platform !== 'linux' || Boolean(env.DISPLAY || env.WAYLAND_DISPLAY);
}

/**
 * Starts Xvfb on the first free display number.
 * @returns {Promise<{ display: string, stop: () => void }>}
 */
export function startDisplay() {
  return new Promise((resolve, reject) => {
    const server = keepTrack(
      spawn('Xvfb', ['-displayfd', '3', '-screen', '0', '1920x1200x24', '-nolisten', 'tcp', '-noreset'], {
        stdio: ['ignore', 'ignore', 'pipe', 'pipe'],
      }),
    );
    let trouble = '';
    const fail = (/** @type {string} */ why) => {
      clearTimeout(timer);
      server.kill();
      reject(new SetupError(`Xvfb did not start: ${why}`));
    };
    const timer = setTimeout(
      () => fail(`no answer in ${START_LIMIT_MS / 1000} s. ${trouble}`),
      START_LIMIT_MS,
    );
    server.once('error', (error) => fail(`${error.message} (Debian package xvfb)`));
    server.once('exit', (code) => fail(`it ended with ${code}. ${trouble}`));
    server.stderr?.on('data', (chunk) => {
      trouble += chunk;
    });
    let number = '';
    server.stdio[3]?.on('data', (chunk) => {
      number += chunk;
      if (!number.includes('\n')) return;
      clearTimeout(timer);
      server.removeAllListeners('exit');
      resolve({ display: `:${number.trim()}`, stop: () => server.kill() });
    });
  });
}
