/** Another shop's review through two files: a request that goes out, a reply that comes in. */
import { type ReactNode, useState } from 'react';
import { FileTrigger } from 'react-aria-components';
import type { Procedure } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { reviewRequest, withReviewReply } from '../../state/procedureReview.ts';
import { useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { saveText } from './saveText.ts';

export function OtherShop({
  procedure,
  onReviewed,
}: {
  readonly procedure: Procedure;
  readonly onReviewed: (procedure: Procedure) => void;
}): ReactNode {
  const shop = useWindow((state) => state.status?.shop?.name ?? '');
  const [refusal, setRefusal] = useState('');
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const read = withReviewReply(procedure, await file.text());
    setRefusal(read.ok ? '' : read.error);
    if (read.ok) onReviewed(read.value);
  };
  return (
    <section className="sheet" data-testid="other-shop">
      <div className="part-buttons">
        <Button
          icon="save"
          testId="save-request"
          onPress={() => saveText(reviewRequest(procedure, shop), `${procedure.id}-request.json`)}
        >
          {say('otherShop.saveRequest')}
        </Button>
        <FileTrigger
          acceptedFileTypes={['application/json', '.json']}
          onSelect={(files) => void take(files?.[0])}
        >
          <Button icon="document" testId="take-reply">
            {say('otherShop.takeReply')}
          </Button>
        </FileTrigger>
      </div>
      <p className="quiet">{say('otherShop.unsigned')}</p>
      {refusal === '' ? null : (
        <p className="question" role="alert">
          {refusal}
        </p>
      )}
    </section>
  );
}
