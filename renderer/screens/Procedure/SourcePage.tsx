/** The page a procedure was read from, beside the form: kept in the archive by its digest, shown here, sent to nobody. */
import { type ReactNode, useState } from 'react';
import { FileTrigger } from 'react-aria-components';
import { say } from '../../../core/words/index.ts';
import { fileAddress, storeFile } from '../../api.ts';
import type { CallError } from '../../state/ports.ts';
import type { ProcedureDraft } from '../../state/procedureDraft.ts';
import { type PageKind, pageKindOf } from '../../state/sourcePage.ts';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';

type Page = NonNullable<ProcedureDraft['page']>;

/** The page itself, in Chromium's own view or as a picture. */
export function PageView({ page }: { readonly page: Page }): ReactNode {
  const title = say('procedureForm.page.title');
  const address = fileAddress(page.digest);
  return page.kind === 'pdf' ? (
    <iframe className="source-page" title={title} src={`${address}#toolbar=0&navpanes=0&view=FitH`} />
  ) : (
    <div className="source-page source-picture">
      <img src={address} alt={title} />
    </div>
  );
}

export function SourcePage({
  page,
  onPage,
}: {
  readonly page: Page | undefined;
  readonly onPage: (page: Page) => void;
}): ReactNode {
  const [error, setError] = useState<CallError | null>(null);
  const [wrong, setWrong] = useState(false);
  const take = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return;
    const kind: PageKind | undefined = pageKindOf(new Uint8Array(await file.slice(0, 16).arrayBuffer()));
    setWrong(kind === undefined);
    setError(null);
    if (kind === undefined) return;
    const stored = await storeFile(file);
    if (stored.ok) onPage({ digest: stored.value.digest, kind });
    else setError(stored.error);
  };
  return (
    <div className="source-side">
      {page === undefined ? (
        <p className="source-page source-empty">{say('procedureForm.page.none')}</p>
      ) : (
        <PageView page={page} />
      )}
      {wrong ? (
        <p className="question" role="alert">
          {say('procedureForm.page.wrong')}
        </p>
      ) : null}
      {error === null ? null : <ErrorNotice error={error} />}
      <div className="source-tools">
        <FileTrigger
          acceptedFileTypes={['application/pdf', 'image/jpeg', 'image/png']}
          onSelect={(files) => void take(files?.[0])}
        >
          <Button icon="document" testId="pick-page">
            {say(page === undefined ? 'procedureForm.page.pick' : 'procedureForm.page.other')}
          </Button>
        </FileTrigger>
        <span className="quiet">{say('procedureForm.page.copyright')}</span>
      </div>
    </div>
  );
}
