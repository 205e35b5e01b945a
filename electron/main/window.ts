/** The one window. */
import { join } from 'node:path';
import { BrowserWindow, type Session } from 'electron';
import type { BuildKind } from '../service/host/host.ts';
import { startPage } from './origin.ts';

/** The smallest laptop screen still met in a workshop office; the bay's screens are larger. */
const initialSize = { width: 1366, height: 768, minWidth: 1024, minHeight: 640 };

/** What the title bar says; a test build says so everywhere. */
export function windowTitle(build: BuildKind): string {
  return build === 'test build' ? 'Datumline - test build' : 'Datumline';
}

export interface WindowParts {
  readonly session: Session;
  readonly build: BuildKind;
  readonly buildFolder: string;
}

/** Makes the window before its page is loaded, so that the gateway can know it first. */
export function createWindow({ session, build, buildFolder }: WindowParts): BrowserWindow {
  const window = new BrowserWindow({
    ...initialSize,
    useContentSize: true,
    title: windowTitle(build),
    show: false,
    backgroundColor: '#f4f4f1',
    autoHideMenuBar: true,
    webPreferences: {
      session,
      preload: join(buildFolder, 'preload.cjs'),
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      allowRunningInsecureContent: false,
      experimentalFeatures: false,
      webviewTag: false,
      navigateOnDragDrop: false,
      spellcheck: false,
      devTools: build !== 'release',
    },
  });
  window.on('page-title-updated', (event) => event.preventDefault());
  window.once('ready-to-show', () => window.show());
  return window;
}

export function loadStartPage(window: BrowserWindow): Promise<void> {
  return window.loadURL(startPage);
}
