/** What every handler works with: the store, the keys, and time and chance from outside. */
import type { Clock, RandomSource } from '../clock.ts';
import type { Host } from '../host/host.ts';
import type { ShopKeys } from './shopKeys.ts';
import type { Store } from './store.ts';

export interface ServiceContext {
  readonly store: Store;
  readonly keys: ShopKeys;
  readonly clock: Clock;
  readonly random: RandomSource;
  readonly version: string;
  readonly build: Host['build'];
  readonly files: Host['files'];
  readonly notify: Host['notify'];
}
