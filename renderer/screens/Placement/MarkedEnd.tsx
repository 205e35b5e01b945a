/** Which of the bar's two painted marks stands at the car's left: asked once, and then named in every move. */
import type { ReactNode } from 'react';
import { atSensor } from '../../../core/job/fieldKey.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { ChoiceField } from '../fields/ChoiceField.tsx';

export function MarkedEnd({
  held,
  sensor,
}: {
  readonly held: HeldJob;
  readonly sensor: JobSensor;
}): ReactNode {
  const marks = sensor.equipment?.fixture.endMarks;
  if (marks === undefined) return null;
  return (
    <section className="sheet">
      <ChoiceField
        held={held}
        field="placement.markedEnd"
        at={atSensor(sensor.sensor)}
        label={say('field.placement.markedEnd')}
        kind="choice"
        items={marks.map((mark) => ({ value: mark, text: mark }))}
      />
    </section>
  );
}
