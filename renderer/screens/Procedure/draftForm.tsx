/** What every part of a procedure's form gets, and a line of it with its faults in words. */
import type { ReactNode } from 'react';
import type { ProcedureDraft } from '../../state/procedureDraft.ts';
import type { FieldFault } from '../../state/procedureOfDraft.ts';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from '../fields/focusNext.ts';

export interface DraftForm {
  readonly draft: ProcedureDraft;
  readonly change: (draft: ProcedureDraft) => void;
  /** The draft as it is when something is typed, for parts that were not drawn again since. */
  readonly now: () => ProcedureDraft;
  /** Faults to be shown now: what is merely empty is said only after somebody tried to record. */
  readonly faults: readonly FieldFault[];
  /** What the inputs are tried with, as typed, and as values by name. */
  readonly tried: Readonly<Record<string, string>>;
  readonly tryWith: (name: string, text: string) => void;
  readonly trial: ReadonlyMap<string, number>;
  /** One screen for one station, or the whole document. */
  readonly quick: boolean;
}

/** What is wrong with a field, beside it; `where` as the check names places. */
export function FaultLines({ form, where }: { readonly form: DraftForm; readonly where: string }): ReactNode {
  const words = new Set(form.faults.filter((each) => each.where === where).map((each) => each.words));
  return [...words].map((text) => (
    <span key={text} className="question" data-fault={where}>
      {text}
    </span>
  ));
}

export function DraftText({
  form,
  where,
  label,
  value,
  hint,
  numeric = false,
  autoFocus = false,
  below,
  onChange,
}: {
  readonly form: DraftForm;
  readonly where: string;
  readonly label: string;
  readonly value: string;
  readonly hint?: string;
  readonly numeric?: boolean;
  readonly autoFocus?: boolean;
  readonly below?: ReactNode;
  readonly onChange: (text: string) => void;
}): ReactNode {
  return (
    <TextEntry
      label={label}
      fieldKey={where}
      value={value}
      mark="none"
      numeric={numeric}
      autoFocus={autoFocus}
      {...(hint === undefined ? {} : { hint })}
      onChange={onChange}
      onEnter={() => focusNext(document.activeElement)}
      below={
        <>
          {below}
          <FaultLines form={form} where={where} />
        </>
      }
    />
  );
}
