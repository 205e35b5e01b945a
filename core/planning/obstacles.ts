/**
 * What stands in the way of tapes, strings and plumb lines: convex outlines in plan (vehicle frame: ahead, left), each from
 * one height over the floor to another. A tyre is round: it is cut into slices of height, each as long as its longest chord.
 */
import { rotate, rotationMatrix } from '../geometry/rotation.ts';
import { add, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { WHEELS, type Wheel } from '../placement/placementReading.ts';
import { planDefaults } from './defaults.ts';
import { type Nominal, pointAt } from './nominal.ts';
import type { ObstacleName, PlanCar, PlanSetUp } from './types.ts';

/** One outline with its heights; several may carry one name. The outline runs counter-clockwise seen from above. */
export interface Obstacle {
  readonly name: ObstacleName;
  readonly outline: readonly Vec2[];
  readonly fromMm: number;
  readonly toMm: number;
}

/** About 20 mm each: a slice is as long as its longest chord, so that thicker ones would block more than a tyre does. */
const SLICES = 32;

/** A box in plan, counter-clockwise. */
export function box(rearMm: number, frontMm: number, rightMm: number, leftMm: number): readonly Vec2[] {
  return [
    [rearMm, rightMm],
    [frontMm, rightMm],
    [frontMm, leftMm],
    [rearMm, leftMm],
  ];
}

/**
 * A tyre as slices between floor and top: at height z its half length is root(R^2 - (z - h)^2) with the wheel centre at h.
 * Under load h is less than R, so that a slice at the floor is the contact patch.
 */
export function tyreSlices(
  name: ObstacleName,
  hub: Vec3,
  tyre: { readonly widthMm: number; readonly diameterMm: number },
): readonly Obstacle[] {
  const [ahead, left, hubMm] = hub;
  const radius = tyre.diameterMm / 2;
  const top = hubMm + radius;
  const half = (z: number): number => Math.sqrt(Math.max(0, radius * radius - (z - hubMm) * (z - hubMm)));
  return Array.from({ length: SLICES }, (_, i) => {
    const [fromMm, toMm] = [(top * i) / SLICES, (top * (i + 1)) / SLICES];
    const longest = fromMm <= hubMm && hubMm <= toMm ? radius : Math.max(half(fromMm), half(toMm));
    const width = tyre.widthMm / 2;
    return { name, outline: box(ahead - longest, ahead + longest, left - width, left + width), fromMm, toMm };
  });
}

/** The tyres' size: as told, or from the height of the wheel centre under load. */
export function tyreOf(car: PlanCar): { readonly widthMm: number; readonly diameterMm: number } {
  return (
    car.tyre ?? {
      widthMm: planDefaults.tyreWidthMm,
      diameterMm: car.hubHeightMm / planDefaults.loadedShare,
    }
  );
}

function bodyBox(car: PlanCar): Obstacle {
  const { overTrackMm, behindMm, undersideMm, topMm } = planDefaults.body;
  const body = car.body ?? {
    widthMm: Math.max(car.trackFrontMm, car.trackRearMm) + overTrackMm,
    behindMm,
    undersideMm,
    topMm,
  };
  const half = body.widthMm / 2;
  return {
    name: 'body',
    outline: box(-body.behindMm, car.bodyFaceAheadMm, -half, half),
    fromMm: body.undersideMm,
    toMm: body.topMm,
  };
}

/** The stand's base about the foot of the bar's centre mark, turned as the fixture is. */
function standBox({ standBase = planDefaults.standBase }: PlanSetUp, layout: Nominal): Obstacle {
  const foot = pointAt(layout.points, 'barCentre');
  const turned = rotationMatrix({ yawRad: layout.yawRad, pitchRad: 0, rollRad: 0 });
  const half = standBase.widthMm / 2;
  const outline = box(-standBase.awayMm, standBase.towardCarMm, -half, half).map(([x, y]): Vec2 => {
    const [ahead, left] = add(foot, rotate(turned, [x, y, 0]));
    return [ahead, left];
  });
  return { name: 'stand', outline, fromMm: 0, toMm: standBase.heightMm };
}

/** Everything that stands about when the fixture is at its place. */
export function obstaclesOf(setUp: PlanSetUp, layout: Nominal): readonly Obstacle[] {
  const tyre = tyreOf(setUp.car);
  const hub = (wheel: Wheel): Vec3 => pointAt(layout.points, `hub.${wheel}`);
  return [
    ...WHEELS.flatMap((wheel) => tyreSlices(`tyre.${wheel}`, hub(wheel), tyre)),
    bodyBox(setUp.car),
    standBox(setUp, layout),
  ];
}
