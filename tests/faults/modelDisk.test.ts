/** The disk that the power-loss test stands on: it must forget what real disks may forget, and keep what was flushed. */
import { describe, expect, test } from 'vitest';
import { type CutKind, modelDisk } from './modelDisk.ts';
import { seededRandom } from './seededRandom.ts';
import { type DiskCall, readCalls } from './systemCalls.ts';

const make = (name: string): DiskCall => ({ kind: 'make', name });
const write = (offset: number, text: string, name = 'a'): DiskCall => ({
  ...{ kind: 'write', name, offset, data: Buffer.from(text) },
});
const flush: DiskCall = { kind: 'flush', name: 'a' };
const flushNames: DiskCall = { kind: 'flushNames' };

/** All contents of file `a` that many cuts leave; `none` where the file is not there. */
function afterCuts(calls: readonly DiskCall[], kind: CutKind): ReadonlySet<string> {
  const disk = modelDisk();
  for (const call of calls) disk.take(call);
  const images = Array.from({ length: 200 }, (_, seed) => disk.cut(kind, seededRandom(seed)).get('a'));
  return new Set(images.map((image) => image?.toString('latin1') ?? 'none'));
}

describe('a cut', () => {
  const born = [make('a'), flushNames, write(0, 'one'), flush];

  test('keeps what was flushed, whatever else happens', () => {
    expect(afterCuts(born, 'flushedOnly')).toEqual(new Set(['one']));
    expect(afterCuts(born, 'someSectors')).toEqual(new Set(['one']));
  });

  test('forgets what was not flushed', () => {
    expect(afterCuts([...born, write(3, 'two')], 'flushedOnly')).toEqual(new Set(['one']));
  });

  test('may keep a later write and lose an earlier one', () => {
    const seen = afterCuts([...born, write(3, 'two'), write(6, 'six')], 'someWrites');
    expect(seen).toEqual(new Set(['one', 'onetwo', 'onetwosix', 'one\0\0\0six']));
  });

  test('may keep half of a write, by sectors', () => {
    const long = 'x'.repeat(512) + 'y'.repeat(512);
    const seen = afterCuts([make('a'), flushNames, write(0, long)], 'someSectors');
    expect(seen).toEqual(new Set(['', 'x'.repeat(512), long, '\0'.repeat(512) + 'y'.repeat(512)]));
  });

  test('may lose the name of a file whose contents were flushed', () => {
    const unnamed = [make('a'), write(0, 'one'), flush];
    expect(afterCuts(unnamed, 'flushedOnly')).toEqual(new Set(['none']));
    expect(afterCuts(unnamed, 'someWrites')).toEqual(new Set(['none', 'one']));
  });

  test('may bring back a file that was removed', () => {
    const seen = afterCuts([...born, { kind: 'remove', name: 'a' }], 'someWrites');
    expect(seen).toEqual(new Set(['one', 'none']));
  });

  test('cuts and grows with zeros', () => {
    const resize = (size: number): DiskCall => ({ kind: 'resize', name: 'a', size });
    expect(afterCuts([...born, resize(1), flush], 'flushedOnly')).toEqual(new Set(['o']));
    expect(afterCuts([...born, resize(1), resize(4), flush], 'flushedOnly')).toEqual(new Set(['o\0\0\0']));
  });
});

describe('reading a recording', () => {
  const hex = (text: string) =>
    [...Buffer.from(text)].map((byte) => `\\x${byte.toString(16).padStart(2, '0')}`).join('');
  const file = `21<${hex('/f/a')}>`;

  test('finds names, writes, sizes, flushes and what was said, in order', () => {
    const recording = [
      `7 openat(AT_FDCWD<${hex('/')}>, "${hex('/f/a')}", O_RDWR|O_CREAT, 0644) = 21<${hex('/f/a')}>`,
      `7 pwrite64(${file}, "${hex('data')}", 4, 4096) = 4`,
      `7 pwrite64(21</f/a>, "${hex('more')}", 4, 4100) = 4`,
      `7 ftruncate(${file}, 12) = 0`,
      `7 fdatasync(${file}) = 0`,
      `7 fsync(22<${hex('/f')}>) = 0`,
      `7 write(1<${hex('pipe:[5]')}>, "${hex('hello\n')}", 6) = 6`,
      `7 pwrite64(23<${hex('/elsewhere/a')}>, "${hex('data')}", 4, 0) = 4`,
      `7 unlink("${hex('/f/a')}") = 0`,
      `7 unlink("${hex('/f/b')}") = -1 ENOENT (No such file or directory)`,
    ].join('\n');
    expect(readCalls(recording, '/f')).toEqual([
      make('a'),
      write(4096, 'data'),
      write(4100, 'more'),
      { kind: 'resize', name: 'a', size: 12 },
      flush,
      flushNames,
      { kind: 'say', text: 'hello\n' },
      { kind: 'remove', name: 'a' },
    ]);
  });

  test('joins a call that was shown in two halves', () => {
    const recording = [
      `7 pwrite64(${file}, "${hex('data')}", 4, 0 <unfinished ...>`,
      `8 fsync(30<${hex('/elsewhere')}>) = 0`,
      '7 <... pwrite64 resumed>) = 4',
    ].join('\n');
    expect(readCalls(recording, '/f')).toEqual([write(0, 'data')]);
  });

  test('stops at a call it does not know, rather than leaving it out', () => {
    expect(() => readCalls(`7 copy_file_range(${file}, NULL, ${file}, NULL, 5, 0) = 5`, '/f')).toThrow(
      /not modelled/,
    );
  });

  test('stops at a write that the recording cut short', () => {
    expect(() => readCalls(`7 pwrite64(${file}, "${hex('da')}"..., 4, 0) = 4`, '/f')).toThrow(
      /cut a write short/,
    );
  });
});
