/** The moves after the first, which is the line at the top: in the order they are made, none undoes one before it. */
import type { ReactNode } from 'react';
import type { Move } from '../../../core/placement/types.ts';
import { say, withoutThenRead } from '../../../core/words/index.ts';
import { moveText } from '../../text/moveText.ts';

/** A move without what is to be read after it: in the list all are made first, then everything is read again. */
export function moveAlone(move: Move): string {
  return withoutThenRead(moveText(move));
}

export function MoveList({ moves }: { readonly moves: readonly Move[] }): ReactNode {
  const rest = moves.slice(1).filter((move) => move.kind !== 'setSlide');
  if (rest.length === 0) return null;
  return (
    <section className="sheet moves-sheet" data-testid="moves">
      <h2 className="overline">{say('moves.title')}</h2>
      <ol className="moves">
        {rest.map((move) => (
          <li key={`${move.kind} ${move.wordKey}`}>{moveAlone(move)}</li>
        ))}
      </ol>
    </section>
  );
}
