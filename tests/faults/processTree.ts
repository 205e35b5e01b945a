/** A process with everything it has started, ended at one stroke as by a power button: for processes of our own only. */
import { readdirSync, readFileSync } from 'node:fs';

/** Parent of each running process, by process number. */
function parents(): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    try {
      // "123 (a name) S 122 ...": the name may hold blanks and brackets, so what counts stands after the last one.
      const stat = readFileSync(`/proc/${name}/stat`, 'latin1');
      const [, parent] = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
      found.set(Number(name), Number(parent));
    } catch {
      // It ended while we looked.
    }
  }
  return found;
}

/** `pid` and all its descendants, the eldest first. */
export function treeOf(pid: number): readonly number[] {
  const parentOf = parents();
  const tree = [pid];
  for (const member of tree) {
    for (const [child, parent] of parentOf) if (parent === member) tree.push(child);
  }
  return tree;
}

/** Sends SIGKILL to all of them. Returns how many were there. */
export function killTree(pid: number): number {
  const tree = treeOf(pid);
  for (const member of tree) {
    try {
      process.kill(member, 'SIGKILL');
    } catch {
      // Its parent's end has ended it already.
    }
  }
  return tree.length;
}
