/** What the instruments of a rehearsal show for the readings in sight. */

import type { Instrument } from '../../core/job/equipment.ts';
import { readingEntry } from '../../core/job/facts.ts';
import type { Job } from '../../core/job/job.ts';
import { placementInput } from '../../core/job/solve.ts';
import type { TiltDirection } from '../../core/placement/placementReading.ts';
import {
  type RehearsalState,
  type RehearsalWork,
  shownText,
  simulatedReading,
} from '../../core/rehearsal/index.ts';
import type { PlacementView } from '../state/placementView.ts';
import type { Slot } from '../state/readings.ts';

/** A number to type as it stands on the instrument, with the way of a tilt. */
export interface Shown {
  readonly text: string;
  readonly direction: TiltDirection | undefined;
}

/** The simulated bay of a job and what is measured in it; undefined while procedure or equipment are open. */
export function bayOf(
  job: Job,
  view: PlacementView,
  state: RehearsalState,
): { readonly state: RehearsalState; readonly work: RehearsalWork } | undefined {
  const input = placementInput(job, view.sensor);
  if (!input.ok) return undefined;
  const { equipment, stations } = input.value;
  const work = { equipment, stations, fixtureSetUp: job.setUps.fixture, carSetUp: job.setUps.car };
  return { state, work };
}

/** What the instrument shows for a slot: a repeat shows another number. */
export function shownFor(
  job: Job,
  view: PlacementView,
  state: RehearsalState,
  slot: Slot,
  instrument: Instrument | undefined,
): Shown | undefined {
  const bay = bayOf(job, view, state);
  if (bay === undefined) return undefined;
  const taken = slot.standing.length + slot.past.length;
  const seen = simulatedReading(bay.state, bay.work, slot.spec, taken);
  if (seen === undefined) return undefined;
  return {
    text: shownText(seen.value, slot.spec, readingEntry(slot.spec, instrument)),
    direction: seen.direction,
  };
}
