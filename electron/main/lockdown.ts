/** What every page is refused: navigation, windows, frames of others, permissions, the network. */
import { app, type Session, type WebContents } from 'electron';
import { isFarPage } from './farWindow.ts';
import { isOurUrl } from './origin.ts';
import { type IsOurWindow, isOurSender, type Sender } from './sender.ts';

/**
 * Schemes a request may have. `chrome-extension` and `chrome` are Chromium's own PDF view inside our frame; `devtools`
 * are the tools of a development build.
 */
const allowedSchemes: ReadonlySet<string> = new Set([
  'app:',
  'blob:',
  'chrome:',
  'chrome-extension:',
  'devtools:',
]);

/** Whether a page of ours may ask for this URL at all. */
export function isAllowedRequest(url: string): boolean {
  try {
    const { protocol } = new URL(url);
    return protocol === 'app:' ? isOurUrl(url) : allowedSchemes.has(protocol);
  } catch {
    return false;
  }
}

/** Chromium's built-in PDF view, by its fixed extension id: the frame in which it draws the pages of a stored file. */
const pdfView = 'chrome-extension://mhjfbmdgcfjbbpaeojofohoefgiehjai/';

/** A frame inside our page may show a stored file, Chromium's own view of it, and nothing else. */
export function isAllowedFrame(url: string): boolean {
  if (url.startsWith(pdfView)) return true;
  return isOurUrl(url) && new URL(url).pathname.startsWith('/file/');
}

/** Reading needs an allowed address; writing (a POST with no Origin to check) needs the sender of a message. */
export function mayRequest(url: string, method: string, sender: Sender, isOurWindow: IsOurWindow): boolean {
  return isAllowedRequest(url) && (method === 'GET' || isOurSender(sender, isOurWindow));
}

/** The camera, for labels and photos, to our own page; never the microphone, and nothing else. */
export function mayUse(permission: string, url: string, media: readonly string[]): boolean {
  return (
    permission === 'media' && isOurUrl(url) && media.length > 0 && media.every((each) => each === 'video')
  );
}

export function lockSession(session: Session, isOurWindow: IsOurWindow): void {
  session.setPermissionRequestHandler((contents, permission, answer, details) =>
    answer(
      isOurWindow(contents.id) &&
        mayUse(permission, details.requestingUrl, 'mediaTypes' in details ? (details.mediaTypes ?? []) : []),
    ),
  );
  session.setPermissionCheckHandler((contents, permission, origin, details) => {
    const type = details.mediaType;
    return (
      contents !== null &&
      isOurWindow(contents.id) &&
      mayUse(permission, origin, type === undefined || type === 'unknown' ? [] : [type])
    );
  });
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest(({ url, method, frame, webContentsId }, answer) =>
    answer({ cancel: !mayRequest(url, method, { frame, contentsId: webContentsId }, isOurWindow) }),
  );
}

/** No page ever leads to another; a second window is still empty when its own page comes. */
export function isFirstPage(shown: string, url: string): boolean {
  return (shown === '' || shown === 'about:blank') && isFarPage(url);
}

function lockContents(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-navigate', (event) => {
    if (!isFirstPage(contents.getURL(), event.url)) event.preventDefault();
  });
  contents.on('will-redirect', (event) => event.preventDefault());
  contents.on('will-frame-navigate', (event) => {
    const allowed = event.isMainFrame ? isFirstPage(contents.getURL(), event.url) : isAllowedFrame(event.url);
    if (!allowed) event.preventDefault();
  });
  contents.on('will-attach-webview', (event) => event.preventDefault());
}

/** Applies to every contents there will ever be; call before the first window. */
export function lockAllContents(): void {
  app.on('web-contents-created', (_event, contents) => lockContents(contents));
}
