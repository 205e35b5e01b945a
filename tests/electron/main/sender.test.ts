import { describe, expect, test } from 'vitest';
import { isOurUrl } from '../../../electron/main/origin.ts';
import { isOurSender, type Sender } from '../../../electron/main/sender.ts';

describe('our origin', () => {
  test.each(['app://datumline/', 'app://datumline/index.html', 'app://datumline/file/x#y'])(
    '%s is ours',
    (url) => {
      expect(isOurUrl(url)).toBe(true);
    },
  );

  test.each([
    'app://datumline.example.org/',
    'app://elsewhere/index.html',
    'app:datumline',
    'app://user@datumline/',
    'app://datumline:81/',
    'https://datumline/',
    'file:///datumline',
    'about:blank',
    'data:text/html,app://datumline/',
    '',
    'nonsense',
  ])('%s is not', (url) => {
    expect(isOurUrl(url)).toBe(false);
  });
});

describe('who may speak', () => {
  const ours = (id: number) => id === 1;
  const top: Sender = { contentsId: 1, frame: { url: 'app://datumline/index.html', parent: null } };

  test('the top frame of our window', () => {
    expect(isOurSender(top, ours)).toBe(true);
  });

  const others: [string, Sender][] = [
    ['a frame inside it', { contentsId: 1, frame: { url: 'app://datumline/index.html', parent: {} } }],
    ['another window', { ...top, contentsId: 2 }],
    ['a window without a number', { ...top, contentsId: undefined }],
    [
      'our window showing something else',
      { contentsId: 1, frame: { url: 'https://example.org/', parent: null } },
    ],
    ['a frame already gone', { contentsId: 1, frame: null }],
    ['a worker', { contentsId: 1, frame: undefined }],
  ];
  test.each(others)('not %s', (_name, sender) => {
    expect(isOurSender(sender, ours)).toBe(false);
  });
});
