/** All readings of a stage in walking order, one touchable step each: done, next, to be read again, suspect. */
import type { ReactNode } from 'react';
import { Button } from 'react-aria-components';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import { say } from '../../../core/words/index.ts';
import type { Slot } from '../../state/readings.ts';
import { sayKey } from '../../text/sayKey.ts';

type StepState = Slot['state'] | 'suspect';

/** A slot named by the engine as one that does not fit the others. */
export function isSuspect(slot: Slot, answer: PlacementAnswer | undefined): boolean {
  return answer?.suspects.some((suspect) => suspect.readingIds.includes(slot.key)) ?? false;
}

const SHAPES: Readonly<Record<StepState, ReactNode>> = {
  missing: null,
  optional: null,
  recorded: <path d="m3 8.5 3.2 3.2L13 5" fill="none" stroke="currentColor" strokeWidth="2" />,
  earlier: <path d="M12 5a5 5 0 1 0 1 3.5M12.5 2v3.5H9" fill="none" stroke="currentColor" strokeWidth="2" />,
  suspect: <path d="M8 3v6M8 12v1.5" fill="none" stroke="currentColor" strokeWidth="2.5" />,
};

export function LapStrip({
  slots,
  current,
  answer,
  onPick,
}: {
  readonly slots: readonly Slot[];
  readonly current: Slot | undefined;
  readonly answer: PlacementAnswer | undefined;
  readonly onPick: (key: string) => void;
}): ReactNode {
  return (
    <ol className="lap" aria-label={say('readings.lap')}>
      {slots.map((slot, index) => {
        const state: StepState = isSuspect(slot, answer) ? 'suspect' : slot.state;
        return (
          <li key={slot.key} className="lap-item">
            <Button
              className={`lap-step lap-${state}`}
              aria-label={`${index + 1}, ${sayKey(slot.spec.label)}, ${say(`slot.${state}`)}`}
              aria-current={slot.key === current?.key ? 'step' : 'false'}
              data-slot={slot.key}
              data-state={state}
              onPress={() => onPick(slot.key)}
            >
              <span>{index + 1}</span>
              <svg viewBox="0 0 16 16" aria-hidden="true">
                {SHAPES[state]}
              </svg>
            </Button>
          </li>
        );
      })}
    </ol>
  );
}
