/** A line of typed text with its label, hint, unit and mark. What it means is decided by who uses it. */
import { type KeyboardEvent, type ReactNode, type Ref, useId } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import { EntryMark, type Mark } from './EntryMark.tsx';

export interface TextEntryProps {
  readonly label: string;
  readonly value: string;
  readonly mark: Mark;
  readonly hint?: string;
  readonly unit?: string;
  readonly numeric?: boolean;
  readonly secret?: boolean;
  readonly large?: boolean;
  readonly autoFocus?: boolean;
  readonly fieldKey?: string;
  readonly inputRef?: Ref<HTMLInputElement>;
  readonly beside?: ReactNode;
  readonly below?: ReactNode;
  readonly onChange: (text: string) => void;
  readonly onEnter?: () => void;
  readonly onBlur?: () => void;
}

export function TextEntry(props: TextEntryProps): ReactNode {
  const hintId = useId();
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' || props.onEnter === undefined) return;
    event.preventDefault();
    props.onEnter();
  };
  return (
    <TextField
      className={props.large === true ? 'field field-large' : 'field'}
      value={props.value}
      type={props.secret === true ? 'password' : 'text'}
      onChange={props.onChange}
      {...(props.hint === undefined ? {} : { 'aria-describedby': hintId })}
      {...(props.fieldKey === undefined ? {} : { 'data-field': props.fieldKey })}
      {...(props.autoFocus === true ? { autoFocus: true } : {})}
      {...(props.onBlur === undefined ? {} : { onBlur: props.onBlur })}
    >
      <div className="field-head">
        <Label className="field-label">{props.label}</Label>
        <EntryMark mark={props.mark} />
      </div>
      <div className="field-line">
        <Input
          className="input"
          autoComplete="off"
          spellCheck={false}
          onKeyDown={onKeyDown}
          {...(props.numeric === true ? { inputMode: 'decimal' as const } : {})}
          {...(props.inputRef === undefined ? {} : { ref: props.inputRef })}
        />
        {props.unit === undefined ? null : <span className="unit">{props.unit}</span>}
        {props.beside}
      </div>
      {props.hint === undefined ? null : (
        <span className="quiet" id={hintId}>
          {props.hint}
        </span>
      )}
      {props.below}
    </TextField>
  );
}
