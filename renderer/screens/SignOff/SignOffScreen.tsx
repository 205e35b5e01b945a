/** Sign-off: what is missing and where, which certificate it will be and why, and the one held press that signs. */
import { type ReactNode, useState } from 'react';
import type { Assessment } from '../../../core/job/assess.ts';
import type { CertificateKind } from '../../../core/job/events.ts';
import { stageById } from '../../../core/job/stages/index.ts';
import { spokenLanguage } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { answersOf } from '../../state/placementView.ts';
import { Cautions } from '../fields/Cautions.tsx';
import { CertificateResult } from './CertificateResult.tsx';
import { DraftView } from './DraftView.tsx';
import { FindingList } from './FindingList.tsx';
import { ProofSummary } from './ProofSummary.tsx';
import { SignPanel, stopReason } from './SignPanel.tsx';

/** Stages whose stops are not put right by going on. */
const FORBIDDING: ReadonlySet<string> = new Set(['intake', 'prechecks', 'bay']);

/** The kinds a person may ask for: the best one that fits, and to stop honestly, always. */
export function kindsOf(assessment: Assessment): readonly CertificateKind[] {
  // What forbids the work leads to the honest end, also while something for it is missing. A target that does not stand
  // right yet, or a capture that failed once, forbids nothing: the work goes on.
  const forbidden = assessment.stops.some((stop) => FORBIDDING.has(stop.stage));
  if (assessment.kind === undefined && forbidden) return ['notCalibrated', 'calibrated'];
  const best = assessment.kind ?? 'calibrated';
  return best === 'notCalibrated' ? ['notCalibrated'] : [best, 'notCalibrated'];
}

export function SignOffScreen({
  held,
  assessment,
}: {
  readonly held: HeldJob;
  readonly assessment: Assessment;
}): ReactNode {
  const [chosen, setChosen] = useState<CertificateKind | undefined>(undefined);
  const [language, setLanguage] = useState(spokenLanguage());
  const certificate = held.job.certificates.findLast((each) => each.fileDigest !== null);
  if (certificate !== undefined) return <CertificateResult held={held} certificate={certificate} />;
  const kinds = kindsOf(assessment);
  const kind = kinds.find((each) => each === chosen) ?? kinds[0] ?? 'notCalibrated';
  return (
    <div className="form-screen signoff">
      <Cautions keys={stageById('signoff').cautions} />
      <div className="signoff-columns">
        <FindingList held={held} assessment={assessment} kind={kind} />
        <SignPanel
          held={held}
          assessment={assessment}
          kinds={kinds}
          kind={kind}
          onKind={setChosen}
          language={language}
          onLanguage={setLanguage}
        />
      </div>
      <DraftView
        held={held}
        kind={kind}
        reason={kind === 'calibrated' ? '' : stopReason(held)}
        language={language}
      />
      <ProofSummary held={held} answers={answersOf(held.job)} />
    </div>
  );
}
