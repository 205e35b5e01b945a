/** The line at the top: one line, one action, as large as fits; larger where the screen hangs farther away. */
import { type ReactNode, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import type { NextLine } from '../../state/nextLine.ts';
import { Button } from '../../ui/Button.tsx';

/** Sizes of the line, CSS pixels, the largest first; the first is for large screens only. */
const SIZES = [44, 28, 24, 20, 16] as const;
/** From this width on a screen is taken for one that hangs on a wall, CSS pixels. */
const LARGE_SCREEN = 1600;

const firstStep = (): number => (globalThis.innerWidth >= LARGE_SCREEN ? 0 : 1);

/** Makes the line smaller until it fits; starts anew with another text or another width. */
function useFittingSize(text: string) {
  const ref = useRef<HTMLHeadingElement>(null);
  const [fit, setFit] = useState({ text, step: firstStep() });
  useEffect(() => {
    const start = (): void => setFit((before) => ({ ...before, step: firstStep() }));
    window.addEventListener('resize', start);
    return () => window.removeEventListener('resize', start);
  }, []);
  useLayoutEffect(() => {
    const element = ref.current;
    if (fit.text !== text) setFit({ text, step: firstStep() });
    else if (element !== null && element.scrollWidth > element.clientWidth && fit.step < SIZES.length - 1) {
      setFit({ text, step: fit.step + 1 });
    }
  });
  return [ref, SIZES[fit.step] ?? 16] as const;
}

export function NextAction({
  line,
  onGo,
  onDone,
}: {
  readonly line: NextLine;
  readonly onGo: () => void;
  readonly onDone: () => void;
}): ReactNode {
  const [ref, size] = useFittingSize(line.text);
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
      {line.moves.length === 0 ? null : (
        <Button weight="main" icon="done" onPress={onDone} testId="move-done">
          {say('act.done')}
        </Button>
      )}
    </header>
  );
}
