/**
 * The readings of one stage: the plan with the points of the current reading, the lap of all readings as a strip, and
 * the current reading large below. The next one opens by itself after an entry.
 */
import { type ReactNode, useCallback, useEffect, useMemo, useState } from 'react';
import { questionReading } from '../../../core/entry/index.ts';
import type { PhotoStage } from '../../../core/job/events.ts';
import type { Job, JobSensor } from '../../../core/job/job.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import type { PlacementReading, TiltDirection } from '../../../core/placement/placementReading.ts';
import { SimulatedFixture } from '../../rehearsal/SimulatedFixture.tsx';
import { controlSlot, useControlDue } from '../../state/controlSlot.ts';
import { entryContext } from '../../state/expectation.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { streamsOf } from '../../state/liveReading.ts';
import { type PlacementView, placementView, previewAnswer } from '../../state/placementView.ts';
import { type QuickGuide, quickSlot } from '../../state/quickGuide.ts';
import { previewReading } from '../../state/readingEntry.ts';
import { nextSlot, type Slot, slotsOf } from '../../state/readings.ts';
import { typedKey } from '../../state/typedEntry.ts';
import { typedPreviews } from '../../state/typedPreviews.ts';
import { readingFocusKey } from '../../state/useFocusKey.ts';
import { useQuickGuide } from '../../state/useQuickGuide.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { ControlCard } from './ControlCard.tsx';
import { DeskPhotos } from './DeskPhotos.tsx';
import { DeskTools } from './DeskTools.tsx';
import { LapStrip } from './LapStrip.tsx';
import { NeedsIntake } from './NeedsIntake.tsx';
import { PlanView } from './PlanView.tsx';
import { ReadingPanel } from './ReadingPanel.tsx';
import { SaidLines } from './SaidLines.tsx';
import { useLiveReading } from './useLiveReading.ts';

/** What the side of the desk may show: the answer with what is typed in it. */
export interface DeskFacts {
  readonly view: PlacementView;
  readonly slots: readonly Slot[];
  readonly answer: PlacementAnswer | undefined;
  /** True while the answer holds typed values that are not recorded. */
  readonly preview: boolean;
  /** Quick placement, while it leads. */
  readonly quick: QuickGuide | undefined;
  /** Opens a reading. */
  readonly onPick: (key: string) => void;
}

interface ReadingDeskProps {
  readonly held: HeldJob;
  readonly sensor: JobSensor;
  readonly stage: PhotoStage;
  /** Station whose detail the plan shows. */
  readonly station?: string;
  /** Which of the stage's readings are entered here; all of them when absent. */
  readonly only?: (slot: Slot) => boolean;
  readonly side: (facts: DeskFacts) => ReactNode;
  /** Stays in sight below the side, however long that is. */
  readonly foot?: ReactNode;
}

/** Connects the job's instruments that send, while a desk is open; they stay so until the job is left. */
function useStreams({ job }: HeldJob, sensor: JobSensor): void {
  const actions = useActions();
  const shop = useWindow((state) => state.status?.shop ?? null);
  const wanted = useMemo(() => streamsOf(sensor.equipment, shop), [sensor.equipment, shop]);
  const isSigned = job.certificates.length > 0;
  useEffect(() => {
    if (!isSigned) void actions.connectInstruments(wanted);
  }, [actions, wanted, isSigned]);
}

const NOTHING_SHOWN = { value: undefined, direction: undefined, needsWay: false } as const;

/** The newest value as the solver takes it for the preview, where it raises no question. */
function livePreview(
  job: Job,
  view: PlacementView,
  slots: readonly Slot[],
  slot: Slot,
  value: number,
  direction: TiltDirection | undefined,
): PlacementReading | undefined {
  if (questionReading(value, entryContext(slot, slots, view)) !== undefined) return undefined;
  return previewReading(job, slot, value, direction ?? slot.spec.directions?.[0]);
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
  const focus = useWindow((state) => state.focus);
  const led = slots.find((slot) => readingFocusKey(slot.spec) === focus);
  const asked = due?.state === 'due' ? control : undefined;
  const quick = useQuickGuide(job, sensor, stage);
  const guides = quick?.slots ?? [];
  const chosen = led ?? [...slots, ...guides].find((slot) => slot.key === picked);
  // While the fixture is brought near no proof reading opens by itself: its tape is in the other hand.
  const own = quick === undefined ? (nextSlot(slots) ?? slots[0]) : quickSlot(quick);
  const current = chosen ?? asked ?? own;
  useStreams(held, sensor);
  const heard = useLiveReading(job.id, view, current);
  const live = job.certificates.length > 0 ? undefined : heard;
  const written = useMemo(() => typedPreviews(job, view, slots, typed), [job, view, slots, typed]);
  // What lies connected beside a reading that stands already is no repeat of it unless somebody opened it.
  const isOpen = current !== undefined && (current.state !== 'recorded' || current.key === picked);
  const isWritten = current !== undefined && (typed[typedKey(job.id, current.draft)]?.text ?? '') !== '';
  const { value, direction, needsWay } = (isOpen && !isWritten ? live?.shown : undefined) ?? NOTHING_SHOWN;
  const previews = useMemo(() => {
    if (value === undefined || needsWay || current === undefined) return written;
    // What guides the hands enters no solution.
    if (current.spec.purpose === 'guide') return written;
    const moving = livePreview(job, view, slots, current, value, direction);
    return moving === undefined ? written : [...written, moving];
  }, [written, job, view, slots, current, value, direction, needsWay]);
  const { answer, preview } = useMemo(() => previewAnswer(job, view, previews), [job, view, previews]);
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
  const afterwards = (key: string): void => {
    if (guides.some((slot) => slot.key === key)) {
      setPicked(guides.find((slot) => slot.key !== key && slot.state === 'missing')?.key);
    } else pick(nextSlot(slots, key)?.key ?? key);
  };
  const facts: DeskFacts = { view, slots, answer, preview, quick, onPick: pick };
  return (
    <div className={`desk desk-${stage}`}>
      <div className="desk-main">
        <PlanView
          job={job}
          view={view}
          answer={answer}
          preview={preview}
          slots={slots}
          current={current ?? quick?.heldSlot}
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
            live={live}
            onRecorded={() => afterwards(current.key)}
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
          <DeskPhotos
            held={held}
            stage={stage}
            sensor={sensor.sensor}
            {...(station === undefined ? {} : { station })}
          />
          <SaidLines />
        </div>
        {foot}
      </div>
    </div>
  );
}
