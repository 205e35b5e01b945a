/** Independent programs that judge our files. One that is not installed is a failure, never a skip. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

export interface ToolAnswer {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

export function runTool(tool: string, ...args: readonly string[]): ToolAnswer {
  const { error, status, stdout, stderr } = spawnSync(tool, args, {
    encoding: 'latin1',
    maxBuffer: 256 * 1024 * 1024,
    env: { ...process.env, LC_ALL: 'C.UTF-8', TZ: 'UTC' },
  });
  if (error !== undefined) throw new Error(`${tool} cannot be run: ${error.message}`);
  return { status: status ?? -1, stdout, stderr };
}

/** A folder that is gone when the test is over. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'certificate-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Writes bytes into a folder that is gone when the test is over, and gives the path. */
export function temporaryFile(name: string, bytes: Uint8Array): string {
  const path = join(temporaryFolder(), name);
  writeFileSync(path, bytes);
  return path;
}
