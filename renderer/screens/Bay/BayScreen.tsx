/**
 * Bay: the floor (from its survey, or read here with the staff), its survey, space, light and the instruments' due dates; one
 * part at a time, what is drawn large and what is entered beside it.
 */
import { type ReactNode, useEffect, useState } from 'react';
import { supportCaution } from '../../../core/bay/support.ts';
import { bayTroubles, supportOf } from '../../../core/job/bayTroubles.ts';
import { takesSurvey } from '../../../core/job/floorSupply.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import { CAR_SIZE_FIELDS, PARKED_FIELDS } from '../../../core/job/parking.ts';
import { stageById } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useSensorInSight } from '../../state/sensorInSight.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Notice } from '../../ui/Notice.tsx';
import { Cautions } from '../fields/Cautions.tsx';
import { NoSensorYet } from '../fields/NoSensorYet.tsx';
import { SensorTabs } from '../fields/SensorTabs.tsx';
import { StageForm } from '../fields/StageForm.tsx';
import { DeskPhotos } from '../readings/DeskPhotos.tsx';
import { ReadingDesk } from '../readings/ReadingDesk.tsx';
import { BayPart, type BayPartName, BayTabs } from './BayPart.tsx';
import { DuePart } from './DuePart.tsx';
import { FieldsOf } from './FieldsOf.tsx';
import { FloorWay } from './FloorWay.tsx';
import { LightPart } from './LightPart.tsx';
import { isFormField, partOfField } from './ownFields.ts';
import { SpacePart } from './SpacePart.tsx';
import { SuppliedHeights, SurveyedFloorView } from './SurveyedFloorView.tsx';
import { SurveyPart } from './SurveyPart.tsx';
import { TroubleNotice } from './TroubleNotice.tsx';

interface FloorPartProps {
  readonly held: HeldJob;
  readonly sensor: JobSensor;
  readonly tabs: ReactNode;
  readonly onSurvey: () => void;
}

/** What forbids a verdict on this floor: said before everything else. */
function Refusals({ held, sensor }: { readonly held: HeldJob; readonly sensor: JobSensor }): ReactNode {
  const troubles = bayTroubles(held.job).filter(
    (each) => each.sensor === null || each.sensor === sensor.sensor,
  );
  const support = supportOf(held.job);
  const caution = support === undefined ? undefined : supportCaution(support);
  return (
    <>
      {caution === undefined || troubles.some((each) => each.code === 'bay.support') ? null : (
        <Notice title={say(caution)} />
      )}
      {troubles.map((trouble) =>
        trouble.why === undefined || trouble.code === 'bay.survey' ? null : (
          <TroubleNotice key={trouble.code} error={trouble.why} />
        ),
      )}
    </>
  );
}

function FloorPart({ held, sensor, tabs, onSurvey }: FloorPartProps): ReactNode {
  const stage = stageById('bay');
  const side = (
    <>
      <SensorTabs held={held} />
      <Refusals held={held} sensor={sensor} />
      <FloorWay held={held} onSurvey={onSurvey} />
    </>
  );
  const form = (
    <>
      <StageForm held={held} stage={stage} only={isFormField} />
      <Cautions keys={stage.cautions} />
    </>
  );
  if (takesSurvey(held.job)) {
    return (
      <BayPart tabs={tabs} main={<SurveyedFloorView job={held.job} sensor={sensor} />}>
        {side}
        <SuppliedHeights job={held.job} sensor={sensor} />
        <section className="sheet">
          <h2 className="overline">{say('bay.floor.parked')}</h2>
          <FieldsOf held={held} names={PARKED_FIELDS} />
          <h2 className="overline">{say('bay.floor.car')}</h2>
          <FieldsOf held={held} names={CAR_SIZE_FIELDS} />
        </section>
        {form}
        <DeskPhotos held={held} stage="bay" sensor={sensor.sensor} />
      </BayPart>
    );
  }
  return (
    <ReadingDesk
      held={held}
      sensor={sensor}
      stage="bay"
      side={() => (
        <>
          {tabs}
          {side}
          {form}
        </>
      )}
    />
  );
}

export function BayScreen({ held }: { readonly held: HeldJob }): ReactNode {
  const stage = stageById('bay');
  const sensor = useSensorInSight(held);
  const actions = useActions();
  const [part, setPart] = useState<BayPartName>('floor');
  const focus = useWindow((state) => state.focus);
  // A list that leads to a field of another part opens that part first; then the field is there to be focused.
  useEffect(() => {
    if (focus === null) return;
    const wanted = focus.startsWith('reading:') ? 'floor' : partOfField(focus);
    if (wanted !== undefined && wanted !== part) {
      setPart(wanted);
      return;
    }
    if (focus.startsWith('reading:')) return;
    const field = document.querySelector(`[data-field="${CSS.escape(focus)}"]`);
    field?.scrollIntoView({ block: 'center' });
    field?.querySelector<HTMLElement>('input, button')?.focus();
    if (field !== null) actions.lookAt(null);
  }, [focus, part, actions]);
  if (sensor === undefined) return <NoSensorYet held={held} stage={stage} />;
  const tabs = <BayTabs part={part} onPart={setPart} />;
  switch (part) {
    case 'floor':
      return <FloorPart held={held} sensor={sensor} tabs={tabs} onSurvey={() => setPart('survey')} />;
    case 'survey':
      return <SurveyPart held={held} tabs={tabs} />;
    case 'space':
      return <SpacePart held={held} sensor={sensor} tabs={tabs} />;
    case 'light':
      return <LightPart held={held} sensor={sensor} tabs={tabs} />;
    case 'due':
      return <DuePart held={held} tabs={tabs} />;
  }
}
