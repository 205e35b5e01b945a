/** Outcome: per sensor what the routine answered and the tool's own report, then codes, road check, handover, photos. */
import type { ReactNode } from 'react';
import { stageById } from '../../../core/job/stages/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { Cautions } from '../fields/Cautions.tsx';
import { NoSensorYet } from '../fields/NoSensorYet.tsx';
import { PhotoPanel } from '../fields/PhotoPanel.tsx';
import { groupsOf, StageForm } from '../fields/StageForm.tsx';
import { ReportPanels } from './ReportPanel.tsx';

export function OutcomeScreen({ held }: { readonly held: HeldJob }): ReactNode {
  const stage = stageById('outcome');
  if (groupsOf(held, stage).length === 0) return <NoSensorYet held={held} stage={stage} />;
  return (
    <div className="form-screen">
      <Cautions keys={stage.cautions} />
      <StageForm held={held} stage={stage} />
      <ReportPanels held={held} />
      <PhotoPanel held={held} stage="outcome" />
    </div>
  );
}
