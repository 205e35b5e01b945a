/** In a rehearsal the instrument's face stands beside the box: the person reads it and types, as in a bay. */
import { type ReactNode, useMemo } from 'react';
import type { Instrument } from '../../core/job/equipment.ts';
import { say } from '../../core/words/index.ts';
import type { HeldJob } from '../state/heldJob.ts';
import type { PlacementView } from '../state/placementView.ts';
import type { Slot } from '../state/readings.ts';
import { useRehearsal } from './rehearsalState.ts';
import { shownFor } from './simulated.ts';

export function SimulatedInstrument({
  held,
  view,
  slot,
  instrument,
  onTake,
}: {
  readonly held: HeldJob;
  readonly view: PlacementView;
  readonly slot: Slot;
  readonly instrument: Instrument | undefined;
  /** Types the number for the person, with its way. */
  readonly onTake: (text: string, direction: string | undefined) => void;
}): ReactNode {
  const state = useRehearsal(held.job, view.stations[0]);
  const shown = useMemo(
    () => (state === undefined ? undefined : shownFor(held.job, view, state, slot, instrument)),
    [held.job, view, slot, instrument, state],
  );
  if (shown === undefined) return null;
  const unit = slot.spec.unit === 'deg' ? '°' : (instrument?.numbersIn ?? 'mm');
  const way = shown.direction === undefined ? '' : say(`tilt.${shown.direction}`);
  return (
    <button
      type="button"
      className="simulated-instrument"
      data-testid="simulated-instrument"
      onClick={() => onTake(shown.text, shown.direction)}
    >
      <span className="overline">{say('rehearsal.shows')}</span>
      <span className="simulated-number">
        {shown.text} {unit}
      </span>
      <span className="quiet">{way}</span>
    </button>
  );
}
