/** A check of a fixture by reversal, or of a target against a rule: two readings, what they show, and the next due date. */
import { type ReactNode, useState } from 'react';
import { foundMm, keepsItsLimit } from '../../../core/job/equipmentChecks.ts';
import type { Shop } from '../../../core/job/shop.ts';
import { say } from '../../../core/words/index.ts';
import { CHECK_OF, type CheckedKind, checkOf, withNewCheck } from '../../state/checkForm.ts';
import type { CallError } from '../../state/ports.ts';
import { dropDraft, useDraft } from '../../state/shopDrafts.ts';
import type { ThingField } from '../../state/shopForms.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { lengthText } from '../../text/lengthText.ts';
import { Button } from '../../ui/Button.tsx';
import { Dialog } from '../../ui/Dialog.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { today } from './DueMark.tsx';
import { ThingFieldRow } from './ThingFieldRow.tsx';

const FIELDS: readonly ThingField[] = [
  { id: 'firstMm', kind: 'length' },
  { id: 'secondMm', kind: 'length' },
  { id: 'limitMm', kind: 'length' },
  { id: 'on', kind: 'day' },
  { id: 'by', kind: 'text' },
  { id: 'nextDueOn', kind: 'day', optional: true },
];

export function CheckThing({
  shop,
  kind,
  id,
  onClose,
}: {
  readonly shop: Shop;
  readonly kind: CheckedKind;
  readonly id: string;
  readonly onClose: () => void;
}): ReactNode {
  const actions = useActions();
  const person = useWindow((state) => state.person);
  const by = shop.people.find((each) => each.id === person)?.name ?? '';
  const form = `check:${kind}:${id}`;
  const [texts, change] = useDraft(form, { on: today(), by, limitMm: '0.5' });
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const [error, setError] = useState<CallError | null>(null);
  const check = checkOf(kind, texts);
  const save = async (): Promise<void> => {
    const made = withNewCheck(shop, kind, id, texts);
    if (!made.ok) return setWrong(made.error.fields);
    const failure = await actions.recordShop(made.value);
    if (failure !== null) return setError(failure);
    dropDraft(form);
    onClose();
  };
  return (
    <Dialog title={say(`check.${CHECK_OF[kind]}`)} open onClose={onClose}>
      <p>{say(`check.how.${CHECK_OF[kind]}`)}</p>
      <div className="dialog-form" data-form="check">
        {FIELDS.map((field) => (
          <ThingFieldRow
            key={field.id}
            field={field}
            label={
              field.id.endsWith('dMm') || field.id === 'firstMm'
                ? `check.${field.id}.${CHECK_OF[kind]}`
                : `check.${field.id}`
            }
            text={texts[field.id] ?? ''}
            wrong={wrong.includes(field.id)}
            onChange={(text) => {
              change({ [field.id]: text });
              setWrong(wrong.filter((each) => each !== field.id));
            }}
          />
        ))}
      </div>
      {check.ok ? (
        <p className={keepsItsLimit(check.value) ? 'strong' : 'question'} data-testid="check-found">
          {say(keepsItsLimit(check.value) ? 'check.kept' : 'check.failed', {
            found: lengthText(foundMm(check.value), 2),
          })}
        </p>
      ) : null}
      {error === null ? null : <ErrorNotice error={error} />}
      <div className="dialog-buttons">
        <Button weight="quiet" onPress={onClose}>
          {say('act.close')}
        </Button>
        <Button weight="main" onPress={() => void save()} testId="check-thing-now">
          {say('shop.save')}
        </Button>
      </div>
    </Dialog>
  );
}
