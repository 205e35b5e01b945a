/** Pre-checks: one walk round the car, group after group, with the adhesive's clock and the report's totals in their place. */
import type { ReactNode } from 'react';
import type { Walk } from '../../../core/job/stages/index.ts';
import { stageById } from '../../../core/job/stages/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { Cautions } from '../fields/Cautions.tsx';
import { NoSensorYet } from '../fields/NoSensorYet.tsx';
import { PhotoPanel } from '../fields/PhotoPanel.tsx';
import { groupsOf, StageForm } from '../fields/StageForm.tsx';
import { AdhesiveLine } from './AdhesiveLine.tsx';
import { AlignmentLine } from './AlignmentLine.tsx';

function foot(held: HeldJob, walk: Walk | undefined): ReactNode {
  if (walk === 'windscreen') return <AdhesiveLine held={held} />;
  if (walk === 'alignment') return <AlignmentLine held={held} />;
  return null;
}

export function PrechecksScreen({ held }: { readonly held: HeldJob }): ReactNode {
  const stage = stageById('prechecks');
  if (groupsOf(held, stage).length === 0) return <NoSensorYet held={held} stage={stage} />;
  return (
    <div className="form-screen">
      <Cautions keys={stage.cautions} />
      <StageForm held={held} stage={stage} foot={(walk) => foot(held, walk)} />
      <PhotoPanel held={held} stage="prechecks" />
    </div>
  );
}
