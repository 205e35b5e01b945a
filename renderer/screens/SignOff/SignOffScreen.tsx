/** Sign-off: what is missing and where, which certificate it will be and why, and the one held press that signs. */
import type { ReactNode } from 'react';
import type { Assessment } from '../../../core/job/assess.ts';
import { stageById } from '../../../core/job/stages/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { Cautions } from '../fields/Cautions.tsx';
import { CertificateResult } from './CertificateResult.tsx';
import { FindingList } from './FindingList.tsx';
import { SignPanel } from './SignPanel.tsx';

export function SignOffScreen({
  held,
  assessment,
}: {
  readonly held: HeldJob;
  readonly assessment: Assessment;
}): ReactNode {
  const certificate = held.job.certificates.findLast((each) => each.fileDigest !== null);
  if (certificate !== undefined) return <CertificateResult held={held} certificate={certificate} />;
  return (
    <div className="form-screen signoff">
      <Cautions keys={stageById('signoff').cautions} />
      <div className="signoff-columns">
        <FindingList held={held} assessment={assessment} />
        <SignPanel held={held} assessment={assessment} />
      </div>
    </div>
  );
}
