/** A place to drop any certificate and have it checked. Nothing of it is kept in a job. */
import { type DragEvent, type ReactNode, useState } from 'react';
import { FileTrigger } from 'react-aria-components';
import type { Output } from '../../../core/contract/index.ts';
import { say } from '../../../core/words/index.ts';
import { storeFile } from '../../api.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { CheckLines } from './CheckLines.tsx';

type Report = Output<'certificate.check'>;

export function CheckScreen(): ReactNode {
  const actions = useActions();
  const [name, setName] = useState('');
  const [report, setReport] = useState<Report | undefined>(undefined);
  const [error, setError] = useState<CallError | null>(null);

  const check = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    setName(file.name);
    setReport(undefined);
    setError(null);
    const stored = await storeFile(file);
    if (!stored.ok) return setError(stored.error);
    const answer = await actions.check(stored.value.digest);
    if (answer.ok) setReport(answer.value);
    else setError(answer.error);
  };
  const drop = (event: DragEvent): void => {
    event.preventDefault();
    void check(event.dataTransfer.files[0]);
  };
  return (
    <main className="page page-check">
      <div className="page-head">
        <div className="page-title">
          <h1>{say('check.screen')}</h1>
        </div>
        <Button icon="home" onPress={() => actions.go({ screen: 'home' })}>
          {say('act.home')}
        </Button>
      </div>
      <section
        className="sheet drop"
        aria-label={say('check.drop')}
        onDrop={drop}
        onDragOver={(event) => event.preventDefault()}
      >
        <p>{say('check.drop')}</p>
        <FileTrigger acceptedFileTypes={['application/pdf']} onSelect={(files) => void check(files?.[0])}>
          <Button weight="main" icon="document" testId="choose-file">
            {say('check.choose')}
          </Button>
        </FileTrigger>
      </section>
      {name === '' ? null : (
        <section className="sheet">
          <h2>{name}</h2>
          {report === undefined && error === null ? <p>{say('wait.check')}</p> : null}
          {report === undefined ? null : <CheckLines report={report} />}
          {error === null ? null : <ErrorNotice error={error} />}
        </section>
      )}
    </main>
  );
}
