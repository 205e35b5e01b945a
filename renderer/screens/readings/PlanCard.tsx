/**
 * Before the first reading: what the readings will prove with the instruments picked, what they cannot and what would, and
 * how often each is to be taken so that everything is proven. One line once readings are in; a touch opens it again.
 */
import { type ReactNode, useState } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import type { Job, JobSensor } from '../../../core/job/job.ts';
import type { VehicleFound } from '../../../core/placement/found.ts';
import { say } from '../../../core/words/index.ts';
import { type PlanAhead, usePlanAhead } from '../../state/planAhead.ts';
import { enoughWords, noPlanWords, planWords } from '../../text/planWords.ts';
import { VerdictMark, VerdictShape } from '../../ui/VerdictMark.tsx';

interface PlanCardProps {
  readonly job: Job;
  readonly sensor: JobSensor;
  readonly vehicle: VehicleFound | undefined;
  /** True once something is read at this stage. */
  readonly begun: boolean;
}

/** What a plan says, whole. */
export function PlanDetail({ ahead }: { readonly ahead: PlanAhead }): ReactNode {
  const words = planWords(ahead.plan);
  const enough = ahead.enough === undefined ? [] : enoughWords(ahead.plan, ahead.enough);
  return (
    <>
      <ul className="plan-rows">
        {words.rows.map((row) => (
          <li key={row.coordinate} data-planned={row.coordinate}>
            <span className="strong">{row.title}</span>
            <VerdictMark kind={row.kind} words={row.words} />
            <span className="quiet">{row.note}</span>
          </li>
        ))}
      </ul>
      {words.open.map((line) => (
        <p key={line}>{line}</p>
      ))}
      <div className="quiet" data-testid="plan-enough">
        {enough.map((line) => (
          <p key={line}>{line}</p>
        ))}
        {words.car === '' ? null : <p>{words.car}</p>}
      </div>
    </>
  );
}

export function PlanCard({ job, sensor, vehicle, begun }: PlanCardProps): ReactNode {
  const planned = usePlanAhead(job, sensor, vehicle);
  const [open, setOpen] = useState<boolean | undefined>(undefined);
  if (sensor.procedure === null || sensor.equipment === null) return null;
  if (planned === undefined) {
    return begun ? null : <p className="sheet quiet">{say('planning.card.waits')}</p>;
  }
  if (planned === null) return null;
  if (!planned.ok) return begun ? null : <p className="sheet quiet">{noPlanWords(planned.error)}</p>;
  const words = planWords(planned.value.plan);
  const shown = open ?? !begun;
  return (
    <section className="sheet plan-card" data-testid="plan-card" data-outcome={words.kind}>
      <AriaButton className="plan-head" aria-expanded={shown} onPress={() => setOpen(!shown)}>
        <VerdictShape kind={words.kind} />
        <span>{shown ? say('planning.card.title') : words.head}</span>
      </AriaButton>
      {shown ? (
        <>
          <p className="strong">{words.head}</p>
          <PlanDetail ahead={planned.value} />
        </>
      ) : null}
    </section>
  );
}
