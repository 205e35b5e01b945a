/** What every handler works with: the store, the keys, and time and chance from outside. */
import type { CertificateStore } from '../certificate/issue/certificateStore.ts';
import type { Clock, RandomSource } from '../clock.ts';
import type { Host } from '../host/host.ts';
import type { KeyRing } from './keyRing.ts';
import type { Store } from './store.ts';

export interface ServiceContext {
  readonly store: Store;
  readonly keys: KeyRing;
  readonly clock: Clock;
  readonly random: RandomSource;
  readonly version: string;
  readonly build: Host['build'];
  readonly files: Host['files'];
  /** Issued certificates, immutable, named by their digest. */
  readonly archive: CertificateStore;
  readonly print: Host['print'];
  readonly notify: Host['notify'];
}
