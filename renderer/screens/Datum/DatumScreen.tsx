/** Datum: the lap round the car; what it proves of the car stands beside it as soon as it is known. */
import type { ReactNode } from 'react';
import { stageById } from '../../../core/job/stages/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useSensorInSight } from '../../state/sensorInSight.ts';
import { Cautions } from '../fields/Cautions.tsx';
import { NoSensorYet } from '../fields/NoSensorYet.tsx';
import { SensorTabs } from '../fields/SensorTabs.tsx';
import { StageForm } from '../fields/StageForm.tsx';
import { BodyMoved } from '../readings/BodyMoved.tsx';
import { Findings, StillOpen } from '../readings/Findings.tsx';
import { PlanCard } from '../readings/PlanCard.tsx';
import { type DeskFacts, ReadingDesk } from '../readings/ReadingDesk.tsx';
import { SolveTrouble } from '../readings/SolveTrouble.tsx';
import { CarFound } from './CarFound.tsx';

function DatumSide({ held, facts }: { readonly held: HeldJob; readonly facts: DeskFacts }): ReactNode {
  const { answer, view, preview, slots } = facts;
  const begun = slots.some((slot) => slot.standing.length > 0);
  const found = view.answer.ok ? view.answer.value.vehicle : undefined;
  const plan = <PlanCard job={held.job} sensor={view.sensor} vehicle={found} begun={begun} />;
  return (
    <>
      {begun ? null : plan}
      {view.answer.ok ? null : <SolveTrouble error={view.answer.error} recipe={view.recipe} />}
      {answer === undefined ? null : <Findings answer={answer} recipe={view.recipe} />}
      <CarFound vehicle={answer?.vehicle} preview={preview}>
        {answer === undefined ? null : <StillOpen answer={answer} recipe={view.recipe} />}
      </CarFound>
      {begun ? plan : null}
    </>
  );
}

export function DatumScreen({ held }: { readonly held: HeldJob }): ReactNode {
  const stage = stageById('datum');
  const sensor = useSensorInSight(held);
  if (sensor === undefined) return <NoSensorYet held={held} stage={stage} />;
  return (
    <ReadingDesk
      key={sensor.sensor}
      held={held}
      sensor={sensor}
      stage="datum"
      foot={<BodyMoved held={held} bodies={['car']} />}
      side={(facts) => (
        <>
          <SensorTabs held={held} />
          <DatumSide held={held} facts={facts} />
          <StageForm held={held} stage={stage} />
          <Cautions keys={stage.cautions} />
        </>
      )}
    />
  );
}
