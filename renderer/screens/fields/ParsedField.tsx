/** A text that is read into a value of its own form; one that has another form is refused in words and stays typed. */
import { type ReactNode, useState } from 'react';
import type { TypedProblem, TypedValue } from '../../../core/job/facts.ts';
import type { FieldPlace } from '../../../core/job/fieldKey.ts';
import type { Field } from '../../../core/job/stages/index.ts';
import type { Result } from '../../../core/result.ts';
import { fieldFact } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { Button } from '../../ui/Button.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from './focusNext.ts';
import { leftForGood } from './leftForGood.ts';
import { useField } from './useField.ts';

export interface ParsedFieldProps {
  readonly held: HeldJob;
  readonly field: Pick<Field, 'id' | 'label' | 'hint'>;
  readonly at: FieldPlace;
  readonly parse: (text: string) => Result<TypedValue, TypedProblem>;
  /** What is kept beside the value as the text. */
  readonly tidy: (value: TypedValue) => string;
  /** An answer that one tap gives, while nothing is typed. */
  readonly tap?: { readonly words: string; readonly text: () => string };
  readonly below?: (text: string) => ReactNode;
}

export function ParsedField(props: ParsedFieldProps): ReactNode {
  const { held, field, at, parse, tidy, tap, below } = props;
  const actions = useActions();
  const view = useField(held, field.id, at);
  const [asked, setAsked] = useState(false);
  const open = view.mark === 'typing' || view.mark === 'restored' || view.mark === 'refused';
  const read = parse(view.text);

  const take = (text: string): boolean => {
    const value = parse(text);
    if (!value.ok) {
      setAsked(true);
      actions.leave(view.job, view.key);
      return false;
    }
    setAsked(false);
    void actions.send(view.job, view.key, [fieldFact(field.id, at, value.value, tidy(value.value))]);
    return true;
  };
  const finish = (): boolean => {
    if (!open) return true;
    if (view.text.trim() !== '' && view.text !== view.recordedText) return take(view.text);
    actions.drop(view.job, view.key);
    return true;
  };
  return (
    <TextEntry
      label={sayKey(field.label)}
      fieldKey={view.key}
      value={view.text}
      mark={view.mark}
      {...(field.hint === undefined ? {} : { hint: sayKey(field.hint) })}
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
      {...(tap === undefined || view.text !== ''
        ? {}
        : {
            beside: (
              <Button
                onPress={() => {
                  const text = tap.text();
                  actions.type(view.job, view.key, text);
                  take(text);
                }}
              >
                {tap.words}
              </Button>
            ),
          })}
      below={
        <>
          {below?.(view.text)}
          {!asked || !open || read.ok || view.text.trim() === '' ? null : (
            <div className="question" role="alert" data-testid="refusal">
              <span className="question-text">{sayKey(read.error.key, read.error.values)}</span>
            </div>
          )}
          {view.error === null ? null : <ErrorNotice error={view.error} />}
        </>
      }
    />
  );
}
