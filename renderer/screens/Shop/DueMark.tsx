/** Until when something holds, in shape and word: it holds, it ends soon, it is over. */
import type { ReactNode } from 'react';
import { dueStanding } from '../../../core/job/dueStanding.ts';
import { localDay } from '../../../core/job/localTime.ts';
import { say } from '../../../core/words/index.ts';

const SHAPES: Readonly<Record<ReturnType<typeof dueStanding>, ReactNode>> = {
  holds: <rect x="1" y="1" width="14" height="14" fill="currentColor" />,
  soon: <path d="M1 1h14v14H1ZM8 2.5h5.5v11H8Z" fill="currentColor" fillRule="evenodd" />,
  over: <rect x="2" y="2" width="12" height="12" fill="none" stroke="currentColor" strokeWidth="2" />,
};

/** Today on this PC's clock. */
export function today(): string {
  const now = new Date();
  return localDay(now.getTime(), -now.getTimezoneOffset());
}

export function DueMark({
  dueOn,
  of = 'check',
}: {
  readonly dueOn: string;
  readonly of?: 'check' | 'competence';
}): ReactNode {
  const standing = dueStanding(dueOn, today());
  return (
    <span className={`due due-${standing}`} data-due={standing}>
      <svg viewBox="0 0 16 16" aria-hidden="true">
        {SHAPES[standing]}
      </svg>
      {say(`due.${of}.${standing}`, { day: dueOn })}
    </span>
  );
}
