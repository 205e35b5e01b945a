/** What the readings say about each other: suspects, spreads, failed controls. Pointed at, never thrown out. */
import type { ReactNode } from 'react';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import type { ReadingSpec } from '../../../core/placement/recipe.ts';
import { say } from '../../../core/words/index.ts';
import { findingLines, openWords } from '../../text/findingWords.ts';
import { Notice } from '../../ui/Notice.tsx';

interface FindingsProps {
  readonly answer: PlacementAnswer;
  readonly recipe: readonly ReadingSpec[];
}

/** What is not known yet, and which readings it waits for. */
export function StillOpen({ answer, recipe }: FindingsProps): ReactNode {
  return openWords(answer, recipe).map((line) => (
    <p key={line} className="quiet" data-testid="still-open">
      {line}
    </p>
  ));
}

export function Findings({ answer, recipe }: FindingsProps): ReactNode {
  const lines = findingLines(answer, recipe);
  if (lines.length === 0) return null;
  return (
    <Notice tone="trouble">
      {lines.map((line) => (
        <div key={line.words}>
          <p>{line.words}</p>
          {line.names.length === 0 ? null : (
            <details className="these">
              <summary>{say('finding.these', { count: String(line.names.length) })}</summary>
              <ul>
                {line.names.map((name) => (
                  <li key={name}>{name}</li>
                ))}
              </ul>
            </details>
          )}
        </div>
      ))}
    </Notice>
  );
}
