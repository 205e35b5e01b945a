/** One station: the number to set on the slide, what is proven, the conditions, and the capture attempts. */
import type { ReactNode } from 'react';
import { verdictShape } from '../../../core/certificate/coordinateText.ts';
import { atStation } from '../../../core/job/fieldKey.ts';
import type { Job, JobSensor } from '../../../core/job/job.ts';
import type { StationFinding } from '../../../core/placement/finding.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import type { ProcedureStation } from '../../../core/procedure/schema.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { Icon } from '../../ui/Icon.tsx';
import { VerdictMark } from '../../ui/VerdictMark.tsx';
import { ChoiceField, yesNo } from '../fields/ChoiceField.tsx';
import { CoordinateCards } from '../Placement/CoordinateCards.tsx';
import { DistanceCover } from '../readings/DistanceCover.tsx';
import { Findings } from '../readings/Findings.tsx';
import type { DeskFacts } from '../readings/ReadingDesk.tsx';
import { SolveTrouble } from '../readings/SolveTrouble.tsx';
import { CapturePanel } from './CapturePanel.tsx';
import { StationPose } from './StationPose.tsx';

interface StationSideProps {
  readonly held: HeldJob;
  readonly sensor: JobSensor;
  readonly station: ProcedureStation | undefined;
  readonly facts: DeskFacts;
  /** Goes to the control reading after the stations. */
  readonly onControl: () => void;
}

/** All of a station at a glance: its verdict, then each coordinate as a row. */
function StationVerdict({
  finding,
  requirement,
  rule,
}: {
  readonly finding: StationFinding;
  readonly requirement: StationRequirement | undefined;
  readonly rule: Job['decisionRule'];
}): ReactNode {
  return (
    <details
      className="sheet station-verdict"
      open={finding.worst !== 'proven'}
      data-testid="station-verdict"
    >
      <summary>
        <span className="overline">{say('stations.verdict')}</span>
        <VerdictMark kind={verdictShape(finding.worst)} words={say(`verdict.short.${finding.worst}`)} />
      </summary>
      {finding.basis === 'expected' ? <p className="quiet">{say('stations.expected')}</p> : null}
      <CoordinateCards station={finding} requirement={requirement} rule={rule} />
    </details>
  );
}

/** The cautions of the procedure's own steps. */
function OwnCautions({ sensor }: { readonly sensor: JobSensor }): ReactNode {
  const cautions = sensor.procedure?.steps.flatMap((step) => step.caution ?? []) ?? [];
  if (cautions.length === 0) return null;
  return (
    <ul className="sheet cautions">
      {cautions.map((caution) => (
        <li key={caution}>
          <Icon name="caution" />
          <span>{caution}</span>
        </li>
      ))}
    </ul>
  );
}

export function StationSide({ held, sensor, station, facts, onControl }: StationSideProps): ReactNode {
  const { answer, view } = facts;
  const finding = answer?.stations.find((each) => each.station === station?.id);
  const requirement = view.stations.find((each) => each.id === station?.id);
  const slide = finding?.slide;
  return (
    <>
      {view.answer.ok ? null : <SolveTrouble error={view.answer.error} recipe={view.recipe} />}
      {answer === undefined ? null : <Findings answer={answer} recipe={view.recipe} />}
      {station === undefined ? (
        <section className="sheet">
          <p>{say('stations.controlPurpose')}</p>
        </section>
      ) : null}
      {station === undefined ? null : (
        <StationPose station={station} requirement={requirement} slide={slide} />
      )}
      {station === undefined ? null : (
        <>
          {finding === undefined ? null : (
            <StationVerdict finding={finding} requirement={requirement} rule={held.job.decisionRule} />
          )}
          <CapturePanel
            held={held}
            sensor={sensor}
            station={station}
            found={finding?.basis === 'found'}
            onControl={onControl}
          >
            <ChoiceField
              held={held}
              field="stations.conditionsHold"
              at={atStation(sensor.sensor, station.id)}
              label={say('field.stations.conditionsHold')}
              kind="confirm"
              items={yesNo(['no'])}
            />
          </CapturePanel>
          <OwnCautions sensor={sensor} />
        </>
      )}
      <DistanceCover
        station={finding}
        requirement={requirement}
        rule={held.job.decisionRule}
        preview={facts.preview}
      />
    </>
  );
}
