/**
 * The contract's names and limits without its schemas. The build replaces this module by its value: main and preload
 * then carry no schema library, and the schemas are applied in one place, the service.
 */
import { calls, notices } from '../../core/contract/index.ts';

/** Largest accepted input of each call, characters of JSON. */
export const callLimits: Readonly<Record<string, number>> = Object.freeze(
  Object.fromEntries(Object.entries(calls).map(([name, { limit }]) => [name, limit])),
);

export const noticeNames: readonly string[] = Object.freeze(Object.keys(notices));
