/** The real clock and the real random source: the only place where the service takes time or chance from the machine. */
import { randomBytes } from 'node:crypto';
import type { EventAt } from '../../core/job/event.ts';
import { UUID_RANDOM_BYTES, uuidV7 } from '../../core/job/ids.ts';

/** What gives the present moment. */
export type Clock = { readonly now: () => EventAt };

/** Random bytes of a cryptographic source. */
export type RandomSource = (bytes: number) => Uint8Array;

/** The machine's clock: UTC, what local time was then and where, and the kernel's clock that only runs forward. */
export const systemClock: Clock = {
  now() {
    const utcMs = Date.now();
    return {
      utcMs,
      offsetMin: -new Date(utcMs).getTimezoneOffset(),
      zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
      monoMs: Number(process.hrtime.bigint() / 1_000_000n),
    };
  },
};

/** The operating system's random source. */
export const systemRandom: RandomSource = (bytes) => new Uint8Array(randomBytes(bytes));

/** A new UUIDv7 of this moment. */
export function newId(clock: Clock = systemClock, random: RandomSource = systemRandom): string {
  return uuidV7(clock.now().utcMs, random(UUID_RANDOM_BYTES));
}
