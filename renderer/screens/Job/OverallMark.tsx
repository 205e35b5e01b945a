/** One mark for the whole job: all recorded, so many sent, so many typed. The first thing to look at after trouble. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { useWindow } from '../../state/windowContext.tsx';

export function OverallMark({ job }: { readonly job: string }): ReactNode {
  const service = useWindow((state) => state.service);
  const unanswered = useWindow((state) => state.unanswered);
  const typed = useWindow(
    (state) =>
      Object.values(state.typed).filter(
        (entry) =>
          entry.job === job && entry.phase !== 'sent' && !entry.key.includes('#') && entry.text !== '',
      ).length,
  );
  const state =
    service !== 'running' ? 'waiting' : unanswered > 0 ? 'sent' : typed > 0 ? 'typing' : 'recorded';
  const count = String(state === 'typing' ? typed : unanswered);
  return (
    <p className={`overall overall-${state}`} data-overall={state} role="status">
      {state === 'recorded' || state === 'waiting'
        ? say(`overall.${state}`)
        : say(`overall.${state}`, { count })}
    </p>
  );
}
