/** Which windows are ours, from the moment they exist: who may speak to the service, who is told its notices. */
import type { BrowserWindow } from 'electron';

export interface Windows {
  /** Takes a window in until it is closed. */
  add(window: BrowserWindow): void;
  has(contentsId: number): boolean;
  /** Sends to every window that is still there. */
  tell(channel: string, ...values: readonly unknown[]): void;
}

/** `onAddress` hears where each window is, and `undefined` when it is gone. */
export function createWindows(onAddress: (window: number, address: string | undefined) => void): Windows {
  const windows = new Map<number, BrowserWindow>();
  return {
    add(window) {
      const { id } = window.webContents;
      windows.set(id, window);
      window.webContents.on('did-navigate', (_event, address) => onAddress(id, address));
      window.webContents.on('did-navigate-in-page', (_event, address) => onAddress(id, address));
      window.on('closed', () => {
        windows.delete(id);
        onAddress(id, undefined);
      });
    },
    has: (contentsId) => windows.has(contentsId),
    tell(channel, ...values) {
      for (const window of windows.values()) {
        if (!window.isDestroyed()) window.webContents.send(channel, ...values);
      }
    },
  };
}
