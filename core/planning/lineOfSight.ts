/**
 * Which readings can be taken past tyres, body and stand. Tapes and offsets run over the floor, a hub's drop hangs beside
 * its tyre, and a point on an extended line needs that whole line free. Staff readings, heights and tilts have no line that
 * a car could block.
 */
import type { Vec3 } from '../geometry/vector.ts';
import { nearPoints } from '../placement/recipe.ts';
import { planDefaults } from './defaults.ts';
import { type LaidOut, layOutRecipe } from './network.ts';
import { distanceEnds, pointAt } from './nominal.ts';
import { obstaclesOf } from './obstacles.ts';
import { blockersOf, type SightLine } from './sightLine.ts';
import type { ObstacleName, PlanRecipe, PlanSetUp } from './types.ts';

/** A reading that cannot be taken here, and what is in its way. */
export interface Blocked {
  readonly key: string;
  readonly by: readonly ObstacleName[];
}

const { tapeTopMm, tapeHalfWidthMm, plumbHalfWidthMm, lineHalfWidthMm } = planDefaults;

const overFloor = (from: Vec3, to: Vec3): SightLine => ({
  from,
  to,
  halfWidthMm: tapeHalfWidthMm,
  aboveMm: tapeTopMm,
});

/** A line between any two named points of the layout: on the floor as a tape lies, in the air straight across. */
export function lineBetween({ layout }: LaidOut, a: string, b: string): SightLine {
  const [from, to] = [pointAt(layout.points, a), pointAt(layout.points, b)];
  const inAir = from[2] > 0 || to[2] > 0;
  return { ...overFloor(from, to), ...(inAir ? { aboveMm: 0 } : {}) };
}

/** What is in the way between two named points, such as `hub.FL` and `hub.FR`; empty when the line is free. */
export function blockersBetween(laid: LaidOut, a: string, b: string): readonly ObstacleName[] {
  return blockersOf(lineBetween(laid, a, b), obstaclesOf(laid.setUp, laid.layout));
}

/** The car-side line that an extended point is set out on: from the farther mark through the nearer one to the point. */
const SET_OUT = new Map([
  ['ahead.L', 'mark.RL'],
  ['ahead.R', 'mark.RR'],
  ['behind.L', 'mark.FL'],
  ['behind.R', 'mark.FR'],
]);

/** The lines that a reading needs free. */
function linesOf(laid: LaidOut, key: string): readonly SightLine[] {
  const at = (name: string): Vec3 => pointAt(laid.layout.points, name);
  if (key.startsWith('drop.')) {
    const wheel = key.slice('drop.'.length);
    const [ahead, left] = at(`mark.${wheel}`);
    const hub = at(`hub.${wheel}`);
    return [{ from: [ahead, left, hub[2]], to: [ahead, left, 0], halfWidthMm: plumbHalfWidthMm, aboveMm: 0 }];
  }
  if (key === 'face') {
    const face = at('bodyFace');
    return [overFloor(face, [at('ahead.L')[0], face[1], 0])];
  }
  const ends = distanceEnds(nearPoints(laid.setUp.stations)).find(([id]) => id === key);
  if (ends === undefined) return [];
  const tape = lineBetween(laid, ends[1], ends[2]);
  const farMark = SET_OUT.get(key);
  if (farMark === undefined) return [tape];
  return [tape, { ...overFloor(at(farMark), at(key)), halfWidthMm: lineHalfWidthMm }];
}

/** The readings of a laid-out recipe that something blocks, each with what does. */
export function blockedReadings(laid: LaidOut): readonly Blocked[] {
  const obstacles = obstaclesOf(laid.setUp, laid.layout);
  return laid.slots.flatMap(({ key }) => {
    const by = new Set(linesOf(laid, key).flatMap((line) => blockersOf(line, obstacles)));
    return by.size === 0 ? [] : [{ key, by: [...by] }];
  });
}

/** Extensions that are tried, mm: nobody sets out a line by the centimetre, and beyond 2 m it bends too much. */
const EXTENSIONS = { leastMm: 1000, stepMm: 50, mostMm: 2000 };

/**
 * The least extension of the car-side lines, ahead and behind alike, at which no tape of the recipe runs through a tyre or
 * anything else; undefined when none up to 2 m does.
 */
export function beyondThatPasses(setUp: PlanSetUp, recipe: PlanRecipe): number | undefined {
  for (let mm = EXTENSIONS.leastMm; mm <= EXTENSIONS.mostMm; mm += EXTENSIONS.stepMm) {
    const laid = layOutRecipe({ ...setUp, beyondAheadMm: mm, beyondBehindMm: mm }, recipe);
    if (laid.ok && blockedReadings(laid.value).length === 0) return mm;
  }
  return undefined;
}
