/**
 * A stand made of steel, for the tests: castors on a level floor, a pivot, feet or a head that tilt, a mast. Points are
 * carried by rigid motions one after the other (Rodrigues about an axis through a point), written without a line of the
 * solver's code.
 */

import type { PlacementFixture } from '../../../../core/placement/equipment.ts';
import type { FixtureKinematics } from '../../../../core/placement/kinematics/fixtureKinematics.ts';
import {
  about,
  dir,
  dotted,
  less,
  type P3,
  plus,
  by as scaledBy,
} from '../../../../core/rehearsal/trueBay.ts';

/** The parts of a stand, in the car's frame: the pivot's floor point and the numbers its parts are set to. */
export interface Steel {
  readonly centreOnFloor: P3;
  readonly heading: number;
  readonly lean: number;
  readonly level: number;
  readonly mast: number;
}

const UP: P3 = [0, 0, 1];

/** A rigid motion of points and directions. */
type Motion = (p: P3) => P3;

const spin = (axis: P3, through: P3, angle: number): Motion => {
  return (p) => plus(through, about(axis, angle, less(p, through)));
};

/** Where target and axes are. */
export interface Placed {
  readonly target: P3;
  readonly out: P3;
  readonly across: P3;
}

/** Builds the stand upright at heading zero, then tilts and turns it part by part. */
export function place(steel: Steel, fixture: PlacementFixture): Placed {
  const { outMm, acrossMm, upMm } = fixture.face;
  const k: FixtureKinematics = fixture.kinematics ?? {};
  const head = (k.lean ?? k.level)?.where === 'head';
  const upright: P3 = [outMm, acrossMm, steel.mast];
  const barCentre: P3 = [0, 0, steel.mast - upMm];
  const leanThrough: P3 = head ? barCentre : [k.lean?.axisMm ?? 0, 0, 0];
  const levelThrough: P3 = head ? barCentre : [k.lean?.axisMm ?? 0, k.level?.axisMm ?? 0, 0];
  // The inner tilt first: the level is carried by the lean, and both by the heading.
  const level = spin([1, 0, 0], levelThrough, steel.level);
  const lean = spin([0, 1, 0], leanThrough, steel.lean);
  const turn = spin(UP, [0, 0, 0], steel.heading);
  const all: Motion = (p) => plus(turn(lean(level(p))), steel.centreOnFloor);
  const [o, x, y] = [all([0, 0, 0]), all([1, 0, 0]), all([0, 1, 0])];
  return { target: all(upright), out: dir(less(x, o)), across: dir(less(y, o)) };
}

/** The stand turned by hand about a pivot of the base or of its adjuster, left positive. */
export function turnedAbout(steel: Steel, pivot: { outMm: number; acrossMm: number }, angle: number): Steel {
  const at = plus(steel.centreOnFloor, about(UP, steel.heading, [pivot.outMm, pivot.acrossMm, 0]));
  const centre = plus(at, about(UP, angle, less(steel.centreOnFloor, at)));
  return { ...steel, centreOnFloor: centre, heading: steel.heading + angle };
}

/** The stand pushed over the floor, as it looks now: along its face's normal and to that one's left. */
export function pushed(steel: Steel, out: number, across: number): Steel {
  const ahead = about(UP, steel.heading, [1, 0, 0]);
  const left = about(UP, steel.heading, [0, 1, 0]);
  const step = plus(scaledBy(ahead, out), scaledBy(left, across));
  return { ...steel, centreOnFloor: plus(steel.centreOnFloor, step) };
}

/** ISO 8855 angles of the placed face. */
export function anglesOf({ out, across }: Placed): { yaw: number; pitch: number; roll: number } {
  return { yaw: Math.atan2(out[1], out[0]), pitch: Math.asin(-out[2]), roll: rollOf(out, across) };
}

function rollOf(out: P3, across: P3): number {
  const level = dir([-out[1], out[0], 0]);
  const up = less(UP, scaledBy(out, dotted(UP, out)));
  return Math.atan2(dotted(across, dir(up)), dotted(across, level));
}
