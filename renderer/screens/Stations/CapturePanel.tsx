/** Capture attempts at a station: each with its result; one that failed with its cause and what was changed. */
import { type ReactNode, useState } from 'react';
import type { JobSensor } from '../../../core/job/job.ts';
import type { ProcedureStation } from '../../../core/procedure/schema.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { stampText } from '../../text/ageText.ts';
import { Button } from '../../ui/Button.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { CaptureHints } from './CaptureHints.tsx';

interface CapturePanelProps {
  readonly held: HeldJob;
  readonly sensor: JobSensor;
  readonly station: ProcedureStation;
  /** True once the target is read here: capturing is then the next thing to do. */
  readonly found: boolean;
  readonly children: ReactNode;
  readonly onControl: () => void;
}

export function CapturePanel(props: CapturePanelProps): ReactNode {
  const { held, sensor, station, found, children, onControl } = props;
  const actions = useActions();
  const [failing, setFailing] = useState<'failed' | 'interrupted' | undefined>(undefined);
  const [cause, setCause] = useState('');
  const [change, setChange] = useState('');
  const attempts = held.job.captures.filter(
    (each) => each.sensor === sensor.sensor && each.station === station.id,
  );
  const last = attempts.at(-1);
  const slides = sensor.procedure?.stations.some((each) => each.kind === 'slide') === true;
  const record = (result: 'passed' | 'failed' | 'interrupted'): void => {
    void actions.record(held.job.id, [
      {
        type: 'captureAttempted',
        v: 1,
        payload: {
          sensor: sensor.sensor,
          station: station.id,
          result,
          cause: cause.trim(),
          change: change.trim(),
        },
      },
    ]);
    setFailing(undefined);
    setCause('');
    setChange('');
  };
  return (
    <section
      className="sheet capture"
      data-testid="capture"
      data-field={`capture@${sensor.sensor}/${station.id}`}
    >
      <h2 className="overline">{say('capture.title')}</h2>
      <p>{station.capturePrompt}</p>
      {children}
      {attempts.length === 0 ? null : (
        <ol className="attempts">
          {attempts.map((attempt, at) => (
            <li key={attempt.stamp.seq} data-result={attempt.result}>
              <span className="strong">
                {say('capture.attempt', { count: String(at + 1) })} {say(`capture.${attempt.result}`)}
              </span>{' '}
              <span className="quiet">{stampText(attempt.stamp)}</span>
              {attempt.cause === '' ? null : <p>{say('capture.because', { cause: attempt.cause })}</p>}
              {attempt.change === '' ? null : <p>{say('capture.changed', { change: attempt.change })}</p>}
            </li>
          ))}
        </ol>
      )}
      {failing === undefined ? (
        <div className="choices">
          <Button
            weight={found ? 'main' : 'plain'}
            icon="done"
            onPress={() => record('passed')}
            testId="capture-passed"
          >
            {say('capture.passed')}
          </Button>
          <Button onPress={() => setFailing('failed')} testId="capture-failed">
            {say('capture.failed')}
          </Button>
          <Button onPress={() => setFailing('interrupted')} testId="capture-interrupted">
            {say('capture.interrupted')}
          </Button>
        </div>
      ) : (
        <>
          <TextEntry autoFocus label={say('capture.cause')} value={cause} mark="none" onChange={setCause} />
          <TextEntry label={say('capture.change')} value={change} mark="none" onChange={setChange} />
          <div className="choices">
            <Button weight="main" disabled={cause.trim() === ''} onPress={() => record(failing)}>
              {say('capture.record')}
            </Button>
            <Button weight="quiet" onPress={() => setFailing(undefined)}>
              {say('act.cancel')}
            </Button>
          </div>
        </>
      )}
      {failing !== undefined || (last !== undefined && last.result !== 'passed') ? (
        <CaptureHints target={sensor.procedure?.target.name ?? ''} {...(slides ? { onControl } : {})} />
      ) : null}
    </section>
  );
}
