import { describe, expect, test } from 'vitest';
import type { TargetPlace } from '../../../core/frames.ts';
import type { StationFinding } from '../../../core/placement/finding.ts';
import { invariant } from '../../../core/result.ts';
import { moveInWords, wordFaults } from '../../../core/words/index.ts';
import { placementView } from '../../../renderer/state/placementView.ts';
import { arrowOf, distanceRows } from '../../../renderer/text/distanceWords.ts';
import { cameraOf, heldAfter, movedIndex } from '../demoHeld.ts';

const held = heldAfter(movedIndex);
const { answer } = placementView(held.job, cameraOf(held));
invariant(answer.ok, 'the demo job is solved');
const [first] = answer.value.stations;
invariant(first !== undefined, 'the demo job has a station');
const station: StationFinding = first;

/** The station with these deviations instead. */
function deviating(deviations: Readonly<Record<string, number>>): StationFinding {
  return {
    ...station,
    coordinates: station.coordinates.map((each) => ({
      ...each,
      deviation: deviations[each.coordinate] ?? each.deviation,
    })),
  };
}

const rowsOf = (deviations: Readonly<Record<string, number>>, place: TargetPlace = 'ahead') =>
  distanceRows(deviating(deviations), place, 'guarded');

describe('the three rows', () => {
  test('are ahead, side and squareness, in that order, each with the verdict of its card', () => {
    const rows = distanceRows(station, 'ahead', 'guarded');
    expect(rows.map((row) => row.key)).toEqual(['ahead', 'left', 'yaw']);
    for (const row of rows) {
      const finding = station.coordinates.find((each) => each.coordinate === row.key);
      expect(finding).toBeDefined();
      expect(row.verdictWords).not.toBe('');
      expect(wordFaults(`${row.title} ${row.words} ${row.verdictWords}`)).toEqual([]);
      expect(row.amount).toMatch(/^\d+(\.\d+)?$/);
    }
  });

  test('say which way to move, which is against the deviation', () => {
    const [ahead, side, turn] = rowsOf({ ahead: 12, left: 7.84, yaw: -0.0103 });
    expect(ahead).toMatchObject({ amount: '12.0', unit: 'mm', words: 'toward the car', arrow: 'toward' });
    // The car's left is at the right hand of a person who faces the car's front.
    expect(side).toMatchObject({ amount: '7.8', words: "to the car's right", arrow: 'handLeft' });
    expect(turn?.amount).toBe('0.59');
    expect(turn?.unit).toBe('°');
  });

  test('the turn’s words and arrow belong together at every place', () => {
    const [, , turn] = rowsOf({ yaw: 0.01 });
    const [, , other] = rowsOf({ yaw: -0.01 });
    expect(new Set([turn?.arrow, other?.arrow])).toEqual(new Set(['clockwise', 'counter']));
    for (const row of [turn, other]) {
      // From ahead the car's-left end is at the right hand: it comes nearer to the person when it leaves the car.
      expect(row?.arrow === 'clockwise').toBe(row?.words.includes("car's-left end away from the car"));
    }
  });

  test('what rounds to nothing stands where it must be, with no arrow to follow', () => {
    const [ahead, side, turn] = rowsOf({ ahead: 0.04, left: 0, yaw: 0.00002 });
    for (const row of [ahead, side, turn]) {
      expect(row).toMatchObject({ words: 'where it must be', arrow: 'stay' });
    }
    expect(ahead?.amount).toBe('0.0');
  });

  test('from 100 mm on the tenths are left out, so that the digits fit', () => {
    const [ahead, side] = rowsOf({ ahead: 99.9, left: -1234.5 });
    expect(ahead?.amount).toBe('99.9');
    expect(side?.amount).toMatch(/^123[45]$/);
  });

  test('a coordinate that the station does not ask for has no row', () => {
    const two = { ...station, coordinates: station.coordinates.filter((each) => each.coordinate !== 'yaw') };
    expect(distanceRows(two, 'ahead', 'guarded').map((row) => row.key)).toEqual(['ahead', 'left']);
  });
});

describe('arrows as the person at the fixture sees them, facing the car', () => {
  /** Where the car's left is, as an angle from straight on at the car, counter-clockwise; by hand from the plan. */
  const hands: readonly (readonly [TargetPlace, 'handLeft' | 'handRight'])[] = [
    // Ahead of the car one looks against its way: its left is at one's right hand. Behind it, at one's left.
    ['ahead', 'handRight'],
    ['behind', 'handLeft'],
  ];

  test.each(hands)('the car’s left, from %s, is at %s', (place, hand) => {
    expect(arrowOf('dir.toCarLeft', place)).toBe(hand);
    expect(arrowOf('dir.toCarRight', place)).not.toBe(hand);
  });

  test('the car’s front is at the left hand beside its left, at the right hand beside its right', () => {
    expect(arrowOf('dir.towardCarFront', 'carLeft')).toBe('handLeft');
    expect(arrowOf('dir.towardCarRear', 'carLeft')).toBe('handRight');
    expect(arrowOf('dir.towardCarFront', 'carRight')).toBe('handRight');
    expect(arrowOf('dir.towardCarRear', 'carRight')).toBe('handLeft');
  });

  test.each(['ahead', 'behind', 'carLeft', 'carRight'] as const)(
    'toward and away stay what they are from %s, and the two turns differ',
    (place) => {
      expect(arrowOf('dir.towardCar', place)).toBe('toward');
      expect(arrowOf('dir.awayFromCar', place)).toBe('away');
      expect(arrowOf('dir.turn.carLeftEndAway', place)).not.toBe(arrowOf('dir.turn.carLeftEndToward', place));
      expect(arrowOf('dir.turn.carFrontEndAway', place)).not.toBe(
        arrowOf('dir.turn.carFrontEndToward', place),
      );
    },
  );

  /** A turn to the left, seen from above, is counter-clockwise for everybody, wherever they stand. */
  test.each([
    ['ahead', Math.PI],
    ['behind', 0],
    ['carLeft', -Math.PI / 2],
    ['carRight', Math.PI / 2],
  ] as const)(
    'a move that turns the target to the left is counter-clockwise from %s',
    (place, facingYawRad) => {
      const move = moveInWords('yaw', -0.01, { place, facingYawRad });
      expect(arrowOf(move.key, place)).toBe('counter');
    },
  );
});
