/**
 * A text that is typed: Enter or leaving the box sends it once, nothing else does. A draft from before a restart waits
 * for Enter, so that nobody records half a word by passing through.
 */
import type { ReactNode } from 'react';
import type { FieldPlace } from '../../../core/job/fieldKey.ts';
import type { Field } from '../../../core/job/stages/index.ts';
import { typedFact } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from './focusNext.ts';
import { leftForGood } from './leftForGood.ts';
import { useField } from './useField.ts';

export interface TypedFieldProps {
  readonly held: HeldJob;
  readonly field: Pick<Field, 'id' | 'kind' | 'label' | 'hint'>;
  readonly at: FieldPlace;
  readonly below?: (text: string) => ReactNode;
  /** Brings the text into the form it is recorded in. */
  readonly tidy?: (text: string) => string;
  /** True for a text that cannot be right: it stays a draft until the person decides. */
  readonly holds?: (text: string) => boolean;
}

export function TypedField({ held, field, at, below, tidy, holds }: TypedFieldProps): ReactNode {
  const actions = useActions();
  const view = useField(held, field.id, at);
  const send = (): void => {
    const text = (tidy?.(view.text) ?? view.text).trim();
    if (text === view.recordedText) actions.drop(view.job, view.key);
    else if (holds?.(text) === true) actions.leave(view.job, view.key);
    else void actions.send(view.job, view.key, [typedFact(field, at, text)]);
  };
  return (
    <TextEntry
      label={sayKey(field.label)}
      fieldKey={view.key}
      value={view.text}
      mark={view.mark}
      {...(field.hint === undefined ? {} : { hint: sayKey(field.hint) })}
      onChange={(text) => actions.type(view.job, view.key, text)}
      onBlur={() => {
        if (view.mark !== 'typing') return;
        if (leftForGood()) send();
        else actions.leave(view.job, view.key);
      }}
      onEnter={() => {
        if (view.mark !== 'recorded' && view.mark !== 'none' && view.mark !== 'sent') send();
        focusNext(document.activeElement);
      }}
      below={
        <>
          {below?.(view.text)}
          {view.error === null ? null : <ErrorNotice error={view.error} />}
        </>
      }
    />
  );
}
