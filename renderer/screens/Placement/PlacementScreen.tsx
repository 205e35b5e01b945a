/** Placement: plan, cards, the readings of the fixture, and the moves that bring it where it must stand. */
import { type ReactNode, useState } from 'react';
import { atSensor, fieldKey } from '../../../core/job/fieldKey.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import { stageById } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { movesDoneFact } from '../../state/moves.ts';
import { movesUnderWay, stationNow } from '../../state/movesUnderWay.ts';
import { quickMoveFact } from '../../state/quickGuide.ts';
import { useSensorInSight } from '../../state/sensorInSight.ts';
import { useActions } from '../../state/windowContext.tsx';
import { NoSensorYet } from '../fields/NoSensorYet.tsx';
import { SensorTabs } from '../fields/SensorTabs.tsx';
import { BodyMoved } from '../readings/BodyMoved.tsx';
import { DistanceCover } from '../readings/DistanceCover.tsx';
import { Findings, StillOpen } from '../readings/Findings.tsx';
import { PlanCard } from '../readings/PlanCard.tsx';
import { type DeskFacts, ReadingDesk } from '../readings/ReadingDesk.tsx';
import { SolveTrouble } from '../readings/SolveTrouble.tsx';
import { CoordinateCards } from './CoordinateCards.tsx';
import { MarkedEnd } from './MarkedEnd.tsx';
import { MoveList } from './MoveList.tsx';
import { QuickCard } from './QuickCard.tsx';
import { Retake } from './Retake.tsx';

function PlacementSide({ held, facts }: { readonly held: HeldJob; readonly facts: DeskFacts }): ReactNode {
  const { answer, view, preview, slots, quick } = facts;
  const actions = useActions();
  const station = stationNow(answer, view.stations);
  const list = movesUnderWay(held, view.sensor);
  if (!view.answer.ok && answer === undefined) {
    return <SolveTrouble error={view.answer.error} recipe={view.recipe} />;
  }
  const recorded = view.answer.ok ? view.answer.value.vehicle : undefined;
  return (
    <>
      {answer === undefined ? null : <Findings answer={answer} recipe={view.recipe} />}
      {list === undefined ? null : (
        <MoveList
          list={list}
          recipe={view.recipe}
          onDone={(moves) => void actions.record(held.job.id, [movesDoneFact(held.job, moves)])}
        />
      )}
      {quick === undefined ? null : (
        <QuickCard
          guide={quick}
          onPick={facts.onPick}
          onDone={() => void actions.record(held.job.id, [quickMoveFact(held.job, quick)])}
          onSkip={() => actions.skipQuick(quick.key)}
        />
      )}
      {list === undefined && quick === undefined ? <Retake slots={slots} /> : null}
      {station === undefined ? (
        <NotPlaced
          facts={facts}
          quiet={list !== undefined || quick !== undefined || slots.some((slot) => slot.state === 'earlier')}
        />
      ) : (
        <div className={preview ? 'previewing' : undefined}>
          {preview ? <p className="preview-words">{say('plan.previewWords')}</p> : null}
          <CoordinateCards
            station={station}
            requirement={view.stations[0]}
            rule={held.job.decisionRule}
            rows={list !== undefined}
          />
        </div>
      )}
      <PlanCard
        job={held.job}
        sensor={view.sensor}
        vehicle={recorded}
        begun={slots.some((slot) => slot.standing.length > 0 || slot.past.length > 0)}
      />
    </>
  );
}

/** Before the fixture is known: what this place is for and what is still to be read. */
function NotPlaced({ facts, quiet }: { readonly facts: DeskFacts; readonly quiet: boolean }): ReactNode {
  const { answer, view } = facts;
  if (quiet) return null;
  return (
    <section className="sheet empty" data-testid="not-placed">
      <p>{say('placement.notYet')}</p>
      {answer === undefined ? null : <StillOpen answer={answer} recipe={view.recipe} />}
    </section>
  );
}

/** Which mark is at the car's left is asked before anything is read, and out of the way once it is answered. */
function isMarked(held: HeldJob, sensor: string): boolean {
  return held.job.fields[fieldKey('placement.markedEnd', atSensor(sensor))] !== undefined;
}

function SensorPlacement({
  held,
  sensor,
}: {
  readonly held: HeldJob;
  readonly sensor: JobSensor;
}): ReactNode {
  // As it was when the stage was opened: nothing moves away under the finger that answers.
  const [marked] = useState(() => isMarked(held, sensor.sensor));
  const markedEnd = <MarkedEnd held={held} sensor={sensor} />;
  return (
    <ReadingDesk
      held={held}
      sensor={sensor}
      stage="placement"
      foot={<BodyMoved held={held} bodies={['fixture', 'car']} />}
      side={(facts) => (
        <>
          <SensorTabs held={held} />
          {marked ? null : markedEnd}
          <PlacementSide held={held} facts={facts} />
          {marked ? markedEnd : null}
          <DistanceCover
            station={stationNow(facts.answer, facts.view.stations)}
            requirement={facts.view.stations[0]}
            rule={held.job.decisionRule}
            preview={facts.preview}
          />
        </>
      )}
    />
  );
}

export function PlacementScreen({ held }: { readonly held: HeldJob }): ReactNode {
  const sensor = useSensorInSight(held);
  if (sensor === undefined) return <NoSensorYet held={held} stage={stageById('placement')} />;
  return <SensorPlacement key={sensor.sensor} held={held} sensor={sensor} />;
}
