/**
 * How likely a proof set taken now would prove the target where it is believed to stand, and how far each coordinate may be
 * off before that likelihood suffers. What a proof set will find differs from what the looks say by the errors of both,
 * which are independent once the car is held still. Coordinates are counted as independent of each other.
 */
import { COORDINATES, type Coordinate } from '../../frames.ts';
import { probabilityWithin } from '../../uncertainty/decision.ts';
import type { PoseCovariance } from '../found.ts';
import { deviations } from '../model.ts';
import { quickDefaults } from './defaults.ts';
import type { QuickGround, Room } from './ground.ts';
import type { QuickCoordinate, QuickKnowledge } from './types.ts';

const indexOf = (coordinate: Coordinate): number => COORDINATES.indexOf(coordinate);

const uOf = (covariance: PoseCovariance, coordinate: Coordinate): number => {
  const i = indexOf(coordinate);
  return Math.sqrt(Math.max(0, covariance[i]?.[i] ?? 0));
};

/** Half the width of a room, or the distance of its one limit. */
const widthOf = ({ lower, upper }: Room): number =>
  Number.isFinite(lower) && Number.isFinite(upper)
    ? (upper - lower) / 2
    : Math.min(Math.abs(lower), Math.abs(upper));

/** Every judged coordinate with its deviation, the looks' u and the odds. */
export function coordinatesOf(ground: QuickGround, known: QuickKnowledge): readonly QuickCoordinate[] {
  const off = deviations(ground.car, ground.frame, known.pose, ground.station);
  return ground.rooms.map((room) => {
    const { coordinate } = room;
    const deviation = off[indexOf(coordinate)] ?? Number.NaN;
    const u = uOf(known.covariance, coordinate);
    const spread = Math.hypot(u, uOf(ground.proofCovariance, coordinate));
    return {
      coordinate,
      deviation,
      u,
      room: widthOf(room),
      odds: probabilityWithin(deviation, spread, room),
    };
  });
}

/** All of them together. */
export const oddsOf = (coordinates: readonly QuickCoordinate[]): number =>
  coordinates.reduce((product, { odds }) => product * odds, 1);

const HALVINGS = 40;

/** The deviation up to which a proof set would still prove with nearly the odds that no deviation has; mm or radians. */
export function standing(ground: QuickGround, known: QuickKnowledge, coordinate: Coordinate): number {
  const room = ground.rooms.find((each) => each.coordinate === coordinate);
  if (room === undefined) return Number.POSITIVE_INFINITY;
  const spread = Math.hypot(uOf(known.covariance, coordinate), uOf(ground.proofCovariance, coordinate));
  const least = (deviation: number): number =>
    Math.min(probabilityWithin(deviation, spread, room), probabilityWithin(-deviation, spread, room));
  const wanted = quickDefaults.standShare * least(0);
  let [low, high] = [0, widthOf(room)];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (least(middle) >= wanted) low = middle;
    else high = middle;
  }
  return low;
}
