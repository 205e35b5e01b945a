/** Ids made in the window: commands, readings, sensors. */
import { UUID_RANDOM_BYTES, uuidV7 } from '../../core/job/ids.ts';

/** A fresh UUIDv7 of this moment. */
export function newId(): string {
  return uuidV7(Date.now(), crypto.getRandomValues(new Uint8Array(UUID_RANDOM_BYTES)));
}
