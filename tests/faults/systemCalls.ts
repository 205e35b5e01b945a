/**
 * Records what a process really asks of the disk, with strace, and reads the recording: writes, sizes, flushes, names made
 * and removed, and what the process said in between.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { basename, dirname } from 'node:path';

export type DiskCall =
  | { readonly kind: 'make'; readonly name: string }
  | { readonly kind: 'remove'; readonly name: string }
  | { readonly kind: 'write'; readonly name: string; readonly offset: number; readonly data: Buffer }
  | { readonly kind: 'resize'; readonly name: string; readonly size: number }
  | { readonly kind: 'flush'; readonly name: string }
  | { readonly kind: 'flushNames' }
  | { readonly kind: 'say'; readonly text: string };

const CALLS = [
  ...['open', 'openat', 'openat2', 'creat', 'write', 'writev', 'pwrite64', 'pwritev', 'pwritev2'],
  ...['ftruncate', 'truncate', 'fallocate', 'copy_file_range', 'sendfile', 'fsync', 'fdatasync'],
  ...['sync_file_range', 'unlink', 'unlinkat', 'rename', 'renameat', 'renameat2', 'link', 'linkat', 'msync'],
];

/** Runs node with `args` under strace and gives every call on files directly in `folder`, in order. */
export function recordCalls(args: readonly string[], folder: string, recording: string): readonly DiskCall[] {
  const trace = [
    '-f',
    '-qq',
    '-y',
    '-xx',
    '-s',
    '16777216',
    '-e',
    'signal=none',
    '-e',
    `trace=${CALLS.join(',')}`,
  ];
  const run = spawnSync('strace', [...trace, '-o', recording, process.execPath, ...args], {
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
  });
  if (run.error !== undefined) {
    throw new Error(
      `strace is needed to record what reaches the disk (Debian: apt-get install strace): ${run.error}`,
    );
  }
  if (run.signal !== 'SIGKILL') throw new Error(`the recorded run did not come to its end: ${run.stderr}`);
  const calls = readCalls(readFileSync(recording, 'latin1'), folder);
  rmSync(recording, { force: true });
  return calls;
}

/** Reads a recording. A call that strace shows in two halves counts where it ended. */
export function readCalls(recording: string, folder: string): readonly DiskCall[] {
  const begun = new Map<string, string>();
  const known = new Set<string>();
  return recording.split('\n').flatMap((line): readonly DiskCall[] => {
    const [, pid = '', rest = ''] = /^(\d+) +(.*)$/s.exec(line) ?? [];
    const unfinished = rest.indexOf(' <unfinished ...>');
    if (unfinished >= 0) {
      begun.set(pid, rest.slice(0, unfinished));
      return [];
    }
    const resumed = /^<\.\.\. \w+ resumed>(.*)$/s.exec(rest);
    const whole = resumed === null ? rest : (begun.get(pid) ?? '') + (resumed[1] ?? '');
    const call = readCall(whole, folder);
    return call === undefined ? [] : withBirth(call, known);
  });
}

/** The first time a name is opened for making it is made; later times it is there. */
function withBirth(call: DiskCall, known: Set<string>): readonly DiskCall[] {
  if (call.kind === 'remove') known.delete(call.name);
  if (call.kind !== 'make') return [call];
  if (known.has(call.name)) return [];
  known.add(call.name);
  return [call];
}

function readCall(line: string, folder: string): DiskCall | undefined {
  const [, name = '', args = '', result = ''] = /^(\w+)\((.*)\) += (-?\d+)/s.exec(line) ?? [];
  if (name === '' || Number(result) < 0) return undefined;
  const on = /^\d+<([^>]*)>/.exec(args)?.[1];
  const path = textOf(on ?? /"((?:\\x[0-9a-f]{2})*)"/.exec(args)?.[1] ?? '');
  if (name === 'write' && args.startsWith('1<')) return { kind: 'say', text: bytesOf(args).toString('utf8') };
  if (name === 'openat' || name === 'open' || name === 'creat') return readOpen(args, folder);
  if (path === folder) return name === 'fsync' || name === 'fdatasync' ? { kind: 'flushNames' } : undefined;
  if (dirname(path) !== folder) return undefined;
  return readFileCall(name, basename(path), args);
}

function readOpen(args: string, folder: string): DiskCall | undefined {
  if (!args.includes('O_CREAT')) return undefined;
  const path = textOf(/"((?:\\x[0-9a-f]{2})*)"/.exec(args)?.[1] ?? '');
  if (args.includes('O_TRUNC')) throw new Error(`opening with O_TRUNC is not modelled: ${path}`);
  return dirname(path) === folder ? { kind: 'make', name: basename(path) } : undefined;
}

function readFileCall(call: string, name: string, args: string): DiskCall {
  switch (call) {
    case 'pwrite64':
      return { kind: 'write', name, offset: lastNumber(args), data: bytesOf(args) };
    case 'ftruncate':
      return { kind: 'resize', name, size: lastNumber(args) };
    case 'fsync':
    case 'fdatasync':
      return { kind: 'flush', name };
    case 'unlink':
      return { kind: 'remove', name };
    default:
      throw new Error(`the recording has a call that is not modelled: ${call} on ${name}`);
  }
}

function lastNumber(args: string): number {
  return Number(/(\d+)$/.exec(args)?.[1]);
}

function bytesOf(args: string): Buffer {
  const start = args.indexOf('"') + 1;
  const end = args.indexOf('"', start);
  if (args.startsWith('...', end + 1)) throw new Error('the recording cut a write short');
  return Buffer.from(args.slice(start, end).replaceAll('\\x', ''), 'hex');
}

/** strace writes paths in hex or plain, depending on its edition. */
function textOf(hex: string): string {
  if (!hex.startsWith('\\x')) return hex;
  return Buffer.from(hex.replaceAll('\\x', ''), 'hex').toString('utf8');
}
