import { describe, expect, test } from 'vitest';
import type { PlacementEquipment } from '../../../core/placement/equipment.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import { defaultRecipe, slotKey } from '../../../core/placement/recipe.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import { joinStands, type StandAnswer, stationsByStand } from '../../../core/placement/stands.ts';
import { answerOf, coordinateOf } from './answers.ts';
import { CENTRE, EQUIPMENT, inputOf, SLIDES, SQUARE } from './trueLayout.ts';

const at = (id: string, kind: StationRequirement['kind'] = 'reposition') => ({ ...CENTRE, id, kind });

describe('stations by stand', () => {
  test('a reposition begins a stand, slides follow it', () => {
    const stations = [at('a'), at('b', 'slide'), at('c'), at('d'), at('e', 'slide'), at('f', 'slide')];
    const ids = stationsByStand(stations).map((stand) => stand.map((each) => each.id).join(''));
    expect(ids).toEqual(['ab', 'c', 'def']);
    expect(stationsByStand([])).toEqual([]);
    expect(stationsByStand([at('b', 'slide')])).toHaveLength(1);
  });
});

const standOf = (id: string, answer: PlacementAnswer, isNow: boolean, name = id): StandAnswer => ({
  id,
  name,
  recipe: defaultRecipe({ stations: [at(id)] }),
  answer,
  isNow,
});
const proven = answerOf(inputOf(SQUARE, [at('a')]));
const off = answerOf(inputOf({ ...SQUARE, target: { ...SQUARE.target, ahead: 5030 } }, [at('b')]));
const open = answerOf(inputOf(SQUARE, [at('b')], { leaveOut: ['bar.sameL', 'bar.sameR'] }));

describe('answers of several stands as one', () => {
  test('one stand that the fixture is at is its own answer', () => {
    expect(joinStands([standOf('a', proven, true)])).toBe(proven);
  });
  test('tells moves and readings of the stand the fixture is at', () => {
    const joined = joinStands([standOf('a', proven, false), standOf('b', off, true)]);
    expect(joined.moves.map((move) => move.kind)).toEqual(['roll']);
    expect(joined.nextAction).toEqual(off.nextAction);
    expect(joined.worst).toBe('outside');
    expect(joined.stations.map((each) => each.station)).toEqual(['a', 'b']);
  });
  test('of a stand it is not at it asks for no move, and for the fixture to be put up there', () => {
    const joined = joinStands([standOf('a', proven, true), standOf('b', off, false, 'Low plate')]);
    expect(joined.moves).toEqual([]);
    expect(joined.nextAction).toEqual({
      wordKey: 'next.nextStand',
      values: { station: 'Low plate' },
      stand: 'b',
    });
    const long = joinStands([
      standOf('a', proven, true),
      standOf('b', off, false, 'a name of far too many words'),
    ]);
    expect(long.nextAction).toEqual({ wordKey: 'next.anotherStand', values: {}, stand: 'b' });
  });
  test('names what another stand lacks by that stand, and what the car lacks as it is', () => {
    const joined = joinStands([standOf('a', proven, true), standOf('b', open, false)]);
    expect(joined.missing.map(slotKey)).toEqual(['bar.sameL@b', 'bar.sameR@b']);
    expect(joined.nextReading).toBeUndefined();
  });
  test('is proven when all are', () => {
    const joined = joinStands([standOf('a', proven, false), standOf('b', proven, true)]);
    expect(joined.nextAction.wordKey).toBe('next.proven');
    const elsewhere = joinStands([standOf('a', proven, false), standOf('b', proven, false)]);
    expect(elsewhere.nextAction.wordKey).toBe('next.proven');
  });
  test('a global test that failed at one stand fails for all', () => {
    const { globalTest } = proven;
    if (globalTest === undefined) throw new Error('redundant');
    const failed = { ...proven, globalTest: { ...globalTest, passed: false } };
    expect(joinStands([standOf('a', proven, true), standOf('b', failed, false)]).globalTest?.passed).toBe(
      false,
    );
    expect(joinStands([standOf('a', proven, true), standOf('b', proven, false)]).globalTest).toEqual(
      globalTest,
    );
  });
});

describe('the sag of a target at the end of the bar', () => {
  const DEG = Math.PI / 180;
  const bends = (offCentre: {
    sinksMmPerM: number;
    tiltRadPerM: number;
    uTiltRad: number;
  }): PlacementEquipment => ({
    ...EQUIPMENT,
    fixture: { ...EQUIPMENT.fixture, kinematics: { offCentre } },
  });
  const known = { sinksMmPerM: 2, tiltRadPerM: 0.2 * DEG, uTiltRad: 0.02 * DEG };
  const stations = [CENTRE, ...SLIDES];

  test('before it is read: 550 mm out it sinks 1.1 mm, and the slid side goes low by 0.11 degrees', () => {
    const answer = answerOf(inputOf(SQUARE, stations, { equipment: bends(known) }));
    for (const [station, way] of [
      ['west', -1],
      ['east', 1],
    ] as const) {
      expect(coordinateOf(answer, 'up', station).deviation).toBeCloseTo(-1.1, 6);
      // ISO 8855: roll is positive with the car's left up.
      expect(coordinateOf(answer, 'roll', station).deviation / DEG).toBeCloseTo(way * 0.11, 6);
    }
    expect(coordinateOf(answer, 'up').deviation).toBeCloseTo(0, 6);
  });
  test('once the height is read there, the height counts and the tilt stays', () => {
    const slides = { west: { towardCarLeft: 550, sag: 3 } };
    const answer = answerOf(inputOf({ ...SQUARE, slides }, stations, { equipment: bends(known) }));
    expect(coordinateOf(answer, 'up', 'west').deviation).toBeCloseTo(-3, 6);
    expect(coordinateOf(answer, 'roll', 'west').deviation / DEG).toBeCloseTo(-0.11, 6);
  });
  test('its own u takes the place of the default; without data nothing changes', () => {
    const u = (equipment: PlacementEquipment) =>
      coordinateOf(answerOf(inputOf(SQUARE, stations, { equipment })), 'roll', 'west').u;
    const [tight, usual] = [u(bends({ ...known, uTiltRad: 1e-6 })), u(EQUIPMENT)];
    expect(usual * usual - tight * tight).toBeCloseTo((0.03 * DEG) ** 2, 9);
    const plain = answerOf(inputOf(SQUARE, stations));
    expect(coordinateOf(plain, 'up', 'west').deviation).toBeCloseTo(0, 6);
  });
  test('behind the car the same side goes low', () => {
    const behind = { ...CENTRE, place: 'behind', ahead: { value: -2600, from: 'rearAxle' } } as const;
    const facing = { ...behind, yaw: { value: 0, from: 'centreline' } } as const;
    const slide = { ...facing, id: 'west', kind: 'slide', left: { ...CENTRE.left, value: 550 } } as const;
    const layout = { ...SQUARE, target: { ...SQUARE.target, ahead: -2600, yaw: 0 } };
    const answer = answerOf(inputOf(layout, [facing, slide], { equipment: bends(known), near: 'behind' }));
    expect(coordinateOf(answer, 'roll', 'west').deviation / DEG).toBeCloseTo(-0.11, 6);
  });
});
