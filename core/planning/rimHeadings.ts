/**
 * Rear headings read at the rims: the gaps from the car-side line, which runs through the two marks of that side, to the
 * front and rear edge of the rim, in two positions half a turn apart. The angle is against the marks' line, so that an
 * error of the marks turns line and target alike and does not count twice.
 */
import type { Network, Shared } from '../adjust/network.ts';
import type { Estimates } from '../adjust/solution.ts';
import { entry } from '../linalg/matrix.ts';
import { bayPoint } from '../placement/model.ts';
import { markId } from '../placement/names.ts';
import type { SlotValues } from '../placement/readings.ts';
import { meanOfRepeats, type ReadingU } from '../placement/tape.ts';
import type { VehicleFrame } from '../vehicle/frame.ts';
import { withoutRunOut } from '../vehicle/runOut.ts';
import { toeFromRimUncertaintyRad } from '../vehicle/toe.ts';
import { planDefaults } from './defaults.ts';
import { type Nominal, pointAt } from './nominal.ts';

const SIDES = ['L', 'R'] as const;

/** u of one wheel's heading from n sets of four gaps, rad. */
export function rimHeadingU(count: number, spanMm: number): ReadingU {
  const gap = meanOfRepeats([planDefaults.rimGapFixedMm], planDefaults.rimGapRepeatMm, count);
  const onceRad = toeFromRimUncertaintyRad(gap.u, spanMm);
  const { uRad } = withoutRunOut({ firstRad: 0, secondRad: 0 }, onceRad);
  return { u: uRad, dof: gap.dof };
}

/** The network with both rim headings as known angles against the marks' lines. */
export function withRimHeadings(
  network: Network,
  values: SlotValues,
  layout: Nominal,
  spanMm: number,
): Network {
  const shared = SIDES.flatMap((side): readonly Shared[] => {
    const value = values.get(`rim.R${side}`);
    if (value === undefined) return [];
    const { u, dof } = rimHeadingU(value.count, spanMm);
    const front = pointAt(layout.points, `mark.F${side}`);
    const rear = pointAt(layout.points, `mark.R${side}`);
    // The wheel looks straight ahead, whatever way the line of two tracks of different width runs.
    const valueRad = -Math.atan2(front[1] - rear[1], front[0] - rear[0]);
    return [{ id: `rim.R${side}`, quantity: 'angle', is: { state: 'known', valueRad, uRad: u, dof } }];
  });
  return { ...network, shared: [...network.shared, ...shared] };
}

/** The same estimates with the toes that the rim headings amount to, so that placement's thrust line takes them. */
export function toesFromRims(estimates: Estimates, frame: VehicleFrame): Estimates {
  const centre = Math.atan2(entry(frame.axes, 0, 1), entry(frame.axes, 0, 0));
  const heading = (side: 'L' | 'R'): number => {
    const [fx, fy] = bayPoint(estimates, markId(`F${side}`));
    const [rx, ry] = bayPoint(estimates, markId(`R${side}`));
    return Math.atan2(fy - ry, fx - rx) + estimates.shared(`rim.R${side}`) - centre;
  };
  return {
    point: (id) => estimates.point(id),
    body: (id) => estimates.body(id),
    shared: (id) => {
      if (id === 'toe.RL') return -heading('L');
      return id === 'toe.RR' ? heading('R') : estimates.shared(id);
    },
  };
}
