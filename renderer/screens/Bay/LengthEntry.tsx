/** A number of the shop's own, not of a job's record: read by our parser, its text kept by whoever asks for it. */
import type { ReactNode } from 'react';
import { parseQuantity } from '../../../core/entry/index.ts';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from '../fields/focusNext.ts';

/** The length of a text in mm, or undefined where it has no reading or a doubtful one. */
export function lengthOfText(text: string): number | undefined {
  const read = parseQuantity(text, { kind: 'length', numbersIn: 'mm' });
  return read.ok && read.value.questions.length === 0 ? read.value.value : undefined;
}

export function LengthEntry({
  label,
  name,
  text,
  unit = 'mm',
  onText,
}: {
  readonly label: string;
  readonly name: string;
  readonly text: string;
  readonly unit?: string;
  readonly onText: (text: string) => void;
}): ReactNode {
  return (
    <TextEntry
      label={label}
      fieldKey={name}
      value={text}
      mark="none"
      numeric
      unit={unit}
      onChange={onText}
      onEnter={() => focusNext(document.activeElement)}
    />
  );
}
