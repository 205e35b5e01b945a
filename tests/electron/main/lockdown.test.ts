import { describe, expect, test, vi } from 'vitest';

vi.mock('electron', () => ({ app: {} }));

import {
  isAllowedFrame,
  isAllowedRequest,
  isFirstPage,
  mayRequest,
  mayUse,
} from '../../../electron/main/lockdown.ts';

describe('what a page may ask for', () => {
  test("the pages of a PDF in Chromium's own view", () => {
    expect(isAllowedFrame('chrome-extension://mhjfbmdgcfjbbpaeojofohoefgiehjai/index.html')).toBe(true);
  });

  test.each([
    'chrome-extension://aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa/index.html',
    'app://datumline/index.html',
    'blob:app://datumline/x',
    'chrome-extension://x/y',
    'devtools://x/y',
  ])('%s', (url) => {
    expect(isAllowedRequest(url)).toBe(true);
  });

  test.each([
    'app://elsewhere/index.html',
    'https://example.org/',
    'http://127.0.0.1/',
    'ws://127.0.0.1/',
    'ftp://example.org/',
    'file:///etc/passwd',
    'data:text/html,x',
    'javascript:1',
    '',
  ])('not %s', (url) => {
    expect(isAllowedRequest(url)).toBe(false);
  });
});

describe('writing needs the sender of a message', () => {
  const isOurWindow = (id: number) => id === 1;
  const ours = { contentsId: 1, frame: { url: 'app://datumline/index.html', parent: null } };
  const drop = 'app://datumline/drop';

  test('our top frame may', () => {
    expect(mayRequest(drop, 'POST', ours, isOurWindow)).toBe(true);
  });

  test('nobody else may; reading needs no sender', () => {
    const inner = { ...ours, frame: { ...ours.frame, parent: {} } };
    for (const sender of [inner, { ...ours, contentsId: 2 }, { ...ours, frame: null }]) {
      for (const method of ['POST', 'PUT', 'DELETE']) {
        expect(mayRequest(drop, method, sender, isOurWindow)).toBe(false);
      }
      expect(mayRequest('app://datumline/index.html', 'GET', sender, isOurWindow)).toBe(true);
    }
  });

  test('not even ours elsewhere', () => {
    expect(mayRequest('https://example.org/', 'POST', ours, isOurWindow)).toBe(false);
  });
});

describe('what a frame inside may show', () => {
  test('a stored file', () => {
    expect(isAllowedFrame(`app://datumline/file/${'0'.repeat(64)}`)).toBe(true);
  });

  test("the pages of a PDF in Chromium's own view", () => {
    expect(isAllowedFrame('chrome-extension://mhjfbmdgcfjbbpaeojofohoefgiehjai/index.html')).toBe(true);
  });

  test.each([
    'chrome-extension://aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa/index.html',
    'app://datumline/index.html',
    'app://elsewhere/file/x',
    'https://example.org/file/x',
    'about:blank',
  ])('not %s', (url) => {
    expect(isAllowedFrame(url)).toBe(false);
  });
});

describe('which page a window may be led to', () => {
  const far = 'app://datumline/index.html#/far';

  test.each(['', 'about:blank'])('the distance view, into an empty window (%j)', (shown) => {
    expect(isFirstPage(shown, far)).toBe(true);
  });

  test.each([
    ['the distance view, over a job', 'app://datumline/index.html#/job/0190/placement', far],
    ['the distance view, over itself', far, far],
    ['a job, into an empty window', '', 'app://datumline/index.html#/job/0190/placement'],
    ['another origin, into an empty window', '', 'https://example.org/#/far'],
  ])('not %s', (_what, shown, url) => {
    expect(isFirstPage(shown, url)).toBe(false);
  });
});

describe('what the page may use of the PC', () => {
  const page = 'app://datumline/index.html';

  test('the camera', () => {
    expect(mayUse('media', page, ['video'])).toBe(true);
  });

  test.each([
    ['the microphone', 'media', page, ['audio']],
    ['both at once', 'media', page, ['video', 'audio']],
    ['neither named', 'media', page, []],
    ['the camera from elsewhere', 'media', 'https://example.org/', ['video']],
    ['the screen', 'display-capture', page, ['video']],
    ['the place', 'geolocation', page, []],
    ['notifications', 'notifications', page, []],
  ])('not %s', (_what, permission, url, media) => {
    expect(mayUse(permission, url, media)).toBe(false);
  });
});
