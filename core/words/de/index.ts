/** The German catalogue: every topic's record mirrors its English one, key by key and slot by slot. */
import { ENTRY_DE } from './entry.ts';

/** Key to German template. */
export const GERMAN = {
  ...ENTRY_DE,
} as const;
