/**
 * The procedures of a shop as they change: a later edition takes the place of the one before, which is kept to compare
 * with; what is new is unreviewed; a review may change nothing but the review.
 */
import { checkProcedure, contentDigest, isReviewed } from '../procedure/index.ts';
import type { Procedure } from '../procedure/schema.ts';
import { err, ok, type Result } from '../result.ts';
import { MOST_FORMER, type Shop } from './shop.ts';

/** Why a procedure is not taken: whose it is, a review of something else, or an edition that exists. */
export type ProcedureRefusal =
  | 'procedure/notInOwnName'
  | 'procedure/reviewNotFitting'
  | 'procedure/editionTaken';

/** The shop with this procedure in the place of its earlier edition; a reviewed edition with other content is kept beside. */
export function withProcedure(shop: Shop, procedure: Procedure): Shop {
  const held = shop.procedures.find((each) => each.id === procedure.id);
  const at = held === undefined ? shop.procedures.length : shop.procedures.indexOf(held);
  const procedures = shop.procedures.toSpliced(at, held === undefined ? 0 : 1, procedure);
  if (held === undefined || !isReviewed(held) || contentDigest(held) === contentDigest(procedure)) {
    return { ...shop, procedures };
  }
  const former = [...(shop.formerProcedures ?? []), held].slice(-MOST_FORMER);
  return { ...shop, procedures, formerProcedures: former };
}

function newEntry(shop: Shop, person: string, procedure: Procedure): ProcedureRefusal | undefined {
  if (procedure.source.enteredBy !== person) return 'procedure/notInOwnName';
  const held = shop.procedures.find((each) => each.id === procedure.id);
  if (held === undefined) return undefined;
  const taken = isReviewed(held) ? procedure.edition <= held.edition : procedure.edition < held.edition;
  return taken ? 'procedure/editionTaken' : undefined;
}

function review(shop: Shop, person: string, procedure: Procedure): ProcedureRefusal | undefined {
  const { reviewWay, reviewedBy, enteredBy } = procedure.source;
  const held = shop.procedures.find((each) => each.id === procedure.id);
  const same =
    held !== undefined &&
    held.edition === procedure.edition &&
    held.source.page?.digest === procedure.source.page?.digest &&
    contentDigest(held) === contentDigest(procedure);
  if (!same || checkProcedure(procedure).length > 0) return 'procedure/reviewNotFitting';
  if (reviewWay === 'secondPerson' && reviewedBy !== person) return 'procedure/notInOwnName';
  if (reviewWay === 'ownSecondEntry' && enteredBy !== person) return 'procedure/notInOwnName';
  const { content } = procedure.source.review ?? {};
  return content === undefined || content === contentDigest(procedure)
    ? undefined
    : 'procedure/reviewNotFitting';
}

/**
 * The shop after `person` (a name) recorded a procedure: an entry of their own, unreviewed, or the review of what is
 * here. Fails with `procedure/notInOwnName`, `procedure/reviewNotFitting` (other content, another edition, who and how
 * do not fit), `procedure/editionTaken` (a reviewed edition of that number exists).
 */
export function recordedProcedure(
  shop: Shop,
  person: string,
  procedure: Procedure,
): Result<Shop, ProcedureRefusal> {
  const entered = procedure.source.reviewWay === 'unreviewed';
  const refusal = entered ? newEntry(shop, person, procedure) : review(shop, person, procedure);
  return refusal === undefined ? ok(withProcedure(shop, procedure)) : err(refusal);
}
