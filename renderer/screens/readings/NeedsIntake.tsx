/** Readings need to know what they are for and what they are read with: says what is not chosen yet and leads there. */
import type { ReactNode } from 'react';
import type { JobSensor } from '../../../core/job/job.ts';
import { say } from '../../../core/words/index.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';

export function NeedsIntake({
  job,
  sensor,
}: {
  readonly job: string;
  readonly sensor: JobSensor;
}): ReactNode {
  const actions = useActions();
  const lacks = sensor.procedure === null ? 'procedure' : 'equipment';
  return (
    <section className="reading" data-testid="needs-intake">
      <h2>{say(sensor.procedure === null ? 'solve.noProcedure' : 'solve.noEquipment')}</h2>
      <div>
        <Button
          weight="main"
          onPress={() => {
            actions.go({ screen: 'job', job, view: 'intake' });
            actions.lookAt(`intake.${lacks}@${sensor.sensor}`);
          }}
        >
          {say('act.toIntake')}
        </Button>
      </div>
    </section>
  );
}
