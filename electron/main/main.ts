/** Composition root of the main process: puts the parts together in the order Electron asks for. */
import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { app, type BrowserWindow, Menu, powerSaveBlocker, protocol, session } from 'electron';
import { isErrorCode } from '../../core/contract/errorCodes.ts';
import { dataFolder as dataFolderOf } from '../service/host/dataFolder.ts';
import type { LocatedFile } from '../service/host/wire.ts';
import { answerAppRequest } from './appProtocol.ts';
import { buildKind } from './buildKind.ts';
import { noticeChannel } from './channels.ts';
import { farName, isFarRequest } from './farWindow.ts';
import { openGateway } from './gateway.ts';
import { keepAwake } from './keepAwake.ts';
import { lockAllContents, lockSession } from './lockdown.ts';
import { type Log, openLog } from './logFile.ts';
import { scheme } from './origin.ts';
import { forkService } from './serviceChild.ts';
import { type ServiceProcess, startServiceProcess } from './serviceProcess.ts';
import { createWindow, farWindowOptions, loadStartPage, type WindowParts } from './window.ts';
import { createWindows, type Windows } from './windows.ts';

const build = buildKind(process.versions.electron ?? '', PINNED_ELECTRON, app.isPackaged);
type Tell = (name: string, value: unknown) => void;

const dataFolder = dataFolderOf(process.env, process.platform, homedir());

/** Before `ready`: names, folders, the scheme, the sandbox. False when another instance holds this data folder. */
function prepare(): boolean {
  app.setName(build === 'test build' ? 'Datumline (test build)' : 'Datumline');
  // Chromium's own files stay apart from the record.
  mkdirSync(dataFolder, { recursive: true });
  app.setPath('userData', join(dataFolder, 'window'));
  if (!app.requestSingleInstanceLock()) return false;
  protocol.registerSchemesAsPrivileged([
    { scheme, privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true } },
  ]);
  // It would take --no-sandbox away again, which the development launcher gives as root, and nothing would start.
  if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox();
  lockAllContents();
  Menu.setApplicationMenu(
    process.platform === 'darwin' ? Menu.buildFromTemplate([{ role: 'editMenu' }]) : null,
  );
  return true;
}

/** Starts the service before Electron is ready: it comes up while the window does. */
function startService(log: Log, tell: Tell): ServiceProcess {
  return startServiceProcess({
    start: () => forkService({ appFolder: app.getAppPath(), dataFolder, build, logFile: log.descriptor }),
    onNotice: tell,
    onState: (state) => tell('service.state', { state }),
    log: log.write,
  });
}

/** Lets the working window open the distance view beside itself, once, and take it along when it closes. */
function allowFarWindow(window: BrowserWindow, parts: WindowParts, windows: Windows): void {
  window.webContents.setWindowOpenHandler(({ url, frameName }) =>
    isFarRequest(url, frameName)
      ? { action: 'allow', overrideBrowserWindowOptions: farWindowOptions(parts, window) }
      : { action: 'deny' },
  );
  window.webContents.on('did-create-window', (far, { frameName }) => {
    if (frameName !== farName) return far.destroy();
    windows.add(far);
    far.on('page-title-updated', (event) => event.preventDefault());
    window.once('closed', () => far.destroy());
  });
}

function open(log: Log, service: ServiceProcess, windows: Windows): BrowserWindow {
  const appFolder = app.getAppPath();
  const windowSession = session.fromPartition('persist:datumline', { cache: false });
  const parts = { session: windowSession, build, buildFolder: join(appFolder, 'electron', 'build') };
  const window = createWindow(parts);
  windows.add(window);
  allowFarWindow(window, parts, windows);
  const isOurWindow = windows.has;
  lockSession(windowSession, isOurWindow);
  openGateway({
    isOurWindow,
    forward: (name, inputText, traceId) => service.request({ kind: 'call', name, inputText, traceId }),
    log: log.write,
  });
  windowSession.protocol.handle(scheme, (request) =>
    answerAppRequest(
      {
        windowFolder: join(appFolder, 'renderer', 'build'),
        inboxFolder: join(dataFolder, 'inbox'),
        locateFile: async (digest) => {
          const answer = await service.request({ kind: 'locateFile', digest });
          return answer.ok ? ((answer.value as LocatedFile | null) ?? undefined) : undefined;
        },
        adoptFile: async ({ path, digest }) => {
          const answer = await service.request({ kind: 'adoptFile', path, digest });
          if (answer.ok) return answer.value === true ? true : 'file/notStored';
          return isErrorCode(answer.error.code) ? answer.error.code : 'file/notStored';
        },
        log: log.write,
      },
      request,
    ),
  );
  let stopped = false;
  app.on('will-quit', (event) => {
    if (stopped) return;
    event.preventDefault();
    void service.stop().finally(() => {
      stopped = true;
      app.quit();
    });
  });
  return window;
}

async function main(): Promise<void> {
  if (!prepare()) return app.quit();
  const log = openLog(dataFolder);
  log.write(`start, ${build}, Electron ${process.versions.electron}, data in ${dataFolder}`);
  const windows = createWindows(keepAwake(powerSaveBlocker));
  const service = startService(log, (name, value) => windows.tell(noticeChannel, name, value));
  await app.whenReady();
  const window = open(log, service, windows);
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  app.on('window-all-closed', () => app.quit());
  await loadStartPage(window);
  log.write('the window has loaded');
}

main().catch((error: unknown) => {
  console.error(error);
  app.exit(1);
});
