/** The shop's procedures with source and review; written here, reviewed, compared, taken from a file and given out as one. */
import { type ReactNode, useState } from 'react';
import { FileTrigger } from 'react-aria-components';
import type { Shop } from '../../../core/job/shop.ts';
import { withProcedure } from '../../../core/job/shopProcedures.ts';
import { isReviewed, type Procedure } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import type { CallError } from '../../state/ports.ts';
import { procedureFileText, readProcedureFile } from '../../state/procedureFile.ts';
import type { ProcedureAct } from '../../state/route.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { saveText } from '../Procedure/saveText.ts';

function ProcedureRow({ procedure }: { readonly procedure: Procedure }): ReactNode {
  const actions = useActions();
  const { id, title, edition, source } = procedure;
  const go = (act: ProcedureAct): void => actions.go({ screen: 'procedure', act, id });
  const document = [source.document, source.section].filter(Boolean).join(', ');
  const reviewed = isReviewed(procedure);
  const acts = [
    ['edit', () => go('edit')],
    ...(reviewed ? [] : [['review', () => go('review')] as const]),
    ['compare', () => go('compare')],
    ['export', () => saveText(procedureFileText(procedure), `${id}-${edition}.json`)],
  ] as const;
  return (
    <li data-procedure={id}>
      <span className="strong">{title}</span>
      <span className="quiet">
        {say('procedureList.line', { edition: String(edition), document, readOn: source.readOn })}
      </span>
      <span className={reviewed ? 'quiet' : 'procedure-unreviewed'} data-review={source.reviewWay}>
        {say(`review.${source.reviewWay}`)}
      </span>
      <span className="part-buttons">
        {acts.map(([act, press]) => (
          <Button
            key={act}
            label={`${say(`procedureList.${act}`)}: ${title}`}
            testId={`${act}-${id}`}
            onPress={press}
          >
            {say(`procedureList.${act}`)}
          </Button>
        ))}
      </span>
    </li>
  );
}

export function Procedures({ shop, mayAdd }: { readonly shop: Shop; readonly mayAdd: boolean }): ReactNode {
  const actions = useActions();
  const [faults, setFaults] = useState<readonly string[]>([]);
  const [error, setError] = useState<CallError | null>(null);
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    setError(null);
    const read = readProcedureFile(await file.text());
    setFaults(read.ok ? [] : read.error);
    if (read.ok) setError(await actions.recordShop(withProcedure(shop, read.value)));
  };
  const go = (act: ProcedureAct): void => actions.go({ screen: 'procedure', act, id: '' });
  return (
    <section className="sheet" data-things="procedures">
      <h2 className="overline">{say('shop.procedures')}</h2>
      {shop.procedures.length === 0 ? <p>{say('shop.noneYet')}</p> : null}
      <ul className="things">
        {shop.procedures.map((procedure) => (
          <ProcedureRow key={procedure.id} procedure={procedure} />
        ))}
      </ul>
      <div className="part-buttons">
        <Button icon="add" weight="main" testId="quick-new" onPress={() => go('quick')}>
          {say('procedureList.quick')}
        </Button>
        <Button icon="add" testId="editor-new" onPress={() => go('new')}>
          {say('procedureList.new')}
        </Button>
        {mayAdd ? (
          <FileTrigger
            acceptedFileTypes={['application/json', '.json']}
            onSelect={(files) => void take(files?.[0])}
          >
            <Button icon="document" testId="add-procedure">
              {say('shop.addProcedure')}
            </Button>
          </FileTrigger>
        ) : null}
        <Button icon="check" testId="foreign" onPress={() => go('foreign')}>
          {say('procedureList.foreign')}
        </Button>
      </div>
      {faults.length === 0 ? null : (
        <ul className="question" role="alert" data-testid="procedure-faults">
          {faults.map((fault) => (
            <li key={fault}>{fault}</li>
          ))}
        </ul>
      )}
      {error === null ? null : <ErrorNotice error={error} />}
    </section>
  );
}
