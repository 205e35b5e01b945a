/** A check: in order, not in order, does not apply, one tap each; a no asks why and takes the reason with one more. */
import type { ReactNode } from 'react';
import { valueTexts } from '../../../core/job/assess.ts';
import { checkValue } from '../../../core/job/facts.ts';
import { NOT_APPLICABLE } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import { fieldFact } from '../../state/fieldText.ts';
import { useLocalNow } from '../../state/localNow.ts';
import { useActions } from '../../state/windowContext.tsx';
import { adhesiveWords } from '../../text/adhesiveWords.ts';
import { sayKey } from '../../text/sayKey.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { EntryMark } from '../../ui/EntryMark.tsx';
import type { StageFieldProps } from './StageField.tsx';
import { useField } from './useField.ts';

export function CheckField({ held, field, place }: StageFieldProps): ReactNode {
  const actions = useActions();
  const view = useField(held, field.id, place.at);
  const [answer = '', reason] = valueTexts(view.chosen);
  const label = sayKey(field.label);
  const record = (next: string, why?: string): void => {
    const value = checkValue(next, why);
    const text = why === undefined ? next : `${next}, ${why}`;
    void actions.record(view.job, [fieldFact(field.id, place.at, value, text)], { key: view.key, value });
  };
  const reasons = field.reasons ?? [];
  const adhesive = adhesiveWords(held.job, useLocalNow());
  const mayNotBeYes = field.movesCar === true && adhesive?.forbids === true;
  return (
    <div className="field field-check" data-field={view.key}>
      <div className="field-head">
        <span className="field-label">{label}</span>
        <EntryMark mark={view.mark} />
      </div>
      <ChoiceButtons
        label={label}
        items={[
          ...(mayNotBeYes ? [] : [{ value: 'yes', text: say('check.inOrder') }]),
          { value: 'no', text: say('check.notInOrder'), stops: field.stops?.includes('no') ?? false },
          ...(field.mayNotApply === true
            ? [{ value: NOT_APPLICABLE, text: say('check.notApplicable') }]
            : []),
        ]}
        chosen={[answer]}
        onChoose={([next]) => {
          if (next !== undefined) record(next);
        }}
      />
      {mayNotBeYes ? <span className="field-caution">{adhesive.words}</span> : null}
      {answer !== 'no' || reasons.length === 0 ? null : (
        <ChoiceButtons
          label={say('check.why', { what: label })}
          items={reasons.map((each) => ({ value: each.value, text: sayKey(each.label) }))}
          chosen={reason === undefined ? [] : [reason]}
          onChoose={([why]) => {
            if (why !== undefined) record('no', why);
          }}
        />
      )}
    </div>
  );
}
