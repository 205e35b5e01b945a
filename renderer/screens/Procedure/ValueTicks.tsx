/** Every value of a procedure, each to be confirmed by itself beside the page. */
import type { ReactNode } from 'react';
import { ToggleButton } from 'react-aria-components';
import type { Procedure } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { procedureValues } from '../../state/procedureValues.ts';

export function ValueTicks({
  procedure,
  ticked,
  onTick,
}: {
  readonly procedure: Procedure;
  readonly ticked: readonly string[];
  readonly onTick: (ticked: readonly string[]) => void;
}): ReactNode {
  const lines = procedureValues(procedure);
  return (
    <section className="sheet" data-testid="value-ticks">
      <ul className="value-list">
        {lines.map(({ where, label, text }) => (
          <li key={where} data-value-line={where}>
            <span className="value-label">{label}</span>
            <span className="strong">{text}</span>
            <ToggleButton
              className="choice"
              aria-label={`${label}, ${text}: ${say('reviewing.asOnPage')}`}
              isSelected={ticked.includes(where)}
              onChange={(on) => onTick(on ? [...ticked, where] : ticked.filter((each) => each !== where))}
            >
              {say('reviewing.asOnPage')}
            </ToggleButton>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Whether every value was confirmed, and how many were. */
export function tickCount(
  procedure: Procedure,
  ticked: readonly string[],
): { readonly all: boolean; readonly words: string } {
  const lines = procedureValues(procedure);
  const done = lines.filter((each) => ticked.includes(each.where)).length;
  return {
    all: done === lines.length,
    words: say('reviewing.count', { done: String(done), all: String(lines.length) }),
  };
}
