/** The verdict as shape and word: filled square, half-filled square, empty square. Colour only repeats the shape. */
import type { ReactNode } from 'react';
import type { VerdictKind } from '../../core/certificate/document.ts';

const CLASS: Readonly<Record<VerdictKind, string>> = {
  proven: 'verdict-proven',
  notProven: 'verdict-not-proven',
  outside: 'verdict-outside',
};

export function VerdictShape({ kind }: { readonly kind: VerdictKind }): ReactNode {
  return (
    <svg className={`verdict-shape ${CLASS[kind]}`} viewBox="0 0 16 16" aria-hidden="true">
      <rect x="1.5" y="1.5" width="13" height="13" fill="none" stroke="currentColor" strokeWidth="2" />
      {kind === 'proven' ? <rect x="4" y="4" width="8" height="8" fill="currentColor" /> : null}
      {kind === 'notProven' ? <path d="M4 12V4l8 8Z" fill="currentColor" /> : null}
    </svg>
  );
}

export function VerdictMark({
  kind,
  words,
  note,
}: {
  readonly kind: VerdictKind;
  readonly words: string;
  readonly note?: string;
}): ReactNode {
  return (
    <span className={`verdict ${CLASS[kind]}`} data-verdict={kind}>
      <VerdictShape kind={kind} />
      <span>{words}</span>
      {note === undefined ? null : <span className="verdict-note">{note}</span>}
    </span>
  );
}
