/** The demo job as the window holds it, up to any step: what the screens' wording is tested on. */
import { invariant } from '../../core/result.ts';
import type { DemoStep } from '../../electron/cli/demoScript.ts';
import { readScript } from '../../electron/cli/playScript.ts';
import { demoShop } from '../../electron/service/handlers/shop.ts';
import type { HeldJob } from '../../renderer/state/heldJob.ts';
import { foldScript } from '../demo/foldScript.ts';

export const script = readScript(new URL('../../assets/demo/demo-job.json', import.meta.url));
export const shop = demoShop();
export const SENSOR = 'camera';

/** The demo job before its step `count`. */
export function heldAfter(count: number): HeldJob {
  return { events: [], job: foldScript(script, shop, count), personal: { p: 'Nils Breakwater' } };
}

/** Index of the `nth` step that fits. */
export function stepIndex(fits: (step: DemoStep) => boolean, nth = 1): number {
  const found = script.steps.flatMap((step, index) => (fits(step) ? [index] : []))[nth - 1];
  invariant(found !== undefined, 'the demo job has such a step');
  return found;
}

/** Index of the `nth` reading of a quantity. */
export function readingIndex(quantity: string, nth = 1): number {
  return stepIndex((step) => step.do === 'reading' && step.quantity === quantity, nth);
}

export const movedIndex = stepIndex((step) => step.do === 'moved');

/** The sensor that is calibrated in the demo job. */
export function cameraOf(held: HeldJob) {
  const sensor = held.job.sensors.find((each) => each.sensor === SENSOR);
  invariant(sensor !== undefined, 'the demo job lists its camera');
  return sensor;
}
