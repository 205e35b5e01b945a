/** What kind of build this is: one on another Electron than the pinned one is for tests only. */
import type { BuildKind } from '../service/host/host.ts';

export function buildKind(running: string, pinned: string, isPackaged: boolean): BuildKind {
  if (running !== pinned) return 'test build';
  return isPackaged ? 'release' : 'development';
}
