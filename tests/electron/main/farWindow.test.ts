import { describe, expect, test } from 'vitest';
import { farName, farPlace, isFarRequest } from '../../../electron/main/farWindow.ts';
import { FAR_CHANNEL } from '../../../renderer/state/farMirror.ts';

const far = 'app://datumline/index.html#/far';

describe('the one window a page may open', () => {
  test('is the distance view, by its name', () => {
    expect(isFarRequest(far, farName)).toBe(true);
    expect(FAR_CHANNEL).toBe(farName);
  });

  test.each([
    ['another name', far, '_blank'],
    ['no name', far, ''],
    ['the working window again', 'app://datumline/index.html#/', farName],
    ['a job', 'app://datumline/index.html#/job/0190/placement', farName],
    ['another origin', 'https://example.org/#/far', farName],
    ['a host that looks like ours', 'app://datumline.example/#/far', farName],
    ['a blank page', 'about:blank', farName],
    ['no address', '', farName],
  ])('not %s', (_what, url, name) => {
    expect(isFarRequest(url, name)).toBe(false);
  });
});

describe('where it goes', () => {
  const here = { id: 1, bounds: { x: 0, y: 0, width: 1366, height: 768 } };
  const there = { id: 2, bounds: { x: 1366, y: 0, width: 1920, height: 1080 } };

  test('fills the display that is not worked on, whichever comes first', () => {
    expect(farPlace([here, there], 1)).toEqual({ ...there.bounds, fullscreen: true });
    expect(farPlace([there, here], 2)).toEqual({ ...here.bounds, fullscreen: true });
  });

  test('on a single display it is a window that leaves the other in sight', () => {
    expect(farPlace([here], 1)).toEqual({ width: 1024, height: 640 });
  });
});
