/** One job: what to do next on top, the stages at the side, the stage itself. Any stage can be opened at any time. */
import '../../state/zodWithoutEval.ts';
import { type ReactNode, useCallback, useEffect, useMemo } from 'react';
import { assess } from '../../../core/job/assess.ts';
import type { StageId } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import { useAnnouncer } from '../../announcer/useAnnouncer.ts';
import { useClicker } from '../../announcer/useClicker.ts';
import { useControlDue } from '../../state/controlSlot.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { movedFact, movesDoneFact, standFact } from '../../state/moves.ts';
import { movesUnderWay } from '../../state/movesUnderWay.ts';
import { nextLine } from '../../state/nextLine.ts';
import { answersOf, placementView } from '../../state/placementView.ts';
import { quickMoveFact } from '../../state/quickGuide.ts';
import { slotsOf } from '../../state/readings.ts';
import { useSensorInSight } from '../../state/sensorInSight.ts';
import { useFocusKey } from '../../state/useFocusKey.ts';
import { useQuickGuide } from '../../state/useQuickGuide.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { NextAction } from './NextAction.tsx';
import { NextLineInSight } from './nextLineInSight.ts';
import { Rail } from './Rail.tsx';
import { StageView } from './StageView.tsx';

/** Where nothing can be entered, the place itself takes the focus, so that the keyboard can scroll it. */
const SCROLLED_BY_KEYS = { tabIndex: 0 } as const;

function isOnlyRead(held: HeldJob, view: StageId | 'history'): boolean {
  return view === 'history' || held.job.certificates.length > 0;
}

/** Takes what the instrument of the reading in sight shows, as its own button does; false where nothing can be taken. */
function takeReading(): boolean {
  const button = document.querySelector<HTMLButtonElement>(
    '[data-testid="reading"] [data-testid="take"]:enabled',
  );
  button?.click();
  return button !== null;
}

/** The box of the reading that is asked for, where the stage has one. */
function focusReading(): void {
  document.querySelector<HTMLElement>('.desk-main [data-slot] input')?.focus();
}

function OpenJob({ held, view }: { readonly held: HeldJob; readonly view: StageId | 'history' }): ReactNode {
  const actions = useActions();
  const { job } = held;
  const sensor = useSensorInSight(held);
  const answers = useMemo(() => answersOf(job), [job]);
  const assessment = useMemo(() => assess(job, answers), [job, answers]);
  const placement = useMemo(
    () => (sensor === undefined ? undefined : placementView(job, sensor)),
    [job, sensor],
  );
  const stage: StageId = view === 'history' ? 'signoff' : view;
  const control = useControlDue(job, sensor);
  const moves = useMemo(
    () => (sensor === undefined ? undefined : movesUnderWay(held, sensor)),
    [held, sensor],
  );
  const quick = useQuickGuide(job, sensor, stage);
  const line = useMemo(() => {
    const recipe = placement?.recipe ?? [];
    const slots = sensor === undefined ? [] : slotsOf(job, sensor.sensor, recipe, stage);
    const answer = placement?.answer.ok === true ? placement.answer.value : undefined;
    return nextLine({ stage, job, assessment, answer, recipe, slots, moves, quick, control });
  }, [job, sensor, placement, stage, assessment, moves, quick, control]);
  const problem = useWindow((state) => state.problem);
  useFocusKey();
  const go = useCallback(() => {
    if (line.go !== undefined) actions.go({ screen: 'job', job: job.id, view: line.go });
  }, [actions, job.id, line.go]);
  const done = useCallback(() => {
    if (line.quick !== undefined) void actions.record(job.id, [quickMoveFact(job, line.quick)]);
    else if (line.moves.length > 0) void actions.record(job.id, [movesDoneFact(job, line.moves)]);
  }, [actions, job, line]);
  const putUp = useCallback(() => {
    if (sensor === undefined || line.stand === undefined) return;
    void actions.record(job.id, [standFact(job, sensor.sensor, line.stand)]);
  }, [actions, job, sensor, line.stand]);
  const sayAgain = useAnnouncer(line);
  useClicker(
    useCallback(
      (click) => {
        if (click === 'repeat') return sayAgain();
        if (isOnlyRead(held, view)) return undefined;
        if (click === 'moved') return void actions.record(job.id, [movedFact(job, 'fixture')]);
        if (line.moves.length > 0) return done();
        if (line.go !== undefined) return go();
        return takeReading() ? undefined : focusReading();
      },
      [actions, held, view, job, line, sayAgain, done, go],
    ),
  );
  return (
    <div className="job" data-job={job.id}>
      <NextAction line={line} onGo={go} onDone={done} onStand={putUp} />
      <Rail held={held} assessment={assessment} view={view} />
      <main className="stage" data-view={view} {...(isOnlyRead(held, view) ? SCROLLED_BY_KEYS : {})}>
        {problem === null ? null : (
          <ErrorNotice
            error={problem}
            buttons={
              <Button icon="close" weight="quiet" onPress={actions.dismissProblem}>
                {say('act.close')}
              </Button>
            }
          />
        )}
        <NextLineInSight value={line}>
          <StageView held={held} view={view} assessment={assessment} />
        </NextLineInSight>
      </main>
    </div>
  );
}

export function JobScreen({
  job,
  view,
}: {
  readonly job: string;
  readonly view: StageId | 'history';
}): ReactNode {
  const actions = useActions();
  const held = useWindow((state) => state.jobs[job]);
  const error = useWindow((state) => state.jobErrors[job]);
  useEffect(() => {
    document.querySelector('.stage')?.scrollTo(0, 0);
  }, []);
  useEffect(() => actions.disconnectInstruments, [actions]);
  if (error !== undefined) {
    return (
      <main className="page">
        <ErrorNotice
          error={error}
          buttons={<Button onPress={() => actions.go({ screen: 'home' })}>{say('act.home')}</Button>}
        />
      </main>
    );
  }
  if (held === undefined) {
    return (
      <main className="page">
        <h1>{say('wait.job')}</h1>
      </main>
    );
  }
  return <OpenJob held={held} view={view} />;
}
