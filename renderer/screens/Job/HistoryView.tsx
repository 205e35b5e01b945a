/** The job's journal as people read it: when, who, what. Struck readings stay in sight. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useWindow } from '../../state/windowContext.tsx';
import { stampText } from '../../text/ageText.ts';
import { eventWords } from '../../text/eventWords.ts';

export function HistoryView({ held }: { readonly held: HeldJob }): ReactNode {
  const people = useWindow((state) => state.status?.shop?.people);
  const nameOf = (id: string): string => people?.find((each) => each.id === id)?.name ?? id;
  const struck = new Set(
    held.job.readings.filter((each) => each.struck !== null).map((each) => each.reading),
  );
  return (
    <section className="sheet history" data-testid="history">
      <h2>{say('job.history')}</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">{say('history.when')}</th>
            <th scope="col">{say('history.who')}</th>
            <th scope="col">{say('history.what')}</th>
          </tr>
        </thead>
        <tbody>
          {held.events.toReversed().map((event) => {
            const isStruck = event.type === 'readingRecorded' && struck.has(event.payload.reading);
            return (
              <tr key={event.seq} data-seq={event.seq} data-type={event.type}>
                <td>{stampText(event.at)}</td>
                <td>{nameOf(event.person)}</td>
                <td className={isStruck ? 'struck' : undefined}>{eventWords(event, held)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
