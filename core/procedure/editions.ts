/**
 * Editions of a procedure: what counts as its content, and how a review joins it without touching that content. A
 * changed value is a new entry and needs its own review; who reviewed, when and how is no content.
 */
import { canonicalJson, type JsonObject, sha256Hex } from '../canonical.ts';
import type { Procedure, ProcedureReview } from './schema.ts';

/**
 * SHA-256 over the canonical text of everything a reviewer looks at: all but the review itself, the edition's number and
 * the kept page, which never leaves this PC. Two procedures with one digest say the same about a car.
 */
export function contentDigest(procedure: Procedure): string {
  const { edition: _edition, source, ...rest } = procedure;
  const { reviewedBy: _by, reviewWay: _way, review: _review, page: _page, ...read } = source;
  return sha256Hex(canonicalJson({ ...rest, source: read } as unknown as JsonObject));
}

/** The same content before any review: for rehearsal only. */
export function unreviewed(procedure: Procedure): Procedure {
  const { review: _review, ...source } = procedure.source;
  return { ...procedure, source: { ...source, reviewedBy: null, reviewWay: 'unreviewed' } };
}

/** The same content with a review by `by`. Whether who and how fit together is for `checkProcedure` to say. */
export function reviewed(
  procedure: Procedure,
  way: Exclude<Procedure['source']['reviewWay'], 'unreviewed'>,
  by: string,
  review: ProcedureReview,
): Procedure {
  return { ...procedure, source: { ...procedure.source, reviewedBy: by, reviewWay: way, review } };
}
