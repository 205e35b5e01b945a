/** The quiet mark beside a field: typing, sent, recorded, or typed and not recorded. Shape and word, never colour alone. */
import type { ReactNode } from 'react';
import { say } from '../../core/words/index.ts';

export type Mark = 'none' | 'typing' | 'sent' | 'recorded' | 'restored' | 'refused';

const SHAPES: Readonly<Record<Exclude<Mark, 'none'>, ReactNode>> = {
  typing: (
    <circle cx="6" cy="6" r="4.5" fill="none" stroke="currentColor" strokeWidth="1.5" strokeDasharray="2 2" />
  ),
  restored: (
    <circle cx="6" cy="6" r="4.5" fill="none" stroke="currentColor" strokeWidth="1.5" strokeDasharray="2 2" />
  ),
  sent: (
    <>
      <circle cx="6" cy="6" r="4.5" fill="none" stroke="currentColor" strokeWidth="1.5" />
      <path d="M6 1.5a4.5 4.5 0 0 1 0 9Z" fill="currentColor" />
    </>
  ),
  recorded: <circle cx="6" cy="6" r="5" fill="currentColor" />,
  refused: <path d="M2 2l8 8M10 2l-8 8" stroke="currentColor" strokeWidth="2" />,
};

export function EntryMark({ mark }: { readonly mark: Mark }): ReactNode {
  if (mark === 'none') return null;
  return (
    <span className={`mark mark-${mark}`} data-mark={mark}>
      <svg viewBox="0 0 12 12" aria-hidden="true">
        {SHAPES[mark]}
      </svg>
      {say(`mark.${mark}`)}
    </span>
  );
}
