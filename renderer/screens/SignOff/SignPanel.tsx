/** Which certificate it will be, why, and the held press. Refused here and in the service while anything is missing. */
import { type ReactNode, useState } from 'react';
import { type Assessment, isFilled, objections } from '../../../core/job/assess.ts';
import type { CertificateKind } from '../../../core/job/events.ts';
import { stageById } from '../../../core/job/stages/index.ts';
import { type Language, say } from '../../../core/words/index.ts';
import { recordedText } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { HoldButton } from '../../ui/HoldButton.tsx';
import { LanguageChoice } from '../../ui/LanguageChoice.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { StageForm } from '../fields/StageForm.tsx';
import { UnlockKey } from './UnlockKey.tsx';

interface SignPanelProps {
  readonly held: HeldJob;
  readonly assessment: Assessment;
  readonly kinds: readonly CertificateKind[];
  readonly kind: CertificateKind;
  readonly onKind: (kind: CertificateKind | undefined) => void;
  /** What the certificate, and its draft, is printed in. */
  readonly language: Language;
  readonly onLanguage: (language: Language) => void;
}

/** The reason printed on a certificate that is not *calibrated*: the one picked, then the person's own words. */
export function stopReason(held: HeldJob): string {
  const picked = held.job.fields['signoff.stopReason']?.value;
  const reason =
    typeof picked === 'string' && picked !== '' ? sayKey(`field.signoff.stopReason.${picked}`) : '';
  const words = recordedText(held.job.fields['signoff.stopWords'], held.personal);
  return [reason, words].filter((each) => each !== '').join('; ');
}

function SignNow({
  held,
  kind,
  language,
  onLanguage,
  ready,
}: Pick<SignPanelProps, 'held' | 'kind' | 'language' | 'onLanguage'> & {
  readonly ready: boolean;
}): ReactNode {
  const actions = useActions();
  const key = useWindow((state) => state.status?.key);
  const person = useWindow((state) => state.status?.shop?.people.find((each) => each.id === state.person));
  const [signing, setSigning] = useState(false);
  const [error, setError] = useState<CallError | null>(null);
  if (key === 'locked') return <UnlockKey />;
  const maySign = person?.roles.includes('signer') ?? false;
  if (!maySign) return <p className="question">{say('signoff.notSigner', { name: person?.name ?? '' })}</p>;
  const sign = async (): Promise<void> => {
    setSigning(true);
    setError(null);
    const reason = kind === 'calibrated' ? '' : stopReason(held);
    const answer = await actions.issue(held.job.id, kind, reason, language);
    setSigning(false);
    if (!answer.ok) setError(answer.error);
  };
  return (
    <>
      <span className="quiet">{say('signoff.language')}</span>
      <LanguageChoice
        label={say('signoff.language')}
        testId="certificate-language"
        chosen={language}
        onChoose={onLanguage}
      />
      <HoldButton disabled={!ready || signing} testId="sign" onHeld={() => void sign()}>
        {signing ? say('signoff.signing') : say('signoff.hold', { name: person?.name ?? '' })}
      </HoldButton>
      {error === null ? null : <ErrorNotice error={error} />}
    </>
  );
}

export function SignPanel(props: SignPanelProps): ReactNode {
  const { held, assessment, kinds, kind, onKind } = props;
  const against = objections(assessment, kind);
  const needsReason = kind === 'notCalibrated' && !isFilled(held.job.fields['signoff.stopReason']?.value);
  const within = assessment.placement === 'within';
  return (
    <section className="sheet sign" data-testid="sign-panel" data-kind={kind}>
      <h2 className="overline">{say('signoff.willBe')}</h2>
      <ChoiceButtons
        label={say('signoff.willBe')}
        testId="certificate-kind"
        items={kinds.map((value) => ({ value, text: say(`certificate.kind.${value}`) }))}
        chosen={[kind]}
        onChoose={([value]) => onKind(kinds.find((each) => each === value))}
      />
      <p>{say(`signoff.why.${kind}`)}</p>
      <StageForm
        held={held}
        stage={stageById('signoff')}
        only={(field) =>
          field.id === 'signoff.withinReason' ? within && kind === 'calibrated' : kind !== 'calibrated'
        }
      />
      {against.length > 0 ? (
        <p className="question" data-testid="objections">
          {say('signoff.objections', { count: String(against.length) })}
        </p>
      ) : null}
      {needsReason ? <p className="question">{say('signoff.pickReason')}</p> : null}
      <SignNow {...props} ready={against.length === 0 && !needsReason} />
    </section>
  );
}
