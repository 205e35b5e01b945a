/** A capture failed: what usually is behind it, to be looked at before the next attempt (common practice, no source). */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { Button } from '../../ui/Button.tsx';

export function CaptureHints({
  target,
  onControl,
}: {
  /** Name of the target that the procedure wants. */
  readonly target: string;
  /** Goes to the control; absent where the procedure has none. */
  readonly onControl?: () => void;
}): ReactNode {
  return (
    <section className="hints" data-testid="capture-hints">
      <h3 className="overline">{say('hint.title')}</h3>
      <ul>
        <li>{say('hint.light')}</li>
        <li>{say('hint.reflections')}</li>
        <li>{say('hint.mounting')}</li>
        <li>{say('hint.target', { name: target })}</li>
        <li>{say('hint.floor')}</li>
        <li>{say('hint.moved')}</li>
      </ul>
      {onControl === undefined ? null : (
        <Button icon="repeat" onPress={onControl} testId="hint-control">
          {say('hint.readControl')}
        </Button>
      )}
    </section>
  );
}
