/**
 * The bridge: two functions over the contract's names, values only. Runs sandboxed, so it is bundled into one
 * CommonJS file. There is no generic channel: a name outside the contract never leaves the window.
 */
import { contextBridge, type IpcRendererEvent, ipcRenderer } from 'electron';
import type { Envelope } from '../core/contract/index.ts';
import { callLimits, noticeNames } from './main/callTable.ts';
import { callChannel, noticeChannel } from './main/channels.ts';

function refuse(name: unknown): Envelope<never> {
  return { ok: false, error: { code: 'call/unknown', details: { name: String(name) }, traceId: '' } };
}

const bridge = Object.freeze({
  call(name: unknown, input: unknown): Promise<Envelope<unknown>> {
    if (typeof name !== 'string' || !Object.hasOwn(callLimits, name)) return Promise.resolve(refuse(name));
    return ipcRenderer.invoke(callChannel, name, input);
  },
  on(name: unknown, listener: (value: unknown) => void): () => void {
    if (typeof name !== 'string' || !noticeNames.includes(name))
      throw new TypeError(`unknown notice: ${name}`);
    const hear = (_event: IpcRendererEvent, heard: unknown, value: unknown) => {
      if (heard === name) listener(value);
    };
    ipcRenderer.on(noticeChannel, hear);
    return () => {
      ipcRenderer.removeListener(noticeChannel, hear);
    };
  },
});

contextBridge.exposeInMainWorld('datumline', bridge);
