/** Bay: what the car stands on, light and room in a form; the floor's heights at six places as readings. */
import type { ReactNode } from 'react';
import { stageById } from '../../../core/job/stages/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useSensorInSight } from '../../state/sensorInSight.ts';
import { Cautions } from '../fields/Cautions.tsx';
import { NoSensorYet } from '../fields/NoSensorYet.tsx';
import { StageForm } from '../fields/StageForm.tsx';
import { ReadingDesk } from '../readings/ReadingDesk.tsx';
import { isFormField } from './ownFields.ts';

export function BayScreen({ held }: { readonly held: HeldJob }): ReactNode {
  const stage = stageById('bay');
  const sensor = useSensorInSight(held);
  if (sensor === undefined) return <NoSensorYet held={held} stage={stage} />;
  return (
    <ReadingDesk
      held={held}
      sensor={sensor}
      stage="bay"
      side={() => (
        <>
          <StageForm held={held} stage={stage} only={isFormField} />
          <Cautions keys={stage.cautions} />
        </>
      )}
    />
  );
}
