/**
 * The bay of a rehearsal: an invented car on a slightly sloping floor and a fixture that stands somewhere before it, drawn
 * from a seed, so that the same rehearsal can be looked at again. Nobody but the person's hands knows where it stands.
 */

import type { AheadDatum, RequiredCoordinate, StationRequirement } from '../placement/requirement.ts';
import { randomFrom } from '../uncertainty/random.ts';
import { standardNormal } from '../uncertainty/sampler.ts';
import { radFromDeg } from '../units.ts';
import type { Pose6, TrueLayout } from './trueBay.ts';

/** What of a rehearsal must be kept while it goes on: the seed and where the fixture has got to. */
export interface RehearsalState {
  /** Whole, 32 bits. */
  readonly seed: number;
  /** The target's pose in the car's frame, mm and radians. */
  readonly pose: Pose6;
}

/** A stream of numbers of its own for each purpose of a rehearsal. */
export function streamOf(
  seed: number,
  purpose: string,
): { normal(): number; between(a: number, b: number): number } {
  // FNV-1a over the purpose, started from the seed.
  let hash = (0x811c9dc5 ^ seed) >>> 0;
  for (const character of purpose) hash = Math.imul(hash ^ (character.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  const random = randomFrom(hash);
  const normal = standardNormal(random);
  return { normal, between: (low, high) => low + (high - low) * random.uniform() };
}

/** How far from its place the fixture stands at the start: rolled up by eye (common practice, no source). */
const START = { aheadMm: 150, leftMm: 90, upMm: 40, yawDeg: 2.5, tiltDeg: 0.6 } as const;

/** The invented car: all that is true of the bay but the fixture. */
export function rehearsalLayout({ seed, pose }: RehearsalState): TrueLayout {
  const { between } = streamOf(seed, 'car');
  const wheelbase = 2_712 + between(-3, 3);
  return {
    carAt: [between(-200, 200), between(-200, 200)],
    carHeading: between(-0.02, 0.02),
    floorSlope: [between(-0.004, 0.004), between(-0.004, 0.004)],
    hubs: {
      FL: [wheelbase + between(-3, 3), 745 + between(-2, 2), 315 + between(-2, 2)],
      FR: [wheelbase + between(-3, 3), -745 + between(-2, 2), 315 + between(-2, 2)],
      RL: [0, 742 + between(-2, 2), 315 + between(-2, 2)],
      RR: [0, -742 + between(-2, 2), 315 + between(-2, 2)],
    },
    armLeft: 280,
    armRight: 280,
    beyondAhead: 1_000 + between(-2, 2),
    beyondBehind: 1_000 + between(-2, 2),
    face: [wheelbase + 884, 0, 510],
    toeLeft: radFromDeg(between(0.03, 0.12)),
    toeRight: radFromDeg(between(0.03, 0.12)),
    target: pose,
  };
}

function aheadOf({ value, from }: RequiredCoordinate<AheadDatum>, layout: TrueLayout): number {
  const datum = { rearAxle: 0, frontAxle: layout.hubs.FL[0], bodyFace: layout.face[0] }[from];
  return datum + value;
}

/** Where the station wants the target, in the car's frame. */
export function requiredPose(station: StationRequirement, seed: number): Pose6 {
  const nowhere: Pose6 = { ahead: 0, left: 0, up: 0, yaw: 0, pitch: 0, roll: 0 };
  const layout = rehearsalLayout({ seed, pose: nowhere });
  return {
    ahead: aheadOf(station.ahead, layout),
    left: station.left.value,
    up: station.up.value,
    yaw: station.yaw.value,
    pitch: station.pitch.value,
    roll: station.roll.value,
  };
}

/** A fixture just rolled up. */
export function startState(station: StationRequirement, seed: number): RehearsalState {
  const goal = requiredPose(station, seed);
  const { between } = streamOf(seed, 'start');
  // Never near its place by chance: a rehearsal without a move would teach nothing.
  const off = (most: number): number => between(0.4, 1) * most * (between(-1, 1) < 0 ? -1 : 1);
  return {
    seed,
    pose: {
      ahead: goal.ahead + off(START.aheadMm),
      left: goal.left + off(START.leftMm),
      up: goal.up + off(START.upMm),
      yaw: goal.yaw + radFromDeg(off(START.yawDeg)),
      pitch: goal.pitch + radFromDeg(off(START.tiltDeg)),
      roll: goal.roll + radFromDeg(off(START.tiltDeg)),
    },
  };
}

/** How far ahead of the rear axle the car's front-most body point is, mm. */
export function bumperAhead(state: RehearsalState): number {
  return rehearsalLayout(state).face[0];
}
