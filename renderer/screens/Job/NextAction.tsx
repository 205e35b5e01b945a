/** The line at the top: 28 px, one line, one action; made smaller rather than cut when the window is narrow. */
import { type ReactNode, useLayoutEffect, useRef, useState } from 'react';
import { say } from '../../../core/words/index.ts';
import type { NextLine } from '../../state/nextLine.ts';
import { Button } from '../../ui/Button.tsx';

const SIZES = [28, 24, 20, 16] as const;

export function NextAction({
  line,
  onGo,
  onDone,
}: {
  readonly line: NextLine;
  readonly onGo: () => void;
  readonly onDone: () => void;
}): ReactNode {
  const ref = useRef<HTMLHeadingElement>(null);
  const [step, setStep] = useState(0);
  useLayoutEffect(() => setStep(0), []);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return;
    if (element.dataset.text !== line.text) {
      element.dataset.text = line.text;
      setStep(0);
      return;
    }
    if (element.scrollWidth > element.clientWidth && step < SIZES.length - 1) setStep(step + 1);
  });
  return (
    <header className="next">
      <h1
        ref={ref}
        className={`next-line next-${SIZES[step] ?? 16}`}
        data-testid="next-action"
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
