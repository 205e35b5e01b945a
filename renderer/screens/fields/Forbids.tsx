/** An answer that forbids the work says so where it was given, and leads to the one honest way on. */
import type { ReactNode } from 'react';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import { say } from '../../../core/words/index.ts';
import { fieldFact } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { Icon } from '../../ui/Icon.tsx';

const REASON = 'signoff.stopReason';
const CHECK_FAILED = 'preCheckFailed';

export function Forbids({ held }: { readonly held: HeldJob }): ReactNode {
  const actions = useActions();
  const endHere = async (): Promise<void> => {
    const job = held.job.id;
    if (held.job.fields[REASON] === undefined) {
      const fact = fieldFact(REASON, wholeJob, CHECK_FAILED, CHECK_FAILED);
      const answer = await actions.record(job, [fact], { key: REASON, value: CHECK_FAILED });
      if (!answer.ok) return;
    }
    actions.go({ screen: 'job', job, view: 'signoff' });
  };
  return (
    <div className="forbids" role="note" data-testid="forbids">
      <Icon name="caution" />
      <span>{say('check.forbids')}</span>
      <Button onPress={() => void endHere()}>{say('check.endHere')}</Button>
    </div>
  );
}
