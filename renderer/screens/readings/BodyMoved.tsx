/** One tap says that the car or the fixture moved: a new set-up of it begins, and what it spoils is asked for again. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { movedFact } from '../../state/moves.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';

export function BodyMoved({
  held,
  bodies,
  within = '',
}: {
  readonly held: HeldJob;
  readonly bodies: readonly ('car' | 'fixture')[];
  /** Tells two of them on one screen apart. */
  readonly within?: string;
}): ReactNode {
  const actions = useActions();
  const { job } = held;
  return (
    <div className="moved">
      {bodies.map((body) => (
        <Button
          key={body}
          icon="moved"
          testId={`${within}${body}-moved`}
          onPress={() => void actions.record(job.id, [movedFact(job, body)])}
        >
          {say(`act.${body}Moved`)}
        </Button>
      ))}
    </div>
  );
}
