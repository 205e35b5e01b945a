/** One more thing of the shop, drawn from its table; what cannot be read yet is named, nothing is recorded meanwhile. */
import { type ReactNode, useState } from 'react';
import type { Shop } from '../../../core/job/shop.ts';
import { say } from '../../../core/words/index.ts';
import type { CallError } from '../../state/ports.ts';
import {
  THING_FIELDS,
  type ThingField,
  type ThingKind,
  type ThingTexts,
  withThing,
} from '../../state/shopForms.ts';
import { useActions } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { Dialog } from '../../ui/Dialog.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from '../fields/focusNext.ts';

function ThingFieldRow({
  field,
  text,
  wrong,
  onChange,
}: {
  readonly field: ThingField;
  readonly text: string;
  readonly wrong: boolean;
  readonly onChange: (text: string) => void;
}): ReactNode {
  const label = sayKey(`thing.${field.id}`);
  const trouble = wrong ? <span className="question">{say(`thing.wrong.${field.kind}`)}</span> : null;
  if (field.kind === 'choice' || field.kind === 'choices') {
    return (
      <div className="field field-choices" data-field={`thing.${field.id}`}>
        <span className="field-label">{label}</span>
        <ChoiceButtons
          label={label}
          many={field.kind === 'choices'}
          items={(field.values ?? []).map((value) => ({ value, text: sayKey(`thing.${field.id}.${value}`) }))}
          chosen={text.split(',')}
          onChoose={(values) => onChange(values.join(','))}
        />
        {trouble}
      </div>
    );
  }
  return (
    <TextEntry
      label={label}
      fieldKey={`thing.${field.id}`}
      value={text}
      mark="none"
      numeric={field.kind === 'length' || field.kind === 'number'}
      {...(field.kind === 'length' ? { unit: 'mm' } : {})}
      {...(field.kind === 'day' ? { hint: say('thing.dayHint') } : {})}
      onChange={onChange}
      onEnter={() => focusNext(document.activeElement)}
      below={trouble}
    />
  );
}

export function AddThing({
  shop,
  kind,
  onClose,
}: {
  readonly shop: Shop;
  readonly kind: ThingKind;
  readonly onClose: () => void;
}): ReactNode {
  const actions = useActions();
  const [texts, setTexts] = useState<ThingTexts>({});
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const [error, setError] = useState<CallError | null>(null);
  const add = async (): Promise<void> => {
    const made = withThing(shop, kind, texts);
    if (!made.ok) return setWrong(made.error.fields);
    const failure = await actions.recordShop(made.value);
    if (failure === null) onClose();
    else setError(failure);
  };
  return (
    <Dialog title={say(`shop.add.${kind}`)} open onClose={onClose}>
      <div className="dialog-form" data-form="thing">
        {THING_FIELDS[kind].map((field) => (
          <ThingFieldRow
            key={field.id}
            field={field}
            text={texts[field.id] ?? ''}
            wrong={wrong.includes(field.id)}
            onChange={(text) => {
              setTexts({ ...texts, [field.id]: text });
              setWrong(wrong.filter((each) => each !== field.id));
            }}
          />
        ))}
      </div>
      {error === null ? null : <ErrorNotice error={error} />}
      <div className="dialog-buttons">
        <Button weight="quiet" onPress={onClose}>
          {say('act.cancel')}
        </Button>
        <Button weight="main" onPress={() => void add()} testId="add-thing-now">
          {say('act.add')}
        </Button>
      </div>
    </Dialog>
  );
}
