import { describe, expect, test } from 'vitest';
import type { Coordinate, TargetPlace } from '../../../core/frames.ts';
import { targetPlace } from '../../../core/frames.ts';
import { deviationInWords, moveInWords, sideKey } from '../../../core/words/direction.ts';

/**
 * Hand-worked sign cases. Axes of ISO 8855:2011: X ahead, Y to the car's left, Z up; yaw positive turning to
 * the left seen from above, pitch positive nose down, roll positive left side up. Each row is one sentence
 * that was worked out on paper with the car drawn from above.
 */
const facing = { ahead: Math.PI, behind: 0, carLeft: -Math.PI / 2, carRight: Math.PI / 2 } as const;

const rows: readonly (readonly [TargetPlace, Coordinate, 1 | -1, string, string])[] = [
  ['ahead', 'ahead', 1, 'dir.awayFromCar', 'X grows away from a car whose nose looks at the target'],
  ['ahead', 'ahead', -1, 'dir.towardCar', 'less X is nearer to the nose'],
  ['ahead', 'left', 1, 'dir.toCarLeft', "Y grows to the car's left whoever looks"],
  ['ahead', 'left', -1, 'dir.toCarRight', "less Y is the car's right"],
  ['ahead', 'up', 1, 'dir.higher', 'Z grows upward'],
  ['ahead', 'up', -1, 'dir.lower', 'less Z is lower'],
  ['ahead', 'yaw', 1, 'dir.turn.carLeftEndToward', 'the end at +Y turns toward X minus, where the car is'],
  ['ahead', 'yaw', -1, 'dir.turn.carLeftEndAway', 'the end at +Y turns toward X plus, away from the car'],
  ['ahead', 'pitch', 1, 'dir.lean.topAway', 'nose down takes the top toward X plus, away from the car'],
  ['ahead', 'pitch', -1, 'dir.lean.topToward', 'nose up takes the top toward X minus, to the car'],
  ['ahead', 'roll', 1, 'dir.tilt.carLeftEndHigher', 'left side up lifts the end at +Y'],
  ['ahead', 'roll', -1, 'dir.tilt.carLeftEndLower', 'left side down lowers the end at +Y'],
  ['behind', 'ahead', 1, 'dir.towardCar', 'behind the car, more X is nearer to the tail'],
  ['behind', 'ahead', -1, 'dir.awayFromCar', 'behind the car, less X is farther from the tail'],
  ['behind', 'left', 1, 'dir.toCarLeft', "the car's left does not change with the target's place"],
  ['behind', 'yaw', 1, 'dir.turn.carLeftEndAway', 'the end at +Y turns toward X minus, away from the tail'],
  ['behind', 'yaw', -1, 'dir.turn.carLeftEndToward', 'the end at +Y turns toward X plus, to the tail'],
  ['behind', 'pitch', 1, 'dir.lean.topToward', 'the top goes toward X plus, to the tail'],
  ['behind', 'pitch', -1, 'dir.lean.topAway', 'the top goes toward X minus, away from the tail'],
  ['behind', 'roll', 1, 'dir.tilt.carLeftEndHigher', 'left side up lifts the end at +Y here too'],
  ['carLeft', 'left', 1, 'dir.awayFromCar', "a target at the car's left moves off with more Y"],
  ['carLeft', 'left', -1, 'dir.towardCar', "a target at the car's left comes nearer with less Y"],
  ['carRight', 'left', 1, 'dir.towardCar', "a target at the car's right comes nearer with more Y"],
  ['carRight', 'left', -1, 'dir.awayFromCar', "a target at the car's right moves off with less Y"],
  ['carLeft', 'ahead', 1, 'dir.towardCarFront', 'beside the car, more X is toward its nose'],
  ['carRight', 'ahead', -1, 'dir.towardCarRear', 'beside the car, less X is toward its tail'],
  [
    'carLeft',
    'yaw',
    1,
    'dir.turn.carFrontEndAway',
    'the end at +X turns toward Y plus, away from a car at its right',
  ],
  [
    'carRight',
    'yaw',
    1,
    'dir.turn.carFrontEndToward',
    'the end at +X turns toward Y plus, to a car at its left',
  ],
  ['carLeft', 'roll', 1, 'dir.lean.topToward', 'left side up takes the top toward Y minus, where the car is'],
  ['carRight', 'roll', 1, 'dir.lean.topAway', 'left side up takes the top toward Y minus, away from the car'],
  [
    'carLeft',
    'pitch',
    1,
    'dir.tilt.carFrontEndLower',
    'nose down lowers the end at +X of a face across the car',
  ],
  [
    'carRight',
    'pitch',
    -1,
    'dir.tilt.carFrontEndHigher',
    'nose up lifts the end at +X of a face across the car',
  ],
];

describe('a signed deviation becomes words', () => {
  test.each(rows)('%s, %s, sign %d: %s (%s)', (place, coordinate, sign, key) => {
    const words = deviationInWords(coordinate, sign * 0.25, { place, facingYawRad: facing[place] });
    expect(words.key).toBe(key);
    expect('amountMm' in words ? words.amountMm : words.amountRad).toBe(0.25);
  });

  test('a move is the opposite of the deviation', () => {
    const view = { place: 'ahead', facingYawRad: Math.PI } as const;
    expect(deviationInWords('ahead', -4, view)).toEqual({ key: 'dir.towardCar', amountMm: 4 });
    expect(moveInWords('ahead', -4, view)).toEqual({ key: 'dir.awayFromCar', amountMm: 4 });
    expect(moveInWords('yaw', 0.01, view)).toEqual({ key: 'dir.turn.carLeftEndAway', amountRad: 0.01 });
  });

  test('zero of either sign is where it must be', () => {
    const view = { place: 'behind', facingYawRad: 0 } as const;
    expect(deviationInWords('left', 0, view)).toEqual({ key: 'dir.none', amountMm: 0 });
    expect(deviationInWords('pitch', -0, view)).toEqual({ key: 'dir.none', amountRad: 0 });
    expect(moveInWords('up', 0, view).key).toBe('dir.none');
  });
});

/** Position of a bar's end or a mast's top after a small turn about one axis, by the right-hand rule. */
function turned(coordinate: 'yaw' | 'pitch' | 'roll', angle: number, p: readonly [number, number, number]) {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  if (coordinate === 'yaw') return [c * p[0] - s * p[1], s * p[0] + c * p[1], p[2]] as const;
  if (coordinate === 'pitch') return [c * p[0] + s * p[2], p[1], -s * p[0] + c * p[2]] as const;
  return [p[0], c * p[1] - s * p[2], s * p[1] + c * p[2]] as const;
}

describe('the words agree with a rotation worked out by coordinates, for faces at every heading', () => {
  const headings = Array.from({ length: 24 }, (_, i) => ((i * 15 + 7) * Math.PI) / 180);
  test.each(headings)('face heading %f rad', (heading) => {
    const normal = [Math.cos(heading), Math.sin(heading)] as const;
    const along = Math.abs(normal[0]) >= Math.abs(normal[1]);
    const end = along ? ([0, 1, 0] as const) : ([1, 0, 0] as const);
    const towardCar = (from: readonly number[], to: readonly number[]): number =>
      (to[0] ?? 0) * normal[0] +
      (to[1] ?? 0) * normal[1] -
      (from[0] ?? 0) * normal[0] -
      (from[1] ?? 0) * normal[1];
    const view = { place: 'ahead', facingYawRad: heading } as const;
    for (const angle of [0.01, -0.01]) {
      const yaw = deviationInWords('yaw', angle, view).key;
      expect(yaw.endsWith('Toward')).toBe(towardCar(end, turned('yaw', angle, end)) > 0);
      for (const coordinate of ['pitch', 'roll'] as const) {
        const { key } = deviationInWords(coordinate, angle, view);
        const top = [0, 0, 1] as const;
        if (key.startsWith('dir.lean.')) {
          expect(key.endsWith('Toward')).toBe(towardCar(top, turned(coordinate, angle, top)) > 0);
        } else {
          expect(key.endsWith('Higher')).toBe(turned(coordinate, angle, end)[2] > 0);
        }
      }
    }
  });
});

describe('where a target stands', () => {
  test.each([
    [{ aheadMm: 2500, leftMm: -600 }, 'ahead'],
    [{ aheadMm: -3900, leftMm: 10 }, 'behind'],
    [{ aheadMm: 0, leftMm: 1500 }, 'carLeft'],
    [{ aheadMm: 890, leftMm: -1500 }, 'carRight'],
  ])('%o stands %s', (target, place) => {
    expect(targetPlace(target, 900, -3500)).toBe(place);
  });

  test('a car whose tail is ahead of its nose is a bug', () => {
    expect(() => targetPlace({ aheadMm: 0, leftMm: 0 }, -3500, 900)).toThrow(/front-most/);
  });
});

test.each([
  ['carLeft', 'carLeft', 'side.carLeft.steering'],
  ['carLeft', 'carRight', 'side.carLeft.passenger'],
  ['carRight', 'carLeft', 'side.carRight.passenger'],
  ['carRight', 'carRight', 'side.carRight.steering'],
] as const)('%s of a car steered at %s is %s', (side, steering, key) => {
  expect(sideKey(side, steering)).toBe(key);
});
