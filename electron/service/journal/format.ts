/** Marks by which a store file is known as ours, and the shape of a change of its format. */
import type Database from 'better-sqlite3';

/** `application_id` of our files: "DtLj". */
export const APPLICATION_ID = 0x44_74_4c_6a;

/** The word that the store's identity row starts with. */
export const STORE_MAGIC = 'datumline-journal';

/** What a store is born with. */
export type Birth = { readonly storeId: string; readonly utcMs: number; readonly genesis: string };

/** One change of format. Versions are multiples of ten and rise strictly. */
export type MigrationStep = {
  readonly version: number;
  readonly run: (db: Database.Database, birth: Birth) => void;
};
