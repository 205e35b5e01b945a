/** A field answered by a tap: one of a few, several of a few, yes or no. The tap itself is recorded. */
import type { ReactNode } from 'react';
import { valueTexts } from '../../../core/job/assess.ts';
import type { TypedValue } from '../../../core/job/facts.ts';
import type { FieldPlace } from '../../../core/job/fieldKey.ts';
import { say } from '../../../core/words/index.ts';
import { fieldFact } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { ChoiceButtons, type ChoiceItem } from '../../ui/ChoiceButtons.tsx';
import { EntryMark } from '../../ui/EntryMark.tsx';
import { useField } from './useField.ts';

export interface ChoiceFieldProps {
  readonly held: HeldJob;
  readonly field: string;
  readonly at: FieldPlace;
  readonly label: string;
  readonly items: readonly ChoiceItem[];
  readonly kind: 'choice' | 'choices' | 'confirm';
  readonly hint?: string;
  readonly caution?: string;
}

/** Yes and No of a confirmation. */
export function yesNo(stops: readonly string[]): readonly ChoiceItem[] {
  return [
    { value: 'yes', text: say('answer.yes'), stops: stops.includes('yes') },
    { value: 'no', text: say('answer.no'), stops: stops.includes('no') },
  ];
}

function chosenValue(kind: ChoiceFieldProps['kind'], values: readonly string[]): TypedValue {
  if (kind === 'choices') return [...values];
  const [value = ''] = values;
  return kind === 'confirm' ? value === 'yes' : value;
}

export function ChoiceField(props: ChoiceFieldProps): ReactNode {
  const { held, field, at, label, items, kind, hint, caution } = props;
  const actions = useActions();
  const view = useField(held, field, at);
  const choose = (values: readonly string[]): void => {
    const value = chosenValue(kind, values);
    void actions.record(view.job, [fieldFact(field, at, value, values.join(', '))], { key: view.key, value });
  };
  return (
    <div className={`field field-${kind}`} data-field={view.key}>
      <div className="field-head">
        <span className="field-label">{label}</span>
        <EntryMark mark={view.mark} />
      </div>
      {caution === undefined ? null : <span className="field-caution">{caution}</span>}
      <ChoiceButtons
        label={label}
        items={items}
        many={kind === 'choices'}
        chosen={valueTexts(view.chosen)}
        onChoose={choose}
      />
      {hint === undefined ? null : <span className="quiet">{hint}</span>}
    </div>
  );
}
