/** Why there is no placement: what is undetermined and which reading would fix it, or what contradicts. */
import type { ReactNode } from 'react';
import type { SolveError } from '../../../core/job/solve.ts';
import type { ReadingSpec } from '../../../core/placement/recipe.ts';
import { solveTroubleWords } from '../../text/solveTroubleWords.ts';
import { Notice } from '../../ui/Notice.tsx';

export function SolveTrouble({
  error,
  recipe,
}: {
  readonly error: SolveError;
  readonly recipe: readonly ReadingSpec[];
}): ReactNode {
  const lines = solveTroubleWords(error, recipe);
  return (
    <Notice tone="trouble">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </Notice>
  );
}
