/** What the toes of the alignment report say together, as they are typed. */
import type { ReactNode } from 'react';
import { alignmentFacts } from '../../../core/job/alignment.ts';
import { alignmentTexts } from '../../../core/job/alignmentText.ts';
import type { HeldJob } from '../../state/heldJob.ts';

export function AlignmentLine({ held }: { readonly held: HeldJob }): ReactNode {
  const lines = alignmentTexts(alignmentFacts(held.job));
  if (lines.length === 0) return null;
  return (
    <dl className="facts" data-testid="alignment-facts">
      {lines.map((line) => (
        <div key={line.label}>
          <dt>{line.label}</dt>
          <dd>{line.value}</dd>
        </div>
      ))}
    </dl>
  );
}
