/** Intake: the table of the stage, and the sensors of this job with what becomes of each. */
import type { ReactNode } from 'react';
import { stageById } from '../../../core/job/stages/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { Cautions } from '../fields/Cautions.tsx';
import { StageForm } from '../fields/StageForm.tsx';
import { SensorList } from './SensorList.tsx';

export function IntakeScreen({ held }: { readonly held: HeldJob }): ReactNode {
  const stage = stageById('intake');
  return (
    <div className="form-screen">
      <Cautions keys={stage.cautions} />
      <StageForm held={held} stage={stage}>
        <SensorList held={held} />
      </StageForm>
    </div>
  );
}
