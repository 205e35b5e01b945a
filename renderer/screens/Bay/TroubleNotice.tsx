/** A refusal of the bay in its sentences: the caution first where there is one. */
import type { ReactNode } from 'react';
import { troubleOf } from '../../../core/bay/trouble.ts';
import { Notice } from '../../ui/Notice.tsx';

export function TroubleNotice({
  error,
  buttons,
}: {
  readonly error: Parameters<typeof troubleOf>[0];
  readonly buttons?: ReactNode;
}): ReactNode {
  const { caution, what, next, safe } = troubleOf(error);
  return (
    <Notice tone="trouble" title={what} buttons={buttons}>
      {caution === undefined ? null : <p className="strong">{caution}</p>}
      <p>{next}</p>
      <p className="quiet">{safe}</p>
    </Notice>
  );
}
