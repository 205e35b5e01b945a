/** A request of another shop, reviewed here value by value; what goes back is a reply file, nothing is recorded. */
import { type ReactNode, useState } from 'react';
import { FileTrigger } from 'react-aria-components';
import type { Procedure } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { readReviewRequest, reviewReply } from '../../state/procedureReview.ts';
import { today } from '../../state/today.ts';
import { useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ProcedurePage } from './ProcedurePage.tsx';
import { saveText } from './saveText.ts';
import { tickCount, ValueTicks } from './ValueTicks.tsx';

interface Request {
  readonly shop: string;
  readonly procedure: Procedure;
}

function Asked({ request }: { readonly request: Request }): ReactNode {
  const shop = useWindow((state) => state.status?.shop ?? null);
  const person = useWindow((state) => state.person);
  const [ticked, setTicked] = useState<readonly string[]>([]);
  const name = shop?.people.find((each) => each.id === person)?.name;
  const { procedure } = request;
  const count = tickCount(procedure, ticked);
  return (
    <>
      <p className="strong">
        {procedure.title}. {say('otherShop.from', { shop: request.shop })}
      </p>
      <ValueTicks procedure={procedure} ticked={ticked} onTick={setTicked} />
      <div className="part-buttons">
        <span>{count.words}</span>
        <Button
          weight="main"
          icon="save"
          disabled={!count.all || name === undefined || shop === null}
          testId="save-reply"
          onPress={() => {
            if (shop === null || name === undefined) return;
            saveText(reviewReply(procedure, shop.name, name, today()), `${procedure.id}-reply.json`);
          }}
        >
          {say('otherShop.saveReply')}
        </Button>
      </div>
    </>
  );
}

export function ForeignReview(): ReactNode {
  const [request, setRequest] = useState<Request | undefined>(undefined);
  const [refusal, setRefusal] = useState('');
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const read = readReviewRequest(await file.text());
    setRefusal(read.ok ? '' : read.error);
    setRequest(read.ok ? read.value : undefined);
  };
  return (
    <ProcedurePage title={say('procedureList.foreign')} testId="foreign-review">
      <p>{say('otherShop.openWords')}</p>
      <div>
        <FileTrigger
          acceptedFileTypes={['application/json', '.json']}
          onSelect={(files) => void take(files?.[0])}
        >
          <Button icon="document" testId="open-request">
            {say('otherShop.open')}
          </Button>
        </FileTrigger>
      </div>
      {refusal === '' ? null : (
        <p className="question" role="alert">
          {refusal}
        </p>
      )}
      {request === undefined ? null : <Asked key={request.procedure.id} request={request} />}
    </ProcedurePage>
  );
}
