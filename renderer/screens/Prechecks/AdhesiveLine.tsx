/** The adhesive's clock: from when the car may be moved, and until then that it may not. */
import type { ReactNode } from 'react';
import type { HeldJob } from '../../state/heldJob.ts';
import { useLocalNow } from '../../state/localNow.ts';
import { adhesiveWords } from '../../text/adhesiveWords.ts';
import { Icon } from '../../ui/Icon.tsx';

export function AdhesiveLine({ held }: { readonly held: HeldJob }): ReactNode {
  const line = adhesiveWords(held.job, useLocalNow());
  if (line === undefined) return null;
  return (
    <p className={line.forbids ? 'forbids' : 'quiet'} role="status" data-testid="adhesive-clock">
      {line.forbids ? <Icon name="caution" /> : null}
      <span>{line.words}</span>
    </p>
  );
}
