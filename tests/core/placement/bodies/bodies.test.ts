/** Each kind of body solved back to its true layout, on slopes, with what it cannot tell said plainly. */
import { describe, expect, test } from 'vitest';
import { solve } from '../../../../core/adjust/solve.ts';
import { placeFrom } from '../../../../core/placement/bodies/corner.ts';
import { BODIES, cornerPlace } from '../../../../core/placement/bodies/readings.ts';
import { placementNetwork } from '../../../../core/placement/network.ts';
import { readingName } from '../../../../core/placement/nextAction.ts';
import type { PlacementInput } from '../../../../core/placement/placementInput.ts';
import { slotValues } from '../../../../core/placement/readings.ts';
import { defaultRecipe, fixturePartOf, slotKey } from '../../../../core/placement/recipe.ts';
import type { StationRequirement } from '../../../../core/placement/requirement.ts';
import { heldReadings } from '../../../../core/placement/setups.ts';
import type { TrueLayout } from '../../../../core/rehearsal/trueBay.ts';
import { wordFaults } from '../../../../core/words/index.ts';
import { answerOf, coordinateOf, deviationsOf, stationOf } from '../answers.ts';
import { CENTRE, EQUIPMENT, SQUARE } from '../trueLayout.ts';
import { bodyInput } from './bodyLayout.ts';

const DEG = Math.PI / 180;
const SLOPE: TrueLayout = {
  ...SQUARE,
  carAt: [250, -120],
  carHeading: 15 * DEG,
  floorSlope: [0.005, -0.004],
  fixtureFloor: [4, -0.003, 0.006],
  toeLeft: 0.1 * DEG,
};
const free = (...coordinates: NonNullable<StationRequirement['free']>): StationRequirement => ({
  ...CENTRE,
  free: coordinates,
});
const off = { ahead: 5007, left: -6, up: 1344, yaw: 180.4 * DEG, pitch: -0.3 * DEG, roll: 0.2 * DEG };

/** Found minus true of the target's place, mm. */
function misplaced(input: PlacementInput, truth: { ahead: number; left: number; up: number }): number {
  const { target } = stationOf(answerOf(input));
  return Math.hypot(target.aheadMm - truth.ahead, target.leftMm - truth.left, target.upMm - truth.up);
}

describe('a single stand', () => {
  const station = free('yaw');
  // A reflector's turn is not told by anything read: it stands as required.
  const truth = { ...off, yaw: 180 * DEG };
  const layout = { ...SLOPE, target: truth };

  test('is solved back to where it stands from two tapes, a height and two tilts', () => {
    const input = bodyInput('singleStand', layout, [station], { leaveOut: ['stand.fromLine'] });
    expect(answerOf(input).missing).toEqual([]);
    expect(misplaced(input, truth)).toBeLessThan(1e-6);
  });
  test('with the third reading too, which is what tells a slip in a tape', () => {
    expect(misplaced(bodyInput('singleStand', layout, [station]), truth)).toBeLessThan(1e-6);
    const slipped = (leaveOut: readonly string[]) => {
      const input = bodyInput('singleStand', layout, [station], { leaveOut });
      const readings = input.readings.map((each) =>
        each.id === 'stand.fromL' ? { ...each, value: each.value + 15 } : each,
      );
      return answerOf({ ...input, readings }).globalTest?.passed;
    };
    expect(slipped([])).toBe(false);
    expect(slipped(['stand.fromLine'])).toBe(true);
  });
  test('its turn is neither judged nor moved', () => {
    const answer = answerOf(bodyInput('singleStand', layout, [station]));
    expect(coordinateOf(answer, 'yaw').verdict).toBe('notJudged');
    expect(answer.worst).not.toBe('notJudged');
    const far = { ...layout, target: { ...truth, ahead: 5040 } };
    const moves = answerOf(bodyInput('singleStand', far, [station])).moves.map((move) => move.kind);
    expect(moves).toContain('roll');
    expect(moves).not.toContain('turn');
  });
  test('a station that judges the turn is refused by name, and the car stays solved', () => {
    const answer = answerOf(bodyInput('singleStand', layout, [CENTRE]));
    expect(answer.stage).toBe('datum');
    expect(answer.problems).toEqual([{ code: 'placement/bodyLeavesOpen', coordinates: ['yaw'] }]);
  });
  test('tilts that are free need not be read', () => {
    const upright = { ...layout, target: { ...truth, pitch: 0, roll: 0 } };
    const input = bodyInput('singleStand', upright, [free('yaw', 'pitch', 'roll')], {
      leaveOut: ['fixture.pitch', 'fixture.roll'],
    });
    expect(answerOf(input).missing).toEqual([]);
    // Upright by gravity on a sloping car plane: the centre is plumbed itself, so no tilt can carry it away.
    expect(misplaced(input, upright.target)).toBeLessThan(1e-6);
  });
  test('behind the car it is measured from the points behind', () => {
    const behind = { ...station, place: 'behind', ahead: { value: -2600, from: 'rearAxle' } } as const;
    const facing = { ...behind, yaw: { ...CENTRE.yaw, value: 0 } } as const;
    const there = { ...truth, ahead: -2604, yaw: 0 };
    const input = bodyInput('singleStand', { ...SLOPE, target: there }, [facing], { near: 'behind' });
    expect(misplaced(input, there)).toBeLessThan(1e-6);
  });
  test('tapes that do not meet are named', () => {
    const input = bodyInput('singleStand', layout, [station]);
    const readings = input.readings.map((each) =>
      each.id === 'stand.fromL' ? { ...each, value: 300 } : each,
    );
    expect(answerOf({ ...input, readings }).problems).toEqual([
      { code: 'placement/impossible', readingIds: ['stand.fromL', 'stand.fromR'] },
    ]);
  });
});

describe('a plate proven by reversal', () => {
  const layout = { ...SLOPE, target: off };
  test('is solved back to where it stands, whatever the zero of the inclinometer', () => {
    for (const zero of [0, 0.4 * DEG, -1.1 * DEG]) {
      const input = bodyInput('plate', layout, [CENTRE], { zero });
      expect(answerOf(input).missing).toEqual([]);
      expect(misplaced(input, off)).toBeLessThan(1e-6);
      const { yawRad, pitchRad, rollRad } = stationOf(answerOf(input)).target;
      expect(Math.cos(yawRad - off.yaw)).toBeCloseTo(1, 12);
      expect(pitchRad).toBeCloseTo(off.pitch, 9);
      expect(rollRad).toBeCloseTo(off.roll, 9);
    }
  });
  test('the zero comes out as half the difference of the two', () => {
    const input = bodyInput('plate', layout, [CENTRE], { zero: 0.4 * DEG });
    const values = slotValues(
      heldReadings(defaultRecipe({ stations: [CENTRE], body: 'plate' }), input),
      input,
    );
    const built = placementNetwork(input, values);
    const solution = built.ok ? solve(built.value.network) : undefined;
    if (solution?.ok !== true) throw new Error('not solved');
    expect(solution.value.estimates.shared('plate.zero') / DEG).toBeCloseTo(0.4, 6);
  });
  test('two readings are as good as one after reversal: the same u of the lean', () => {
    const u = coordinateOf(answerOf(bodyInput('plate', layout, [CENTRE])), 'pitch').u;
    const plain = coordinateOf(answerOf({ ...bodyInput('bar', layout, [CENTRE]), body: 'bar' }), 'pitch').u;
    expect(u).toBeCloseTo(plain, 9);
  });
  test('one of the two is not enough, and a lean without its way is asked for', () => {
    const one = answerOf(bodyInput('plate', layout, [CENTRE], { leaveOut: ['plate.tiltTurned'] }));
    expect(one.stage).toBe('datum');
    expect(one.missing.map(slotKey)).toEqual(['plate.tiltTurned']);
    const input = bodyInput('plate', layout, [CENTRE]);
    const readings = input.readings.map(({ direction, ...each }) =>
      each.id === 'plate.tilt' || direction === undefined ? each : { ...each, direction },
    );
    expect(answerOf({ ...input, readings }).problems).toEqual([
      { code: 'placement/directionMissing', readingIds: ['plate.tilt'] },
    ]);
  });
  test('a set value is a required lean like any other: 2 degrees up are proven at 2 degrees', () => {
    const tilted = { ...CENTRE, pitch: { ...CENTRE.pitch, value: -2 * DEG } };
    const target = { ...off, ahead: 5000, left: 0, up: 1350, yaw: 180 * DEG, pitch: -2 * DEG, roll: 0 };
    const answer = answerOf(bodyInput('plate', { ...SQUARE, target }, [tilted], { zero: 0.3 * DEG }));
    expect(deviationsOf(answer).pitch).toBeCloseTo(0, 9);
    expect(coordinateOf(answer, 'pitch').verdict).toBe('proven');
  });
});

describe('a corner board', () => {
  const corner = (left: number, ahead: number, yawDeg: number): StationRequirement => ({
    ...CENTRE,
    place: left > 0 ? 'carLeft' : 'carRight',
    ahead: { ...CENTRE.ahead, value: ahead },
    left: { ...CENTRE.left, value: left },
    up: { ...CENTRE.up, value: 650 },
    yaw: { ...CENTRE.yaw, value: yawDeg * DEG },
  });
  const board = { ...EQUIPMENT, fixture: { ...EQUIPMENT.fixture, barLength: { mm: 900, uMm: 0.3 } } };
  const CASES = [
    ['rear, car left', corner(2100, -1300, -35), 'behind'],
    ['rear, car right', corner(-2100, -1300, 35), 'behind'],
    ['front, car left', corner(2000, 4300, 215), 'ahead'],
    ['front, car right', corner(-2000, 4300, 145), 'ahead'],
    ['rear, car left, far round', corner(2300, -700, -70), 'behind'],
  ] as const;

  test.each(CASES)('%s: solved back to where it stands and how it is turned', (_name, station, near) => {
    const target = {
      ahead: station.ahead.value + 12,
      left: station.left.value - 9,
      up: 655,
      yaw: station.yaw.value + 0.7 * DEG,
      pitch: 0.2 * DEG,
      roll: -0.1 * DEG,
    };
    const input = bodyInput('corner', { ...SLOPE, target }, [station], { near, equipment: board });
    expect(answerOf(input).missing).toEqual([]);
    expect(misplaced(input, target)).toBeLessThan(1e-6);
    const { yawRad } = stationOf(answerOf(input)).target;
    expect(Math.cos(yawRad - target.yaw)).toBeCloseTo(1, 12);
    const three = bodyInput('corner', { ...SLOPE, target }, [station], {
      near,
      equipment: board,
      leaveOut: ['corner.pointOut'],
    });
    expect(misplaced(three, target)).toBeLessThan(1e-6);
    const names = input.readings.map((each) => each.id).filter((id) => id.startsWith('corner.'));
    expect(names).toHaveLength(4);
  });
  test('its moves bring it home too, with words of the car', () => {
    const station = corner(2100, -1300, -35);
    const target = { ahead: -1270, left: 2120, up: 650, yaw: -33 * DEG, pitch: 0, roll: 0 };
    const { moves } = answerOf(
      bodyInput('corner', { ...SQUARE, target }, [station], { near: 'behind', equipment: board }),
    );
    const sum = (of: 'ahead' | 'left' | 'yaw') =>
      moves.reduce((all, move) => all + move.predictedEffect[of], 0);
    expect(sum('ahead')).toBeCloseTo(-30, 0);
    expect(sum('left')).toBeCloseTo(-20, 0);
    expect(sum('yaw') / DEG).toBeCloseTo(-2, 1);
  });
  test('a face straight across the car has no car sides and is refused', () => {
    const station = corner(2100, -300, -88);
    const target = { ahead: -300, left: 2100, up: 650, yaw: -88 * DEG, pitch: 0, roll: 0 };
    const answer = answerOf(
      bodyInput('corner', { ...SQUARE, target }, [station], { near: 'behind', equipment: board }),
    );
    expect(answer.problems).toEqual([{ code: 'placement/faceAcrossCar' }]);
  });
  test('stands at the corner its side and end say', () => {
    expect(cornerPlace(corner(2100, -1300, -35), 'behind')).toEqual({
      side: 'carLeft',
      wheel: 'RL',
      point: 'behind.L',
    });
    expect(cornerPlace(corner(-1, 4300, 145), 'ahead')).toEqual({
      side: 'carRight',
      wheel: 'FR',
      point: 'ahead.R',
    });
  });
  test('angle and distance from hub or sensor, hand-worked', () => {
    const place = placeFrom({ aheadMm: 0, leftMm: 800 }, 2000, 135 * DEG);
    expect(place.aheadMm).toBeCloseTo(-1414.2136, 4);
    expect(place.leftMm).toBeCloseTo(2214.2136, 4);
    expect(placeFrom({ aheadMm: -500, leftMm: -700 }, 1000, -90 * DEG).leftMm).toBeCloseTo(-1700, 9);
  });
});

describe('the recipes of all bodies', () => {
  test.each(Object.keys(BODIES) as (keyof typeof BODIES)[])('%s: words, parts, unique slots', (body) => {
    for (const station of [CENTRE, { ...CENTRE, place: 'behind' } as const]) {
      const recipe = defaultRecipe({ stations: [station], body });
      const keys = recipe.map(slotKey);
      expect(new Set(keys).size).toBe(keys.length);
      for (const spec of recipe) {
        const name = readingName(recipe, slotKey(spec));
        expect(name, spec.id).not.toBe(slotKey(spec));
        expect(name.split(/\s+/).length, name).toBeLessThanOrEqual(8);
        expect(wordFaults(name)).toEqual([]);
        expect(spec.part, spec.id).toBe(fixturePartOf(spec.id));
      }
    }
  });
  test('a bar is what is meant when nothing is said', () => {
    expect(defaultRecipe({ stations: [CENTRE] })).toEqual(defaultRecipe({ stations: [CENTRE], body: 'bar' }));
  });
});
