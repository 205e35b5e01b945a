/** One thing of the shop, new or as it is kept: what cannot be read yet is named, and saving records the shop once. */
import { type ReactNode, useState } from 'react';
import type { Shop } from '../../../core/job/shop.ts';
import { say } from '../../../core/words/index.ts';
import type { CallError } from '../../state/ports.ts';
import { dropDraft, useDraft } from '../../state/shopDrafts.ts';
import { THING_FIELDS, type ThingExtras, type ThingKind, textsOf, withThing } from '../../state/shopForms.ts';
import { streamOfTexts, streamText, textsOfStream } from '../../state/streamForm.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { Dialog } from '../../ui/Dialog.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { StreamForm } from './StreamForm.tsx';
import { ThingFieldRow } from './ThingFieldRow.tsx';

interface EditThingProps {
  readonly shop: Shop;
  readonly kind: ThingKind;
  /** Which one; a new one when absent. */
  readonly id?: string | undefined;
  readonly onClose: () => void;
}

export function EditThing({ shop, kind, id, onClose }: EditThingProps): ReactNode {
  const actions = useActions();
  const form = `${kind}:${id ?? 'new'}`;
  const before = kind === 'instruments' ? shop.instruments.find((each) => each.id === id)?.stream : undefined;
  const given = {
    ...(id === undefined ? {} : textsOf(shop, kind, id)),
    ...(kind === 'instruments' ? textsOfStream(before) : {}),
  };
  const [texts, change, typed] = useDraft(form, given);
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const [tried, setTried] = useState(streamText(before));
  const [error, setError] = useState<CallError | null>(null);
  const close = (): void => {
    actions.stopListening();
    onClose();
  };
  const extras = (): ThingExtras | undefined => {
    if (kind !== 'instruments') return {};
    const stream = streamOfTexts(texts, before);
    const isTried = stream.ok && (stream.value === undefined || streamText(stream.value) === tried);
    if (!stream.ok) setWrong(stream.error.fields);
    else if (!isTried) setWrong(['stream.tryFirst']);
    return isTried ? { stream: stream.value } : undefined;
  };
  const save = async (): Promise<void> => {
    const extra = extras();
    if (extra === undefined) return;
    const made = withThing(shop, kind, texts, id, extra);
    if (!made.ok) return setWrong(made.error.fields);
    const failure = await actions.recordShop(made.value);
    if (failure !== null) return setError(failure);
    dropDraft(form);
    close();
  };
  return (
    <Dialog title={say(id === undefined ? `shop.add.${kind}` : `shop.edit.${kind}`)} open onClose={close}>
      <div className="dialog-form" data-form="thing">
        {THING_FIELDS[kind].map((field) => (
          <ThingFieldRow
            key={field.id}
            field={field}
            text={texts[field.id] ?? ''}
            wrong={wrong.includes(field.id)}
            onChange={(text) => {
              change({ [field.id]: text });
              setWrong(wrong.filter((each) => each !== field.id));
            }}
          />
        ))}
        {kind === 'instruments' ? (
          <StreamForm
            texts={texts}
            before={before}
            wrong={wrong}
            onChange={(more) => {
              change(more);
              setWrong([]);
            }}
            onTried={setTried}
          />
        ) : null}
      </div>
      {error === null ? null : <ErrorNotice error={error} />}
      <div className="dialog-buttons">
        {typed ? (
          <Button weight="quiet" onPress={() => dropDraft(form)} testId="drop-thing">
            {say('shop.dropTyped')}
          </Button>
        ) : null}
        <Button weight="quiet" onPress={close}>
          {say('act.close')}
        </Button>
        <Button weight="main" onPress={() => void save()} testId="add-thing-now">
          {say(id === undefined ? 'act.add' : 'shop.save')}
        </Button>
      </div>
    </Dialog>
  );
}
