/**
 * First pitch and roll of bodies that were seen from other bodies. Which way is up along a body's own axes needs no
 * heading, so it is carried from body to body before anything is laid out in plan.
 */
import { rotate, rotateBack } from '../../geometry/rotation.ts';
import type { Vec3 } from '../../geometry/vector.ts';
import { at } from '../../linalg/at.ts';
import type { Layout } from '../layout.ts';
import type { StartFacts } from './facts.ts';

/** The vertical along the axes of a body whose pose slots start at `slot`: the last row of its rotation. */
export function upOf(values: Float64Array, slot: number): Vec3 {
  const [pitch, roll] = [at(values, slot + 4), at(values, slot + 5)];
  return [-Math.sin(pitch), Math.cos(pitch) * Math.sin(roll), Math.cos(pitch) * Math.cos(roll)];
}

/** Carries pitch and roll along the poses; a chain without any known end begins with its first body standing level. */
export function startTilts(layout: Layout, facts: StartFacts, values: Float64Array, known: Uint8Array): void {
  const slotOf = (body: number): number => layout.bodies[body]?.slot ?? 0;
  const isKnown = (body: number): boolean => known[slotOf(body) + 4] === 1 && known[slotOf(body) + 5] === 1;
  const accept = (body: number): void => {
    known[slotOf(body) + 4] = 1;
    known[slotOf(body) + 5] = 1;
  };
  const take = (body: number, [x, y, z]: Vec3): void => {
    const slot = slotOf(body);
    if (known[slot + 4] !== 1) values[slot + 4] = Math.atan2(-x, Math.hypot(y, z));
    if (known[slot + 5] !== 1) values[slot + 5] = Math.atan2(y, z);
    accept(body);
  };
  for (;;) {
    const open = facts.poses.find(({ body, reference }) => isKnown(body) !== isKnown(reference));
    if (open !== undefined) {
      const { body, reference, rotation } = open;
      if (isKnown(reference)) take(body, rotateBack(rotation, upOf(values, slotOf(reference))));
      else take(reference, rotate(rotation, upOf(values, slotOf(body))));
      continue;
    }
    const floating = facts.poses.find(({ reference }) => !isKnown(reference));
    if (floating === undefined) return;
    accept(floating.reference);
  }
}
