/** The way in for a network document from outside: a file, a test, another program. */
import { err, ok, type Result } from '../result.ts';
import type { AdjustError } from './errors.ts';
import { type Network, networkSchema } from './network.ts';

/** At most this many faults of a document are told at once. */
const MOST_ISSUES = 20;

/** Reads a document strictly: unknown fields, wrong types and numbers that are not finite are told by their path. */
export function parseNetwork(document: unknown): Result<Network, AdjustError> {
  const parsed = networkSchema.safeParse(document);
  if (parsed.success) return ok(parsed.data);
  const issues = parsed.error.issues
    .slice(0, MOST_ISSUES)
    .map((issue) => `${issue.path.map(String).join('.')}: ${issue.message}`);
  return err({ code: 'adjust/invalidNetwork', ids: [], cure: 'correctDocument', issues });
}
