/** The moves as a checklist, in the order in which none undoes one before it; each is ticked when it is made. */
import type { ReactNode } from 'react';
import type { Move } from '../../../core/placement/instruction.ts';
import type { ReadingSpec } from '../../../core/placement/recipe.ts';
import { say } from '../../../core/words/index.ts';
import type { ListedMove, MovesUnderWay } from '../../state/movesUnderWay.ts';
import { openMoves } from '../../state/movesUnderWay.ts';
import { effectWords, moveAlone, thenReadWords } from '../../text/moveWords.ts';
import { Button } from '../../ui/Button.tsx';
import { Icon } from '../../ui/Icon.tsx';

interface MoveListProps {
  readonly list: MovesUnderWay;
  readonly recipe: readonly ReadingSpec[];
  readonly onDone: (moves: readonly Move[]) => void;
}

function MoveRow({
  listed: { move, done },
  list,
  next,
  onDone,
}: {
  readonly listed: ListedMove;
  readonly list: MovesUnderWay;
  readonly next: boolean;
  readonly onDone: (moves: readonly Move[]) => void;
}): ReactNode {
  const effect = effectWords(move, list.station, list.requirement?.place ?? 'ahead');
  return (
    <li data-move={move.kind} data-done={done} aria-current={next ? 'step' : undefined}>
      <span className="move-text">
        <span className="move-words">{moveAlone(move)}</span>
        {done || effect === '' ? null : <span className="quiet">{effect}</span>}
      </span>
      {done ? (
        <span className="move-ticked">
          <Icon name="done" />
          {say('moves.done')}
        </span>
      ) : (
        <Button
          icon="done"
          weight={next ? 'main' : 'plain'}
          label={say('moves.doneLabel', { move: moveAlone(move) })}
          onPress={() => onDone([move])}
          testId={`move-done-${move.kind}`}
        >
          {say('act.done')}
        </Button>
      )}
    </li>
  );
}

export function MoveList({ list, recipe, onDone }: MoveListProps): ReactNode {
  const open = openMoves(list);
  const after = thenReadWords(
    list.moves.map((each) => each.move),
    recipe,
  );
  return (
    <section className="sheet moves-sheet" data-testid="moves">
      <h2 className="overline">{say('moves.title')}</h2>
      <ol className="moves">
        {list.moves.map((listed) => (
          <MoveRow
            key={`${listed.move.kind} ${listed.move.wordKey}`}
            listed={listed}
            list={list}
            next={listed.move === open[0]}
            onDone={onDone}
          />
        ))}
      </ol>
      <div className="moves-foot">
        <span className="quiet">{after}</span>
        {open.length < 2 ? null : (
          <Button icon="done" weight="quiet" onPress={() => onDone(open)} testId="moves-all-done">
            {say('moves.allDone')}
          </Button>
        )}
      </div>
    </section>
  );
}
