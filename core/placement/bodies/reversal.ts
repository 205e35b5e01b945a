/**
 * A plate's tilt proven by reversal: read once, then again with the inclinometer turned end for end. The instrument's zero
 * adds to one and takes from the other, so it is an unknown of its own and leaves the tilt: half their sum is the tilt,
 * half their difference the zero. What the seat is off the plate is in both and stays. Each reading is the lean that the instrument shows for the plate, positive with the top
 * toward the car (ISO 8855 pitch of a face that looks at it). Radians.
 */
import type { Reading, Shared } from '../../adjust/network.ts';
import { err, ok, type Result } from '../../result.ts';
import { tiltAfterReversal } from '../../uncertainty/instruments.ts';
import type { WorkUncertainties } from '../defaults.ts';
import { FIXTURE_ID } from '../names.ts';
import type { PlacementError } from '../placementError.ts';
import type { SlotValue, SlotValues } from '../readings.ts';
import { slotKey } from '../recipeSpec.ts';
import { meanOfRepeats } from '../tape.ts';

/** Slot keys of the two readings. */
export const REVERSAL = ['plate.tilt', 'plate.tiltTurned'] as const;

/** The instrument's zero, as the network knows it. */
export const ZERO_ID = 'plate.zero';

/** The seat's angle to the plate: the same in both readings, so that turning the instrument leaves it in. */
export const SEAT_ID = 'plate.seat';

const signed = (value: SlotValue): number => (value.direction === 'awayFromCar' ? -1 : 1) * value.value;

/** The two readings with their shared zero, or what is missing or unsaid. */
export function tiltByReversal(
  values: SlotValues,
  work: WorkUncertainties,
): Result<
  { readonly startRad: number; readonly readings: readonly Reading[]; readonly shared: readonly Shared[] },
  PlacementError
> {
  const read = REVERSAL.flatMap((id) => values.get(id) ?? []);
  const [first, turned] = read;
  if (first === undefined || turned === undefined) {
    const readingIds = REVERSAL.filter((id) => !values.has(id));
    return err({ code: 'placement/undetermined', quantity: 'fixture', readingIds });
  }
  const unsaid = read.filter((each) => each.direction === undefined && each.value !== 0);
  if (unsaid.length > 0) {
    return err({ code: 'placement/directionMissing', readingIds: unsaid.map((each) => slotKey(each.slot)) });
  }
  const { keptRad, repeatRad } = tiltAfterReversal(work.inclinometerRad, work.inclinometerKeptRad);
  const one = (value: SlotValue, zeroSign: 1 | -1): Reading => {
    // The repeat part is that of a tilt after reversal: the mean of two readings, each root 2 times worse.
    const { u, dof } = meanOfRepeats([], Math.SQRT2 * repeatRad, value.count);
    return {
      kind: 'constraint',
      id: slotKey(value.slot),
      instrument: 'inclinometer',
      terms: [
        { coefficient: 1, quantity: { of: 'pose', body: FIXTURE_ID, component: 'pitch' } },
        { coefficient: zeroSign, quantity: { of: 'shared', shared: ZERO_ID } },
        { coefficient: 1, quantity: { of: 'shared', shared: SEAT_ID } },
      ],
      value: signed(value),
      u,
      dof,
    };
  };
  return ok({
    startRad: (signed(first) + signed(turned)) / 2,
    readings: [one(first, 1), one(turned, -1)],
    shared: [
      {
        id: ZERO_ID,
        quantity: 'angle',
        is: { state: 'free', startRad: (signed(first) - signed(turned)) / 2 },
      },
      {
        id: SEAT_ID,
        quantity: 'angle',
        is: keptRad > 0 ? { state: 'known', valueRad: 0, uRad: keptRad } : { state: 'fixed', valueRad: 0 },
      },
    ],
  });
}
