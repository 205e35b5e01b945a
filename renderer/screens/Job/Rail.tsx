/** The side of a job: whose car, the stages with their state in shape and word, set-ups, history, who works here. */
import type { ReactNode } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import type { Assessment } from '../../../core/job/assess.ts';
import { fieldKey } from '../../../core/job/fieldKey.ts';
import { stages } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { type ShownState, shownState } from '../../state/shownState.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { Icon, ProductMark } from '../../ui/Icon.tsx';
import { OverallMark } from './OverallMark.tsx';
import { PersonChooser } from './PersonChooser.tsx';

const SHAPES: Readonly<Record<ShownState, ReactNode>> = {
  empty: <circle cx="7" cy="7" r="5" fill="none" stroke="currentColor" strokeWidth="1.5" />,
  underWay: (
    <>
      <circle cx="7" cy="7" r="5" fill="none" stroke="currentColor" strokeWidth="1.5" />
      <path d="M7 2a5 5 0 0 1 0 10Z" fill="currentColor" />
    </>
  ),
  notNeeded: <path d="M3 7h8" fill="none" stroke="currentColor" strokeWidth="1.6" />,
  done: <path d="m2 7.5 3.3 3.3L12 3.5" fill="none" stroke="currentColor" strokeWidth="2.2" />,
  stops: <path d="M7 1.5 13 12.5H1ZM7 5.5v3M7 10.3v.4" fill="none" stroke="currentColor" strokeWidth="1.6" />,
};

function textOf(held: HeldJob, field: string): string {
  const value = held.job.fields[fieldKey(field)]?.value;
  return typeof value === 'string' ? value : '';
}

export function Rail({
  held,
  assessment,
  view,
}: {
  readonly held: HeldJob;
  readonly assessment: Assessment;
  readonly view: string;
}): ReactNode {
  const actions = useActions();
  const job = held.job.id;
  const person = useWindow((state) => state.person);
  return (
    <nav className="rail" aria-label={say('job.stages')}>
      <AriaButton className="rail-home" onPress={() => actions.go({ screen: 'home' })} data-testid="go-home">
        <ProductMark size={24} />
        {say('act.home')}
      </AriaButton>
      <div className="rail-car">
        <span className="rail-plate">{textOf(held, 'intake.plate') || held.job.reference}</span>
        <span className="quiet">
          {`${textOf(held, 'intake.make')} ${textOf(held, 'intake.model')}`.trim()}
        </span>
        {held.job.rehearsal ? <span className="rail-rehearsal">{say('rehearsal.tag')}</span> : null}
        <OverallMark job={job} />
      </div>
      <ul className="rail-stages">
        {stages.map((stage) => {
          const state = shownState(stage, held.job, assessment);
          return (
            <li key={stage.id}>
              <AriaButton
                className={`rail-stage rail-${state}`}
                aria-current={stage.id === view ? 'page' : 'false'}
                data-stage={stage.id}
                data-state={state}
                onPress={() => actions.go({ screen: 'job', job, view: stage.id })}
              >
                <span className="rail-title">{sayKey(stage.title)}</span>
                <span className="rail-state">
                  <svg viewBox="0 0 14 14" aria-hidden="true">
                    {SHAPES[state]}
                  </svg>
                  {say(`stageState.${state}`)}
                </span>
              </AriaButton>
            </li>
          );
        })}
      </ul>
      <div className="rail-foot">
        <p className="quiet" data-testid="set-ups">
          {say('job.carSetUp', { count: String(held.job.setUps.car) })}
          <br />
          {say('job.fixtureSetUp', { count: String(held.job.setUps.fixture) })}
        </p>
        <div className="rail-tools">
          <AriaButton
            className="rail-tool"
            aria-current={view === 'history' ? 'page' : 'false'}
            onPress={() => actions.go({ screen: 'job', job, view: 'history' })}
            data-testid="go-history"
          >
            <Icon name="history" />
            {say('job.history')}
          </AriaButton>
          <AriaButton
            className="rail-tool"
            aria-keyshortcuts="F9"
            onPress={() => actions.coverWith('wipe')}
            data-testid="wipe"
          >
            <Icon name="lock" />
            {say('wipe.open')}
          </AriaButton>
        </div>
        <PersonChooser key={person} />
      </div>
    </nav>
  );
}
