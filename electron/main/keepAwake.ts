/**
 * Keeps the display awake while a job is open: the person at the fixture touches no key for minutes and reads the screen
 * all the while. Elsewhere the PC may sleep as it was set.
 */

/** The part of Electron's `powerSaveBlocker` that is used. */
export interface DisplayBlocker {
  start(type: 'prevent-display-sleep'): number;
  stop(id: number): unknown;
}

/** Whether the page at this address is a job: `app://datumline/index.html#/job/...`. */
export function isJobAddress(address: string): boolean {
  return /#\/job\//.test(address);
}

/** Answers the function that is told each new address of a window; `undefined` for a window that is gone. */
export function keepAwake(blocker: DisplayBlocker): (window: number, address: string | undefined) => void {
  const jobs = new Set<number>();
  let held: number | undefined;
  return (window, address) => {
    if (address !== undefined && isJobAddress(address)) jobs.add(window);
    else jobs.delete(window);
    if (jobs.size > 0) held ??= blocker.start('prevent-display-sleep');
    else if (held !== undefined) {
      blocker.stop(held);
      held = undefined;
    }
  };
}
