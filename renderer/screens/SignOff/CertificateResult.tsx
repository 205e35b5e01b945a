/** A signed job: the certificate's number, the file itself, how to save it, and its check line by line. */
import { type ReactNode, useEffect, useState } from 'react';
import type { Output } from '../../../core/contract/index.ts';
import type { JobCertificate } from '../../../core/job/job.ts';
import { say } from '../../../core/words/index.ts';
import { fileAddress } from '../../api.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions } from '../../state/windowContext.tsx';
import { stampText } from '../../text/ageText.ts';
import { Icon } from '../../ui/Icon.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { CheckLines } from '../Check/CheckLines.tsx';

export function CertificateResult({
  held,
  certificate,
}: {
  readonly held: HeldJob;
  readonly certificate: JobCertificate;
}): ReactNode {
  const actions = useActions();
  const [report, setReport] = useState<Output<'certificate.check'> | undefined>(undefined);
  const [error, setError] = useState<CallError | null>(null);
  const digest = certificate.fileDigest ?? '';
  useEffect(() => {
    let gone = false;
    void actions.check(digest).then((answer) => {
      if (gone) return;
      if (answer.ok) setReport(answer.value);
      else setError(answer.error);
    });
    return () => {
      gone = true;
    };
  }, [actions, digest]);
  return (
    <div className="certificate" data-testid="certificate" data-job={held.job.id}>
      <section className="certificate-side">
        <div className="sheet">
          <h2 className="overline">{say(`certificate.kind.${certificate.kind}`)}</h2>
          <p className="certificate-number" data-testid="certificate-number">
            {certificate.number}
          </p>
          <p className="quiet">
            {say('certificate.editionAt', {
              edition: String(certificate.edition),
              at: stampText(certificate.sealed),
            })}
          </p>
          <a className="button" href={fileAddress(digest)} download={`${certificate.number}.pdf`}>
            <Icon name="save" />
            {say('act.saveFile')}
          </a>
        </div>
        <div className="sheet">
          <h2 className="overline">{say('check.title')}</h2>
          {report === undefined && error === null ? <p>{say('wait.check')}</p> : null}
          {report === undefined ? null : <CheckLines report={report} />}
          {error === null ? null : <ErrorNotice error={error} />}
        </div>
      </section>
      <iframe
        className="certificate-file"
        title={certificate.number}
        src={`${fileAddress(digest)}#toolbar=0&navpanes=0&view=FitH`}
      />
    </div>
  );
}
