/** What the readings say about each other: suspects, spreads, failed controls. Pointed at, never thrown out. */
import type { ReactNode } from 'react';
import type { ReadingSpec } from '../../../core/placement/recipe.ts';
import type { PlacementAnswer } from '../../../core/placement/types.ts';
import { findingWords } from '../../text/findingWords.ts';
import { Notice } from '../../ui/Notice.tsx';

export function Findings({
  answer,
  recipe,
}: {
  readonly answer: PlacementAnswer;
  readonly recipe: readonly ReadingSpec[];
}): ReactNode {
  const lines = findingWords(answer, recipe);
  if (lines.length === 0) return null;
  return (
    <Notice tone="trouble">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </Notice>
  );
}
