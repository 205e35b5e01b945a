/** One field as the window shows it: what is recorded, what is typed over it, and its mark. */

import type { FieldValue } from '../../../core/job/events.ts';
import { type FieldPlace, fieldKey } from '../../../core/job/fieldKey.ts';
import type { RecordedField } from '../../../core/job/job.ts';
import { recordedText } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import type { CallError } from '../../state/ports.ts';
import { typedKey } from '../../state/typedEntry.ts';
import { useWindow } from '../../state/windowContext.tsx';
import type { Mark } from '../../ui/EntryMark.tsx';

export interface FieldView {
  readonly job: string;
  readonly key: string;
  readonly recorded: RecordedField | undefined;
  /** The text in the box: typed if anything is typed, else recorded. */
  readonly text: string;
  readonly recordedText: string;
  readonly mark: Mark;
  readonly error: CallError | null;
  /** The value as chosen, whether answered yet or not. */
  readonly chosen: FieldValue | undefined;
}

export function useField(
  held: HeldJob,
  field: string,
  at: FieldPlace,
  number?: { readonly unit: string; readonly decimals: number },
): FieldView {
  const job = held.job.id;
  const key = fieldKey(field, at);
  const typed = useWindow((state) => state.typed[typedKey(job, key)]);
  const pending = useWindow((state) => state.pending[typedKey(job, key)]);
  const recorded = held.job.fields[key];
  const shown = recordedText(recorded, held.personal, number);
  const waiting: Mark = pending === undefined ? 'none' : 'sent';
  const settled: Mark = recorded === undefined ? waiting : 'recorded';
  return {
    job,
    key,
    recorded,
    text: typed?.text ?? shown,
    recordedText: shown,
    mark: typed?.phase ?? (pending === undefined ? settled : 'sent'),
    error: typed?.error ?? null,
    chosen: pending === undefined ? recorded?.value : (pending.value as FieldValue),
  };
}
