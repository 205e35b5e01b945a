/** What the announcer has said, newest first: nothing is only heard. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { useAnnouncerState } from '../../announcer/useAnnouncer.ts';

/** Hours and minutes of this PC's clock. */
function clockText(utcMs: number): string {
  const at = new Date(utcMs);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}`;
}

export function SaidLines(): ReactNode {
  const on = useAnnouncerState((state) => state.on);
  const said = useAnnouncerState((state) => state.said);
  if (!on) return null;
  const [last] = said;
  return (
    <section className="sheet said" data-testid="said">
      <h2 className="overline">{say('announcer.title')}</h2>
      {last === undefined ? <p className="quiet">{say('announcer.none')}</p> : null}
      <ol>
        {said.map((each) => (
          <li key={`${each.atUtcMs} ${each.text}`}>
            <span className="quiet">{clockText(each.atUtcMs)}</span> {each.text}
          </li>
        ))}
      </ol>
      {last === undefined ? null : <p className="quiet">{say(`announcer.${last.given}`)}</p>}
    </section>
  );
}
