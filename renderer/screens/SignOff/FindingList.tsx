/** What a job lacks and what stops it, by stage; a touch leads to the place. */
import type { ReactNode } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import type { Assessment, Finding } from '../../../core/job/assess.ts';
import type { CertificateKind } from '../../../core/job/events.ts';
import { stages } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { findingWords } from '../../state/nextLine.ts';
import { lookAtSensor } from '../../state/sensorInSight.ts';
import { useActions } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { Icon } from '../../ui/Icon.tsx';

/** The place a finding belongs to, where the same thing is asked at several: the station, else the sensor. */
function placeOf(finding: Finding, held: HeldJob): string | undefined {
  const sensor = held.job.sensors.find((each) => each.sensor === finding.sensor);
  const stations = sensor?.procedure?.stations ?? [];
  const station = stations.find(({ id }) => finding.key.endsWith(`@${id}`) || finding.key.includes(`/${id}`));
  if (station !== undefined) return station.name;
  return held.job.sensors.length > 1 ? sensor?.name : undefined;
}

function placedWords(finding: Finding, held: HeldJob): string {
  const place = placeOf(finding, held);
  const what = findingWords(finding);
  return place === undefined ? what : say('signoff.place', { what, place });
}

function FindingGroup({
  held,
  title,
  findings,
  testId,
}: {
  readonly held: HeldJob;
  readonly title: string;
  readonly findings: readonly Finding[];
  readonly testId: string;
}): ReactNode {
  const actions = useActions();
  return (
    <section className="sheet" data-testid={testId}>
      <h2>{title}</h2>
      {stages
        .filter((stage) => findings.some((finding) => finding.stage === stage.id))
        .map((stage) => (
          <div key={stage.id} className="finding-stage">
            <h3>{sayKey(stage.title)}</h3>
            <ul>
              {findings
                .filter((finding) => finding.stage === stage.id)
                .map((finding) => (
                  <li key={`${finding.key} ${finding.sensor ?? ''} ${finding.label}`}>
                    <AriaButton
                      className="finding"
                      onPress={() => {
                        if (finding.sensor !== null) lookAtSensor(held.job.id, finding.sensor);
                        actions.go({ screen: 'job', job: held.job.id, view: finding.stage });
                        actions.lookAt(finding.key);
                      }}
                    >
                      <Icon name="go" />
                      {placedWords(finding, held)}
                    </AriaButton>
                  </li>
                ))}
            </ul>
          </div>
        ))}
    </section>
  );
}

export function FindingList({
  held,
  assessment,
  kind,
}: {
  readonly held: HeldJob;
  readonly assessment: Assessment;
  readonly kind: CertificateKind;
}): ReactNode {
  const stopping = kind === 'notCalibrated';
  const missing = stopping ? assessment.missingToStop : assessment.missing;
  const { stops } = assessment;
  const title = stopping ? 'signoff.missingToStop' : 'signoff.missing';
  return (
    <div className="findings">
      {missing.length === 0 ? (
        <section className="sheet" data-testid="nothing-missing">
          <h2>{say(stopping ? 'signoff.completeToStop' : 'signoff.complete')}</h2>
        </section>
      ) : (
        <FindingGroup
          held={held}
          title={say(title, { count: String(missing.length) })}
          findings={missing}
          testId="missing"
        />
      )}
      {stops.length === 0 ? null : (
        <FindingGroup held={held} title={say('signoff.stops')} findings={stops} testId="stops" />
      )}
    </div>
  );
}
