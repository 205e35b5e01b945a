/** Which screen a stage has. A job that is signed shows everything and takes nothing more. */
import type { ReactNode } from 'react';
import type { Assessment } from '../../../core/job/assess.ts';
import type { StageId } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { Notice } from '../../ui/Notice.tsx';
import { BayScreen } from '../Bay/BayScreen.tsx';
import { DatumScreen } from '../Datum/DatumScreen.tsx';
import { IntakeScreen } from '../Intake/IntakeScreen.tsx';
import { OutcomeScreen } from '../Outcome/OutcomeScreen.tsx';
import { PlacementScreen } from '../Placement/PlacementScreen.tsx';
import { PrechecksScreen } from '../Prechecks/PrechecksScreen.tsx';
import { SignOffScreen } from '../SignOff/SignOffScreen.tsx';
import { StationsScreen } from '../Stations/StationsScreen.tsx';
import { HistoryView } from './HistoryView.tsx';

interface StageViewProps {
  readonly held: HeldJob;
  readonly view: StageId | 'history';
  readonly assessment: Assessment;
}

function stageScreen({ held, view, assessment }: StageViewProps): ReactNode {
  switch (view) {
    case 'history':
      return <HistoryView held={held} />;
    case 'intake':
      return <IntakeScreen held={held} />;
    case 'prechecks':
      return <PrechecksScreen held={held} />;
    case 'outcome':
      return <OutcomeScreen held={held} />;
    case 'bay':
      return <BayScreen held={held} />;
    case 'datum':
      return <DatumScreen held={held} />;
    case 'placement':
      return <PlacementScreen held={held} />;
    case 'stations':
      return <StationsScreen held={held} />;
    case 'signoff':
      return <SignOffScreen held={held} assessment={assessment} />;
  }
}

export function StageView(props: StageViewProps): ReactNode {
  const signed = props.held.job.certificates.length > 0;
  const open = props.view === 'signoff' || props.view === 'history';
  if (!signed || open) return stageScreen(props);
  return (
    <>
      <Notice title={say('signed.title')}>
        <p>{say('signed.words')}</p>
      </Notice>
      <fieldset className="signed" disabled>
        {stageScreen(props)}
      </fieldset>
    </>
  );
}
