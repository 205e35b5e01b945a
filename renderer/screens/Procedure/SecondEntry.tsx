/** The same person types every value again on another day; the first entry shows only when the second is whole. */
import { type ReactNode, useState } from 'react';
import type { Procedure } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { type AgainField, differingAgain, fieldsAgain } from '../../state/procedureReview.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from '../fields/focusNext.ts';

function AgainEntry({
  field,
  text,
  first,
  onChange,
}: {
  readonly field: AgainField;
  readonly text: string;
  /** The first entry, where the two differ. */
  readonly first: string | undefined;
  readonly onChange: (text: string) => void;
}): ReactNode {
  return (
    <TextEntry
      label={field.way === '' ? field.label : `${field.label} (${field.way})`}
      fieldKey={field.where}
      value={text}
      mark="none"
      onChange={onChange}
      onEnter={() => focusNext(document.activeElement)}
      below={
        first === undefined ? null : (
          <span className="question" data-differs={field.where}>
            {say('again.first')}: {first}
          </span>
        )
      }
    />
  );
}

export function SecondEntry({
  procedure,
  onAgreed,
}: {
  readonly procedure: Procedure;
  readonly onAgreed: () => void;
}): ReactNode {
  const actions = useActions();
  const fields = fieldsAgain(procedure);
  const [typed, setTyped] = useState<Readonly<Record<string, string>>>({});
  const [compared, setCompared] = useState(false);
  const empty = fields.filter((field) => (typed[field.where] ?? '').trim() === '').length;
  const differing = compared ? differingAgain(fields, typed) : [];
  return (
    <section className="sheet" data-form="again">
      <div className="part-grid">
        {fields.map((field) => (
          <AgainEntry
            key={field.where}
            field={field}
            text={typed[field.where] ?? ''}
            first={differing.includes(field) ? field.first : undefined}
            onChange={(text) => setTyped({ ...typed, [field.where]: text })}
          />
        ))}
      </div>
      {empty > 0 ? <p className="quiet">{say('again.missing', { count: String(empty) })}</p> : null}
      {compared && differing.length > 0 ? <p role="alert">{say('again.differ')}</p> : null}
      {compared && differing.length === 0 ? <p role="status">{say('again.agree')}</p> : null}
      <div className="part-buttons">
        {compared ? null : (
          <Button
            weight="main"
            disabled={empty > 0}
            testId="compare-entries"
            onPress={() => setCompared(true)}
          >
            {say('again.compare')}
          </Button>
        )}
        {compared && differing.length > 0 ? (
          <Button onPress={() => actions.go({ screen: 'procedure', act: 'edit', id: procedure.id })}>
            {say('again.firstWrong')}
          </Button>
        ) : null}
        {compared ? (
          <Button
            weight="main"
            icon="done"
            disabled={differing.length > 0}
            testId="record-review"
            onPress={onAgreed}
          >
            {say('reviewing.record')}
          </Button>
        ) : null}
      </div>
    </section>
  );
}
