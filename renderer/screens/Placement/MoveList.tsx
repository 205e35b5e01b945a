/** The moves in the order they are made, so that none undoes one before it. The first is also the line at the top. */
import type { ReactNode } from 'react';
import type { Move } from '../../../core/placement/types.ts';
import { say } from '../../../core/words/index.ts';
import { sayKey } from '../../text/sayKey.ts';

export function MoveList({ moves }: { readonly moves: readonly Move[] }): ReactNode {
  if (moves.length === 0) return null;
  return (
    <section className="sheet" data-testid="moves">
      <h3>{say('moves.title')}</h3>
      <ol className="moves">
        {moves.map((move) => (
          <li key={`${move.kind} ${move.wordKey}`}>{sayKey(move.wordKey, move.values)}</li>
        ))}
      </ol>
    </section>
  );
}
