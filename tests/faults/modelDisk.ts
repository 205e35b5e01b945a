/**
 * A disk that forgets: what was flushed stays, of everything else a power cut keeps what it likes, down to single sectors, and
 * names of new or removed files in the order they were made, up to any point.
 */

import type { SeededRandom } from './seededRandom.ts';
import type { DiskCall } from './systemCalls.ts';

/** How much of what was not flushed survives: nothing, any of the writes, or any of their sectors. */
export type CutKind = 'flushedOnly' | 'someWrites' | 'someSectors';

/** What is on the disk after a cut: contents by file name. */
export type DiskImage = ReadonlyMap<string, Buffer>;

/** Disks keep or lose a sector whole. */
const SECTOR = 512;

type Change = Extract<DiskCall, { kind: 'write' | 'resize' }>;
type File = { flushed: Buffer; readonly pending: Change[] };
type NameChange = { readonly name: string; readonly file: File | undefined };

export type ModelDisk = {
  readonly take: (call: DiskCall) => void;
  readonly cut: (kind: CutKind, random: SeededRandom) => DiskImage;
};

export function modelDisk(): ModelDisk {
  const flushedNames = new Map<string, File>();
  const names = new Map<string, File>();
  const pendingNames: NameChange[] = [];

  function changeName(name: string, file: File | undefined): void {
    pendingNames.push({ name, file });
    applyName(names, { name, file });
  }

  function fileOf(name: string): File {
    const file = names.get(name);
    if (file === undefined) throw new Error(`the recording uses ${name} before it was made`);
    return file;
  }

  return {
    take(call) {
      switch (call.kind) {
        case 'make':
          changeName(call.name, { flushed: Buffer.alloc(0), pending: [] });
          break;
        case 'remove':
          changeName(call.name, undefined);
          break;
        case 'write':
        case 'resize':
          fileOf(call.name).pending.push(call);
          break;
        case 'flush':
          flush(fileOf(call.name));
          break;
        case 'flushNames':
          for (const change of pendingNames.splice(0)) applyName(flushedNames, change);
          break;
        case 'say':
          break;
      }
    },
    cut(kind, random) {
      const kept = new Map(flushedNames);
      const namesKept = kind === 'flushedOnly' ? 0 : random.whole(0, pendingNames.length);
      for (const change of pendingNames.slice(0, namesKept)) applyName(kept, change);
      return new Map([...kept].map(([name, file]) => [name, contentAfterCut(file, kind, random)]));
    },
  };
}

function applyName(names: Map<string, File>, { name, file }: NameChange): void {
  if (file === undefined) names.delete(name);
  else names.set(name, file);
}

function flush(file: File): void {
  file.flushed = changed(file.flushed, file.pending.splice(0));
}

function contentAfterCut(file: File, kind: CutKind, random: SeededRandom): Buffer {
  if (kind === 'flushedOnly') return file.flushed;
  const parts = kind === 'someSectors' ? file.pending.flatMap(sectorsOf) : file.pending;
  // Half of the cuts lose little, half lose much.
  const keep = random.chance(0.5) ? 0.9 : 0.3;
  return changed(
    file.flushed,
    parts.filter(() => random.chance(keep)),
  );
}

function sectorsOf(change: Change): readonly Change[] {
  if (change.kind === 'resize') return [change];
  const sectors: Change[] = [];
  let from = 0;
  while (from < change.data.length) {
    const offset = change.offset + from;
    const to = Math.min(change.data.length, from + SECTOR - (offset % SECTOR));
    sectors.push({ ...change, offset, data: change.data.subarray(from, to) });
    from = to;
  }
  return sectors;
}

function changed(content: Buffer, changes: readonly Change[]): Buffer {
  const needed = changes.map((each) => (each.kind === 'write' ? each.offset + each.data.length : each.size));
  const room = Buffer.alloc(Math.max(content.length, ...needed));
  content.copy(room);
  let size = content.length;
  for (const change of changes) {
    if (change.kind === 'write') {
      change.data.copy(room, change.offset);
      size = Math.max(size, change.offset + change.data.length);
    } else {
      if (change.size < size) room.fill(0, change.size, size);
      size = change.size;
    }
  }
  return room.subarray(0, size);
}
