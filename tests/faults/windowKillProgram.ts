/** The kills of the window as a fault program: on a display of its own, through the same driver the window's tests use. */
import { _electron } from 'playwright';
import { startDisplay } from '../../electron/setup/display.mjs';
import type { FaultProgram } from './faultProgram.ts';
import { killWindows } from './windowKills.ts';

export const killWindowProgram: FaultProgram = {
  name: 'kill-window',
  defaults: { seed: 4_000, count: 20 },
  batchSize: 5,
  async runBatch(seed, count) {
    const display = process.platform === 'linux' ? await startDisplay() : undefined;
    if (display !== undefined) process.env.DISPLAY = display.display;
    try {
      return await killWindows(_electron, seed, count);
    } finally {
      display?.stop();
    }
  },
};
