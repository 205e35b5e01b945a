/** A procedure's edition, source and review in one line. */
import type { Procedure } from '../../core/procedure/schema.ts';
import { say } from '../../core/words/index.ts';

export function procedureLine({ source, edition }: Procedure): string {
  return say('procedure.line', {
    edition: String(edition),
    document: source.document,
    section: source.section,
    review: say(`review.${source.reviewWay}`),
  });
}
