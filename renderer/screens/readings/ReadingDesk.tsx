/**
 * The readings of one stage: the plan with the points of the current reading, the lap of all readings as a strip, and
 * the current reading large below. The next one opens by itself after an entry.
 */
import { type ReactNode, useCallback, useMemo, useState } from 'react';
import type { JobSensor } from '../../../core/job/job.ts';
import type { StageId } from '../../../core/job/stages/index.ts';
import type { PlacementAnswer } from '../../../core/placement/types.ts';
import { SimulatedFixture } from '../../rehearsal/SimulatedFixture.tsx';
import { controlSlot, useControlDue } from '../../state/controlSlot.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { type PlacementView, placementView, previewAnswer } from '../../state/placementView.ts';
import { nextSlot, type Slot, slotsOf } from '../../state/readings.ts';
import { typedPreviews } from '../../state/typedPreviews.ts';
import { readingFocusKey } from '../../state/useFocusKey.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { ControlCard } from './ControlCard.tsx';
import { DeskTools } from './DeskTools.tsx';
import { LapStrip } from './LapStrip.tsx';
import { NeedsIntake } from './NeedsIntake.tsx';
import { PlanView } from './PlanView.tsx';
import { ReadingPanel } from './ReadingPanel.tsx';
import { SaidLines } from './SaidLines.tsx';

/** What the side of the desk may show: the answer with what is typed in it. */
export interface DeskFacts {
  readonly view: PlacementView;
  readonly slots: readonly Slot[];
  readonly answer: PlacementAnswer | undefined;
  /** True while the answer holds typed values that are not recorded. */
  readonly preview: boolean;
}

interface ReadingDeskProps {
  readonly held: HeldJob;
  readonly sensor: JobSensor;
  readonly stage: StageId;
  /** Station whose detail the plan shows. */
  readonly station?: string;
  /** Which of the stage's readings are entered here; all of them when absent. */
  readonly only?: (slot: Slot) => boolean;
  readonly side: (facts: DeskFacts) => ReactNode;
  /** Stays in sight below the side, however long that is. */
  readonly foot?: ReactNode;
}

export function ReadingDesk({ held, sensor, stage, station, only, side, foot }: ReadingDeskProps): ReactNode {
  const { job } = held;
  const actions = useActions();
  const typed = useWindow((state) => state.typed);
  const [picked, setPicked] = useState<string | undefined>(undefined);
  const view = useMemo(() => placementView(job, sensor), [job, sensor]);
  const due = useControlDue(job, stage === 'bay' ? undefined : sensor);
  const control = useMemo(() => controlSlot(job, sensor, view.recipe, due), [job, sensor, view, due]);
  const slots = useMemo(() => {
    const all = slotsOf(job, sensor.sensor, view.recipe, stage);
    const shown = only === undefined ? all : all.filter(only);
    if (control === undefined) return shown;
    return [...shown.filter((each) => each.key !== control.key), control];
  }, [job, sensor, view, stage, only, control]);
  const previews = useMemo(() => typedPreviews(job, view, slots, typed), [job, view, slots, typed]);
  const { answer, preview } = useMemo(() => previewAnswer(job, view, previews), [job, view, previews]);
  const focus = useWindow((state) => state.focus);
  const led = slots.find((slot) => readingFocusKey(slot.spec) === focus);
  const asked = due?.state === 'due' ? control : undefined;
  const chosen = led ?? slots.find((slot) => slot.key === picked);
  const current = chosen ?? asked ?? nextSlot(slots) ?? slots[0];
  const pick = useCallback(
    (key: string) => {
      setPicked(key);
      actions.lookAt(null);
    },
    [actions],
  );
  const keypad = useWindow((state) => state.keypad);
  const [keys, setKeys] = useState<HTMLDivElement | null>(null);
  const ready = sensor.procedure !== null && sensor.equipment !== null;
  const facts: DeskFacts = { view, slots, answer, preview };
  return (
    <div className={`desk desk-${stage}`}>
      <div className="desk-main">
        <PlanView
          job={job}
          view={view}
          answer={answer}
          preview={preview}
          slots={slots}
          current={current}
          onPick={pick}
          tools={<DeskTools stage={stage} keys={ready} />}
          {...(station === undefined ? {} : { station })}
        />
        {ready ? <LapStrip slots={slots} current={current} answer={answer} onPick={pick} /> : null}
        {ready ? null : <NeedsIntake job={job.id} sensor={sensor} />}
        {current === undefined || !ready ? null : (
          <ReadingPanel
            key={`${sensor.sensor} ${current.key}`}
            held={held}
            view={view}
            slot={current}
            slots={slots}
            keys={keypad ? keys : null}
            onRecorded={() => pick(nextSlot(slots, current.key)?.key ?? current.key)}
            onStay={() => setPicked(current.key)}
          />
        )}
      </div>
      <div className="desk-side">
        <div className="desk-scroll">
          <div ref={setKeys} />
          {due === undefined ? null : (
            <ControlCard held={held} due={due} recipe={view.recipe} onRead={pick} slot={control} />
          )}
          {job.rehearsal && (stage === 'placement' || stage === 'stations') ? (
            <SimulatedFixture
              held={held}
              view={view}
              answer={view.answer.ok ? view.answer.value : undefined}
            />
          ) : null}
          {side(facts)}
          <SaidLines />
        </div>
        {foot}
      </div>
    </div>
  );
}
