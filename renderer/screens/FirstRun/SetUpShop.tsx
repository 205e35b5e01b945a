/** One's own shop in one short form; then the owner's root key file, shown once, to be saved off this PC. */
import { type ReactNode, useState } from 'react';
import type { Output } from '../../../core/contract/index.ts';
import { say } from '../../../core/words/index.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from '../fields/focusNext.ts';
import { RootKey } from './RootKey.tsx';

const FIELDS = ['name', 'code', 'address', 'bayName', 'personName', 'qualification', 'passphrase'] as const;
type FieldName = (typeof FIELDS)[number];
export type ShopForm = Readonly<Record<FieldName, string>>;

const EMPTY: ShopForm = {
  name: '',
  code: '',
  address: '',
  bayName: '',
  personName: '',
  qualification: '',
  passphrase: '',
};

const NEEDED: readonly FieldName[] = ['name', 'bayName', 'personName'];

/** True when the service will take it: names, a code of 2 to 6 capitals or digits, a passphrase of 8 or more. */
export function isComplete(form: ShopForm): boolean {
  return (
    NEEDED.every((field) => form[field].trim() !== '') &&
    /^[A-Z0-9]{2,6}$/.test(form.code) &&
    form.passphrase.length >= 8
  );
}

export function SetUpShop({ onCancel }: { readonly onCancel: () => void }): ReactNode {
  const actions = useActions();
  const [form, setForm] = useState<ShopForm>(EMPTY);
  const [error, setError] = useState<CallError | null>(null);
  const [working, setWorking] = useState(false);
  const [made, setMade] = useState<Output<'shop.setUp'> | undefined>(undefined);
  if (made !== undefined) return <RootKey made={made} onDone={() => actions.takeStatus(made.status)} />;

  const put = (field: FieldName, text: string): void =>
    setForm({ ...form, [field]: field === 'code' ? text.toUpperCase() : text });
  const finish = async (): Promise<void> => {
    if (!isComplete(form) || working) return;
    setWorking(true);
    const answer = await actions.setUpShop(form);
    setWorking(false);
    if (answer.ok) setMade(answer.value);
    else setError(answer.error);
  };
  return (
    <main className="page">
      <div className="page-head">
        <h1>{say('setUp.title')}</h1>
      </div>
      <section className="sheet" data-form="set-up">
        <div className="form-grid">
          {FIELDS.map((field) => (
            <TextEntry
              key={field}
              label={say(`setUp.${field}`)}
              hint={say(`setUp.${field}.hint`)}
              fieldKey={`setUp.${field}`}
              secret={field === 'passphrase'}
              autoFocus={field === 'name'}
              value={form[field]}
              mark="none"
              onChange={(text) => put(field, text)}
              onEnter={() => focusNext(document.activeElement)}
            />
          ))}
        </div>
      </section>
      {error === null ? null : <ErrorNotice error={error} />}
      <div className="dialog-buttons">
        <Button weight="quiet" onPress={onCancel}>
          {say('act.cancel')}
        </Button>
        <Button
          weight="main"
          disabled={!isComplete(form) || working}
          onPress={() => void finish()}
          testId="set-up-now"
        >
          {working ? say('setUp.working') : say('setUp.now')}
        </Button>
      </div>
    </main>
  );
}
