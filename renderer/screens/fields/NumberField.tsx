/** A number with its unit, read by our own parser; a doubtful one is asked about beside the box and not sent meanwhile. */
import { type ReactNode, useState } from 'react';
import type { FieldPlace } from '../../../core/job/fieldKey.ts';
import { fieldFact, readNumber, shownNumber } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from './focusNext.ts';
import { leftForGood } from './leftForGood.ts';
import { Question, Refusal } from './Question.tsx';
import { useField } from './useField.ts';

export interface NumberFieldProps {
  readonly held: HeldJob;
  readonly field: string;
  readonly at: FieldPlace;
  readonly label: string;
  readonly unit: string;
  readonly decimals: number;
  readonly limits?: { readonly min: number; readonly max: number };
  readonly hint?: string;
  readonly below?: ReactNode;
}

export function NumberField(props: NumberFieldProps): ReactNode {
  const { held, field, at, label, unit, decimals, limits, below } = props;
  const actions = useActions();
  const view = useField(held, field, at, { unit, decimals });
  const [asked, setAsked] = useState(false);
  const read = readNumber(view.text, unit, limits);
  const open = view.mark === 'typing' || view.mark === 'restored' || view.mark === 'refused';

  const record = (value: number): void => {
    setAsked(false);
    void actions.send(view.job, view.key, [fieldFact(field, at, value, view.text)]);
  };
  /** True when the field is finished with: sent, unchanged or empty. */
  const finish = (): boolean => {
    if (!open) return true;
    if (view.text.trim() === '' || view.text === view.recordedText) {
      actions.drop(view.job, view.key);
      return true;
    }
    if (!read.ok || read.value.question !== undefined) {
      setAsked(true);
      actions.leave(view.job, view.key);
      return false;
    }
    record(read.value.value);
    return true;
  };
  return (
    <TextEntry
      label={label}
      unit={unit}
      numeric
      {...(props.hint === undefined ? {} : { hint: props.hint })}
      fieldKey={view.key}
      value={view.text}
      mark={view.mark}
      onChange={(text) => {
        setAsked(false);
        actions.type(view.job, view.key, text);
      }}
      onBlur={() => {
        if (view.mark !== 'typing') return;
        if (leftForGood()) finish();
        else actions.leave(view.job, view.key);
      }}
      onEnter={() => {
        if (finish()) focusNext(document.activeElement);
      }}
      below={
        <>
          {below}
          {!asked || !open || read.ok ? null : (
            <Refusal refusal={read.error} onSuggestion={(text) => actions.type(view.job, view.key, text)} />
          )}
          {!asked || !open || !read.ok || read.value.question === undefined ? null : (
            <Question
              question={read.value.question}
              valueText={(value) => `${shownNumber(value, unit, decimals)} ${unit}`}
              onCure={(cure) => record(cure.value)}
            />
          )}
          {view.error === null ? null : <ErrorNotice error={view.error} />}
        </>
      }
    />
  );
}
