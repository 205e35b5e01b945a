/** This installation's signing key: made once, opened by a passphrase, then only in this process's memory. */
import { readFileSync } from 'node:fs';
import { open, rename } from 'node:fs/promises';
import { join } from 'node:path';
import type { Output } from '../../../core/contract/index.ts';
import { err, ok, type Result } from '../../../core/result.ts';
import type { Clock, RandomSource } from '../clock.ts';
import type { CallError } from '../host/handlers.ts';
import { readKeyFileHead } from '../keys/keyFile.ts';
import { createShopKeys, fingerprintOf } from '../keys/shopKeys.ts';
import { type OpenedKey, openSigningKeyFile } from '../keys/signingKey.ts';

const KEY_FILE = 'installation.dtlkey';

export class KeyRing {
  private readonly path: string;
  private readonly folder: string;
  private readonly clock: Clock;
  private readonly random: RandomSource;
  private opened: OpenedKey | undefined;

  constructor(folder: string, clock: Clock, random: RandomSource) {
    this.folder = folder;
    this.path = join(folder, KEY_FILE);
    this.clock = clock;
    this.random = random;
  }

  private head() {
    try {
      const head = readKeyFileHead(readFileSync(this.path));
      return head.ok ? head.value : undefined;
    } catch {
      // No file yet, or one that may not be read: both mean that there is no key to sign with.
      return undefined;
    }
  }

  state(): Output<'app.status'>['key'] {
    if (this.opened !== undefined) return 'open';
    return this.head() === undefined ? 'none' : 'locked';
  }

  /** Of the shop root, 64 lower-case digits; empty while there is no key. */
  rootFingerprint(): string {
    const root = this.opened?.chain.at(-1) ?? this.head()?.chain.at(-1);
    return root === undefined ? '' : fingerprintOf(root);
  }

  /** The open key, or why nothing can be signed now. */
  signing(): Result<OpenedKey, CallError> {
    if (this.opened !== undefined) return ok(this.opened);
    return err({
      code: this.state() === 'none' ? 'keys/missing' : 'keys/locked',
      details: { file: KEY_FILE },
    });
  }

  /** Makes root and leaf and opens the leaf. The owner's root file is returned and kept nowhere. */
  async create(
    shopName: string,
    installationName: string,
    passphrase: string,
  ): Promise<Result<{ readonly rootKeyFile: Uint8Array }, CallError>> {
    const made = await createShopKeys({
      shopName,
      installationName,
      passphrase,
      rootPassphrase: passphrase,
      now: new Date(this.clock.now().utcMs),
      random: this.random,
    });
    await this.keep(made.leafFile);
    const opened = await this.open(passphrase);
    return opened.ok ? ok({ rootKeyFile: made.rootFile }) : opened;
  }

  async open(passphrase: string): Promise<Result<undefined, CallError>> {
    const opened = await openSigningKeyFile(this.path, passphrase);
    if (!opened.ok) return err({ code: opened.error.code, details: { file: KEY_FILE } });
    this.opened = opened.value;
    return ok(undefined);
  }

  /** Whole or not at all: written aside, synced, renamed. */
  private async keep(bytes: Uint8Array): Promise<void> {
    const part = join(this.folder, `${KEY_FILE}.part`);
    const file = await open(part, 'w', 0o600);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(part, this.path);
  }
}
