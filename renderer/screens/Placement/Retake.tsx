/** After a move or a bump: what has to be read again, and what still holds. Only that is asked for. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import type { Slot } from '../../state/readings.ts';
import { sayKey } from '../../text/sayKey.ts';

export function Retake({ slots }: { readonly slots: readonly Slot[] }): ReactNode {
  const again = slots.filter((slot) => slot.state === 'earlier');
  const holding = slots.filter((slot) => slot.state === 'recorded');
  if (again.length === 0) return null;
  return (
    <section className="sheet retake" data-testid="retake">
      <h2 className="overline">{say('retake.title', { count: String(again.length) })}</h2>
      <ol>
        {again.map((slot) => (
          <li key={slot.key} data-again={slot.key}>
            {sayKey(slot.spec.label)}
          </li>
        ))}
      </ol>
      {holding.length === 0 ? null : (
        <p className="quiet">
          {say('retake.holds', { readings: holding.map((slot) => sayKey(slot.spec.label)).join('; ') })}
        </p>
      )}
    </section>
  );
}
