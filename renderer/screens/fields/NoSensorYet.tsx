/** A stage in which nothing can be done yet. */
import type { ReactNode } from 'react';
import type { Stage } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { Button } from '../../ui/Button.tsx';

/** Nothing can be done in a stage before a sensor is to be calibrated: says so and leads there. */
export function NoSensorYet({ held, stage }: { readonly held: HeldJob; readonly stage: Stage }): ReactNode {
  const actions = useActions();
  return (
    <section className="sheet empty" data-testid="no-sensor">
      <h2>{sayKey(stage.purpose)}</h2>
      <p>{say('empty.noSensor')}</p>
      <Button weight="main" onPress={() => actions.go({ screen: 'job', job: held.job.id, view: 'intake' })}>
        {say('act.toIntake')}
      </Button>
    </section>
  );
}
