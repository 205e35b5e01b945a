/**
 * A hub dropped to the floor past its tyre: the mark lies under the line of the side arm, which points outward along the axle.
 * The bob's own spread falls with the drops; where the hub's centre is and where the mark was made does not.
 */
import type { Reading } from '../adjust/network.ts';
import { defaultUncertainties, type WorkUncertainties } from './defaults.ts';
import { hubId, markId } from './names.ts';
import type { Wheel } from './placementReading.ts';
import type { SlotValue } from './readings.ts';
import { meanOfRepeats } from './tape.ts';

/** Whether a wheel is on the car's left. */
export const leftWheel = (wheel: Wheel): boolean => wheel === 'FL' || wheel === 'RL';

const axleOf = (wheel: Wheel): { readonly from: string; readonly to: string } =>
  wheel === 'FL' || wheel === 'FR'
    ? { from: hubId('FR'), to: hubId('FL') }
    : { from: hubId('RR'), to: hubId('RL') };

/** The drop in plan, and the height of the hub above its mark; mm. `drop` is the mean of the drops of this hub. */
export function hubDropReadings(
  wheel: Wheel,
  drop: SlotValue,
  work: WorkUncertainties,
): readonly [Reading, Reading] {
  const { u, dof } = meanOfRepeats([work.hubCentreMm, work.markMm], work.plumbMm, drop.count);
  const [armSide, outward] = leftWheel(wheel) ? (['left', 1] as const) : (['right', -1] as const);
  return [
    {
      kind: 'drop',
      id: `drop.${wheel}`,
      instrument: 'plumbBob',
      point: hubId(wheel),
      mark: markId(wheel),
      direction: axleOf(wheel),
      alongMm: 0,
      acrossMm: 0,
      arm: { shared: `sideArm.${armSide}`, along: outward, across: 0 },
      uAlongMm: u,
      uAcrossMm: u,
      dof,
    },
    {
      kind: 'height',
      id: `drop.${wheel}:height`,
      point: hubId(wheel),
      above: { point: markId(wheel) },
      valueMm: drop.value,
      uMm: defaultUncertainties.hubHeightMm / Math.sqrt(drop.count),
    },
  ];
}
