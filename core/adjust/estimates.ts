/** The estimates of a layout at any vector of unknowns, telling which unknowns were read. */
import { type PointInBay, type PoseInBay, pointInBay, poseInBay } from '../frames.ts';
import { rotate, rotationMatrix, type YawPitchRoll, yawPitchRoll } from '../geometry/rotation.ts';
import { rotationOfTurn } from '../geometry/turn.ts';
import { at, indexAt } from '../linalg/at.ts';
import { type Matrix, multiply } from '../linalg/matrix.ts';
import { invariant } from '../result.ts';
import type { Layout } from './layout.ts';
import type { Estimates } from './solution.ts';
import type { State } from './state.ts';

/** Rotations of the steep bodies of a solution, by the first slot of their pose; their unknowns are turns from these. */
export function attitudesOf({ layout, steep, rotation }: State): ReadonlyMap<number, Matrix> {
  const found = new Map<number, Matrix>();
  layout.bodies.forEach(({ slot }, b) => {
    if (steep[b] === 1) found.set(slot, { rows: 3, columns: 3, data: rotation.slice(9 * b, 9 * b + 9) });
  });
  return found;
}

/** Reads points, poses and shared unknowns from `x`; fixed numbers come from the layout. */
export function estimatesOf(
  layout: Layout,
  x: Float64Array,
  attitudes: ReadonlyMap<number, Matrix>,
  onRead?: (unknown: number) => void,
): Estimates {
  const value = (slot: number): number => {
    const column = indexAt(layout.columns, slot);
    if (column < 0) return layout.slots[slot]?.prior.value ?? 0;
    onRead?.(column);
    return at(x, column);
  };
  const angles = (slot: number): YawPitchRoll => {
    const [yawRad, pitchRad, rollRad] = [value(slot + 3), value(slot + 4), value(slot + 5)];
    const attitude = attitudes.get(slot);
    if (attitude === undefined) return { yawRad, pitchRad, rollRad };
    // Turns about z, y, x.
    return yawPitchRoll(multiply(rotationOfTurn([rollRad, pitchRad, yawRad]), attitude));
  };
  const pose = (slot: number): PoseInBay =>
    poseInBay({ xMm: value(slot), yMm: value(slot + 1), zMm: value(slot + 2), ...angles(slot) });
  return {
    point(id): PointInBay {
      const place = layout.places[layout.placeById.get(id) ?? -1];
      invariant(place !== undefined, `no point ${id} in the network`);
      const own = [value(place.slot), value(place.slot + 1), value(place.slot + 2)] as const;
      const body = layout.bodies[place.body];
      if (body === undefined) return pointInBay(...own);
      const of = pose(body.slot);
      const arm = rotate(rotationMatrix(of), own);
      return pointInBay(of.xMm + arm[0], of.yMm + arm[1], of.zMm + arm[2]);
    },
    body(id) {
      const body = layout.bodies[layout.bodyById.get(id) ?? -1];
      invariant(body !== undefined, `no body ${id} in the network`);
      return pose(body.slot);
    },
    shared(id) {
      const slot = layout.sharedById.get(id);
      invariant(slot !== undefined, `no shared unknown ${id} in the network`);
      return value(slot);
    },
  };
}
