/**
 * The second window: the distance view alone, for a display that hangs where the fixture is. It goes to another display
 * where there is one, and fills it; on a PC with one display it is an ordinary window.
 */
import type { BrowserWindowConstructorOptions, Rectangle } from 'electron';
import { isOurUrl } from './origin.ts';

/** Its name as a target of `window.open`: asked for twice, it is the same window. */
export const farName = 'datumline-far';

/** Whether a page of ours asks for the distance view, and for nothing else. */
export function isFarRequest(url: string, frameName: string): boolean {
  return frameName === farName && isFarPage(url);
}

/** Whether this is the distance view's own page. */
export function isFarPage(url: string): boolean {
  return isOurUrl(url) && new URL(url).hash === '#/far';
}

/** A display as Electron's `screen` tells it. */
export interface Place {
  readonly id: number;
  readonly bounds: Rectangle;
}

/** Where the window goes: the first display that the working window is not on; a plain size where there is none. */
export function farPlace(displays: readonly Place[], workingOn: number): BrowserWindowConstructorOptions {
  const other = displays.find((each) => each.id !== workingOn);
  return other === undefined ? { width: 1024, height: 640 } : { ...other.bounds, fullscreen: true };
}
