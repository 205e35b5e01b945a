/** The windows: the one that is worked in, and the distance view beside it. */
import { join } from 'node:path';
import {
  BrowserWindow,
  type BrowserWindowConstructorOptions,
  nativeTheme,
  type Session,
  screen,
  type WebPreferences,
} from 'electron';
import type { BuildKind } from '../service/host/host.ts';
import { farPlace } from './farWindow.ts';
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

/** What every window of ours may do: the page, the bridge, and nothing else. */
function webPreferences({ session, build, buildFolder }: WindowParts): WebPreferences {
  return {
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
  };
}

/** The paper of the theme that the system asks for: a window that opens dark must not flash white first. */
const ground = (): string => (nativeTheme.shouldUseDarkColors ? '#14171a' : '#fbfaf7');

/** How the distance view is opened when the working window asks for it. */
export function farWindowOptions(
  parts: WindowParts,
  working: BrowserWindow,
): BrowserWindowConstructorOptions {
  const workingOn = screen.getDisplayMatching(working.getBounds()).id;
  return {
    ...farPlace(screen.getAllDisplays(), workingOn),
    title: windowTitle(parts.build),
    backgroundColor: ground(),
    autoHideMenuBar: true,
    webPreferences: webPreferences(parts),
  };
}

/** Makes the window before its page is loaded, so that the gateway can know it first. */
export function createWindow(parts: WindowParts): BrowserWindow {
  const window = new BrowserWindow({
    ...initialSize,
    useContentSize: true,
    title: windowTitle(parts.build),
    show: false,
    backgroundColor: ground(),
    autoHideMenuBar: true,
    webPreferences: webPreferences(parts),
  });
  window.on('page-title-updated', (event) => event.preventDefault());
  window.once('ready-to-show', () => window.show());
  return window;
}

export function loadStartPage(window: BrowserWindow): Promise<void> {
  return window.loadURL(startPage);
}
