/** The line at the top: one line, one action, as large as fits; larger where the screen hangs farther away. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import type { NextLine } from '../../state/nextLine.ts';
import { Button } from '../../ui/Button.tsx';
import { useFittingSize } from '../../ui/useFittingSize.ts';

/** Sizes of the line, CSS pixels, the largest first; the first is for large screens only. */
const SIZES = [44, 28, 24, 20, 16] as const;
/** From this width on a screen is taken for one that hangs on a wall, CSS pixels. */
const LARGE_SCREEN = 1600;

const firstStep = (): number => (globalThis.innerWidth >= LARGE_SCREEN ? 0 : 1);

export function NextAction({
  line,
  onGo,
  onDone,
  onStand,
}: {
  readonly line: NextLine;
  readonly onGo: () => void;
  readonly onDone: () => void;
  readonly onStand: () => void;
}): ReactNode {
  const [ref, size] = useFittingSize<HTMLHeadingElement>(line.text, SIZES, firstStep);
  return (
    <header className="next">
      <h1
        ref={ref}
        className={`next-line next-${size}`}
        data-testid="next-action"
        title={line.text}
        aria-live="polite"
      >
        {line.text}
      </h1>
      {line.go === undefined ? null : (
        <Button weight="main" onPress={onGo} testId="next-go">
          {say('act.open')}
        </Button>
      )}
      {line.stand === undefined ? null : (
        <Button weight="main" icon="moved" onPress={onStand} testId="next-stand">
          {say('act.putUp')}
        </Button>
      )}
      {line.moves.length === 0 ? null : (
        <Button weight="main" icon="done" onPress={onDone} testId="move-done">
          {say('act.done')}
        </Button>
      )}
    </header>
  );
}
