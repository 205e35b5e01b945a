/** What a job lacks and what stops it, by stage; a touch leads to the place. */
import type { ReactNode } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import type { Assessment, Finding } from '../../../core/job/assess.ts';
import { stages } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { findingWords } from '../../state/nextLine.ts';
import { useActions } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { Icon } from '../../ui/Icon.tsx';

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
                        actions.go({ screen: 'job', job: held.job.id, view: finding.stage });
                        actions.lookAt(finding.key);
                      }}
                    >
                      <Icon name="enter" />
                      {findingWords(finding)}
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
}: {
  readonly held: HeldJob;
  readonly assessment: Assessment;
}): ReactNode {
  const { missing, stops } = assessment;
  if (missing.length === 0 && stops.length === 0) {
    return (
      <section className="sheet" data-testid="nothing-missing">
        <h2>{say('signoff.complete')}</h2>
      </section>
    );
  }
  return (
    <div className="findings">
      {stops.length === 0 ? null : (
        <FindingGroup held={held} title={say('signoff.stops')} findings={stops} testId="stops" />
      )}
      {missing.length === 0 ? null : (
        <FindingGroup
          held={held}
          title={say('signoff.missing', { count: String(missing.length) })}
          findings={missing}
          testId="missing"
        />
      )}
    </div>
  );
}
