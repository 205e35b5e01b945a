/** Facts as label and value, one below the other. */
import type { ReactNode } from 'react';

export interface Fact {
  readonly label: string;
  readonly value: string;
  readonly note?: string;
}

export function Facts({
  facts,
  testId,
}: {
  readonly facts: readonly Fact[];
  readonly testId?: string;
}): ReactNode {
  return (
    <dl className="facts" {...(testId === undefined ? {} : { 'data-testid': testId })}>
      {facts.map(({ label, value, note }) => (
        <div key={label} className="fact">
          <dt>{label}</dt>
          <dd>
            <span>{value}</span> {note === undefined ? null : <span className="fact-note">{note}</span>}
          </dd>
        </div>
      ))}
    </dl>
  );
}
