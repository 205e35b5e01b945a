/** The shop's procedures with their source and review; another one is taken from a file after it passed its check. */
import { type ReactNode, useState } from 'react';
import { FileTrigger } from 'react-aria-components';
import type { Shop } from '../../../core/job/shop.ts';
import { say } from '../../../core/words/index.ts';
import type { CallError } from '../../state/ports.ts';
import { readProcedureFile, withProcedure } from '../../state/procedureFile.ts';
import { useActions } from '../../state/windowContext.tsx';
import { procedureLine } from '../../text/procedureLine.ts';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';

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
  return (
    <section className="sheet" data-things="procedures">
      <h2 className="overline">{say('shop.procedures')}</h2>
      {shop.procedures.length === 0 ? <p>{say('shop.noneYet')}</p> : null}
      <ul className="things">
        {shop.procedures.map((procedure) => (
          <li key={procedure.id}>
            <span className="strong">{procedure.title}</span>{' '}
            <span className="quiet">{procedureLine(procedure)}</span>
          </li>
        ))}
      </ul>
      {mayAdd ? (
        <div>
          <FileTrigger
            acceptedFileTypes={['application/json', '.json']}
            onSelect={(files) => void take(files?.[0])}
          >
            <Button icon="document" testId="add-procedure">
              {say('shop.addProcedure')}
            </Button>
          </FileTrigger>
        </div>
      ) : null}
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
