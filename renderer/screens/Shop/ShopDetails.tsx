/** What the shop says of itself on every certificate, and the rule by which it decides. */
import { type ReactNode, useState } from 'react';
import type { Shop } from '../../../core/job/shop.ts';
import { say } from '../../../core/words/index.ts';
import type { CallError } from '../../state/ports.ts';
import { textsOfShop, withDetails } from '../../state/shopDetails.ts';
import { dropDraft, useDraft } from '../../state/shopDrafts.ts';
import type { ThingField } from '../../state/shopForms.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { ThingFieldRow } from './ThingFieldRow.tsx';

const FIELDS: readonly ThingField[] = [
  { id: 'name', kind: 'text' },
  { id: 'code', kind: 'text' },
  ...['address0', 'address1', 'address2', 'address3', 'address4'].map((id) => ({
    id,
    kind: 'text' as const,
  })),
  { id: 'contact', kind: 'text' },
  { id: 'decisionRule', kind: 'choice', values: ['guarded', 'simple', 'fullU'] },
  { id: 'paper', kind: 'choice', values: ['A4', 'Letter'] },
];

export function ShopDetails({
  shop,
  mayChange,
}: {
  readonly shop: Shop;
  readonly mayChange: boolean;
}): ReactNode {
  const actions = useActions();
  const [texts, change, typed] = useDraft('details', textsOfShop(shop));
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const [error, setError] = useState<CallError | null>(null);
  const save = async (): Promise<void> => {
    const made = withDetails(shop, texts);
    if (!made.ok) return setWrong(made.error.fields);
    const failure = await actions.recordShop(made.value);
    setError(failure);
    if (failure === null) dropDraft('details');
  };
  return (
    <fieldset className="sheet plain-fieldset" disabled={!mayChange} data-form="details">
      <div className="form-grid">
        {FIELDS.map((field) => (
          <ThingFieldRow
            key={field.id}
            field={field}
            label={`details.${field.id}`}
            text={texts[field.id] ?? ''}
            wrong={wrong.includes(field.id)}
            onChange={(text) => {
              change({ [field.id]: text });
              setWrong(wrong.filter((each) => each !== field.id));
            }}
          />
        ))}
      </div>
      {error === null ? null : <ErrorNotice error={error} />}
      <div className="stream-acts">
        <Button
          weight="main"
          disabled={!typed || !mayChange}
          onPress={() => void save()}
          testId="save-details"
        >
          {say('shop.save')}
        </Button>
        {typed ? (
          <Button weight="quiet" onPress={() => dropDraft('details')}>
            {say('shop.dropTyped')}
          </Button>
        ) : null}
      </div>
    </fieldset>
  );
}
