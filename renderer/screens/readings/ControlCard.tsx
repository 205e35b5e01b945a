/**
 * Work stood still, or something on the car was answered anew: one control must agree before it goes on. Read blind; where it
 * differs, one tap says what moved, and what that spoils is asked for again.
 */
import type { ReactNode } from 'react';
import { type ControlDue, controlReason } from '../../../core/job/controlDue.ts';
import { type ReadingSpec, slotKey } from '../../../core/placement/recipe.ts';
import { formatDeg } from '../../../core/units.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import type { Slot } from '../../state/readings.ts';
import { lengthText } from '../../text/lengthText.ts';
import { readingName } from '../../text/solveTroubleWords.ts';
import { Button } from '../../ui/Button.tsx';
import { Notice } from '../../ui/Notice.tsx';
import { BodyMoved } from './BodyMoved.tsx';

interface ControlCardProps {
  readonly held: HeldJob;
  readonly due: ControlDue;
  readonly recipe: readonly ReadingSpec[];
  readonly slot: Slot | undefined;
  readonly onRead: (key: string) => void;
}

function Differs({ held, due, recipe, slot, onRead }: ControlCardProps): ReactNode {
  const amount = (value: number): string =>
    slot?.spec.unit === 'deg' ? formatDeg(Math.abs(value), 2) : lengthText(Math.abs(value), 1);
  return (
    <Notice tone="trouble" title={say('control.titleFailed')}>
      <p>
        {say('control.differs', {
          reading: readingName(slotKey({ ...due.slot, purpose: 'proof' }), recipe),
          difference: amount(due.difference ?? 0),
          limit: amount(due.limit),
        })}
      </p>
      <p>{say('control.whatMoved')}</p>
      <BodyMoved held={held} bodies={['fixture', 'car']} within="control-" />
      {slot === undefined ? null : (
        <Button weight="quiet" icon="repeat" onPress={() => onRead(slot.key)} testId="control-again">
          {say('control.readAgain')}
        </Button>
      )}
    </Notice>
  );
}

export function ControlCard(props: ControlCardProps): ReactNode {
  const { due, recipe, slot, onRead } = props;
  const reason = controlReason(due.cause);
  const kind = due.state === 'disagrees' ? 'disagrees' : 'due';
  return (
    <div data-testid="control-due" data-state={kind}>
      {kind === 'disagrees' ? (
        <Differs {...props} />
      ) : (
        <Notice title={say('control.title')}>
          <p>{say(reason.wordKey, reason.values)}</p>
          <p>
            {say('control.which', {
              reading: readingName(slotKey({ ...due.slot, purpose: 'proof' }), recipe),
            })}
          </p>
          {slot === undefined ? null : (
            <Button weight="main" icon="repeat" onPress={() => onRead(slot.key)} testId="control-read">
              {say('control.readNow')}
            </Button>
          )}
        </Notice>
      )}
    </div>
  );
}
