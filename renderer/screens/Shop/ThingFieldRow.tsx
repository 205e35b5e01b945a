/** One field of a form of the shop, drawn from its table; what cannot be read yet says so below it. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import type { ThingField } from '../../state/shopForms.ts';
import { sayKey } from '../../text/sayKey.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from '../fields/focusNext.ts';

export function ThingFieldRow({
  field,
  label = `thing.${field.id}`,
  text,
  wrong,
  onChange,
}: {
  readonly field: ThingField;
  /** Key of its word, and before the values' own. */
  readonly label?: string;
  readonly text: string;
  readonly wrong: boolean;
  readonly onChange: (text: string) => void;
}): ReactNode {
  const word = sayKey(label);
  const trouble = wrong ? <span className="question">{say(`thing.wrong.${field.kind}`)}</span> : null;
  if (field.kind === 'choice' || field.kind === 'choices') {
    return (
      <div className="field field-choices" data-field={`thing.${field.id}`}>
        <span className="field-label">{word}</span>
        <ChoiceButtons
          label={word}
          many={field.kind === 'choices'}
          items={(field.values ?? []).map((value) => ({ value, text: sayKey(`${label}.${value}`) }))}
          chosen={text.split(',')}
          onChoose={(values) => onChange(values.join(','))}
        />
        {trouble}
      </div>
    );
  }
  return (
    <TextEntry
      label={word}
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
