// Starting other programs: always by full path where it is ours, never through a shell, never left behind.
import { spawn } from 'node:child_process';
import { root } from './paths.mjs';

/** @type {Set<import('node:child_process').ChildProcess>} */
const running = new Set();

/** @type {Record<string, number>} */
const stopSignals = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 };

/** Ends the children when this script is told to stop; without it a stopped run leaves a window or a display behind. */
export function endChildrenWithThisProcess() {
  const endAll = () => {
    for (const child of running) child.kill('SIGTERM');
  };
  process.once('exit', endAll);
  for (const [signal, exitCode] of Object.entries(stopSignals)) {
    process.once(signal, () => {
      endAll();
      process.exit(exitCode);
    });
  }
}

/**
 * @typedef {object} RunOptions
 * @property {NodeJS.ProcessEnv} [env]
 * @property {string} [cwd]
 * @property {boolean} [quiet] keep the output back and return it
 * @property {number} [timeoutMs]
 * @property {boolean} [shell] only for npm.cmd on Windows
 */

/**
 * Keeps a child in the set that ends with this process.
 * @template {import('node:child_process').ChildProcess} T
 * @param {T} child
 * @returns {T}
 */
export function keepTrack(child) {
  running.add(child);
  child.once('close', () => running.delete(child));
  return child;
}

/**
 * Runs a program to its end. A program that cannot be started has code 127, one that was killed 128.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {RunOptions} [options]
 * @returns {Promise<{ code: number, output: string }>}
 */
export function run(command, args, options = {}) {
  const quiet = options.quiet ?? false;
  return new Promise((resolve) => {
    const child = keepTrack(
      spawn(command, args, {
        cwd: options.cwd ?? root,
        env: options.env ?? process.env,
        stdio: quiet ? ['ignore', 'pipe', 'pipe'] : ['ignore', 'inherit', 'inherit'],
        shell: options.shell ?? false,
      }),
    );
    let output = '';
    const collect = (/** @type {Buffer} */ chunk) => {
      output += chunk.toString();
    };
    child.stdout?.on('data', collect);
    child.stderr?.on('data', collect);
    const timer = options.timeoutMs ? setTimeout(() => child.kill('SIGKILL'), options.timeoutMs) : undefined;
    child.once('error', (error) => {
      clearTimeout(timer);
      running.delete(child);
      resolve({ code: 127, output: `${output}${error.message}\n` });
    });
    child.once('close', (code) => {
      clearTimeout(timer);
      resolve({ code: code ?? 128, output });
    });
  });
}
