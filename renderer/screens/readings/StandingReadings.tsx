/** What is recorded for a reading: its repeats, each to be struck; a slip of the last 30 seconds in one tap. */
import { type ReactNode, useEffect, useState } from 'react';
import type { RecordedReading } from '../../../core/job/job.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { isFreshSlip, readingText, SLIP_WINDOW_MS } from '../../state/readingEntry.ts';
import type { Slot } from '../../state/readings.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { StrikeDialog } from './StrikeDialog.tsx';

/** True until the 30 seconds are over; draws again when they are. */
function useFreshSlip(reading: RecordedReading): boolean {
  const person = useWindow((state) => state.person);
  const [, setTick] = useState(0);
  const fresh = isFreshSlip(reading, person, Date.now());
  useEffect(() => {
    if (!fresh) return undefined;
    const left = reading.stamp.utcMs + SLIP_WINDOW_MS + 100 - Date.now();
    const timer = window.setTimeout(() => setTick((tick) => tick + 1), left);
    return () => window.clearTimeout(timer);
  }, [fresh, reading.stamp.utcMs]);
  return fresh;
}

function StandingReading({
  held,
  slot,
  reading,
}: {
  readonly held: HeldJob;
  readonly slot: Slot;
  readonly reading: RecordedReading;
}): ReactNode {
  const actions = useActions();
  const [asking, setAsking] = useState(false);
  const fresh = useFreshSlip(reading);
  const strike = (reason: string, words: string): void => {
    setAsking(false);
    void actions.record(held.job.id, [
      { type: 'readingStruck', v: 1, payload: { reading: reading.reading, reason, words } },
    ]);
  };
  return (
    <li className="standing" data-reading={reading.reading}>
      <span className="standing-value">{readingText(reading.value, slot.spec)}</span>
      {reading.direction === null || slot.spec.directions === undefined ? null : (
        <span className="quiet">
          {say(
            `tilt.${slot.spec.directions.find((each) => each === reading.direction) ?? slot.spec.directions[0]}`,
          )}
        </span>
      )}
      {fresh ? (
        <Button icon="close" onPress={() => strike('typingSlip', '')} testId="slip">
          {say('act.typingSlip')}
        </Button>
      ) : (
        <Button icon="strike" weight="quiet" onPress={() => setAsking(true)} testId="strike">
          {say('act.strike')}
        </Button>
      )}
      <StrikeDialog
        open={asking}
        value={readingText(reading.value, slot.spec)}
        onClose={() => setAsking(false)}
        onStrike={strike}
      />
    </li>
  );
}

export function StandingReadings({ held, slot }: { readonly held: HeldJob; readonly slot: Slot }): ReactNode {
  const last = slot.standing.at(-1);
  if (last === undefined) {
    return slot.state === 'earlier' ? <p className="quiet">{say('readings.earlier')}</p> : null;
  }
  return (
    <ul className="standings" data-testid="standing">
      {slot.standing.slice(-3).map((reading) => (
        <StandingReading key={reading.reading} held={held} slot={slot} reading={reading} />
      ))}
    </ul>
  );
}
