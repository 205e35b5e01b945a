import { describe, expect, test } from 'vitest';
import { surveyedFloor } from '../../../core/bay/floorSurvey.ts';
import {
  floorSurveyOf,
  nextPlace,
  type RoomSurvey,
  readAt,
  roomSchema,
  walkingOrder,
  withPlace,
} from '../../../core/job/room.ts';
import { surveyOf } from './surveyedRoom.ts';

const empty: RoomSurvey = { ...surveyOf(() => 0), xsMm: [0, 1000, 2000], ysMm: [0, 900], places: [] };
const names = (survey: RoomSurvey): readonly string[] =>
  walkingOrder(survey).map(({ xMm, yMm }) => `${xMm}/${yMm}`);

describe('a survey place by place', () => {
  test('is walked to and fro, so that no step is longer than the grid', () => {
    expect(names(empty)).toEqual(['0/0', '1000/0', '2000/0', '2000/900', '1000/900', '0/900']);
  });

  test('opens the next place that nobody read or gave up', () => {
    const one = withPlace(empty, { column: 0, row: 0, staffMm: 1200, text: '1200' });
    expect(nextPlace(one)).toMatchObject({ column: 1, row: 0 });
    const two = withPlace(one, { column: 1, row: 0, staffMm: null, text: '' });
    expect(nextPlace(two)).toMatchObject({ column: 2, row: 0 });
  });

  test('keeps one value a place: the last, as it was typed', () => {
    const once = withPlace(empty, { column: 0, row: 0, staffMm: 1200, text: '1200' });
    const again = withPlace(once, { column: 0, row: 0, staffMm: 1201.5, text: '1201,5' });
    expect(again.places).toHaveLength(1);
    expect(readAt(again, { column: 0, row: 0 })?.text).toBe('1201,5');
  });

  test('is whole when every place is read or given up', () => {
    const whole = walkingOrder(empty).reduce(
      (survey, { column, row }) => withPlace(survey, { column, row, staffMm: 1200, text: '1200' }),
      empty,
    );
    expect(nextPlace(whole)).toBeUndefined();
  });
});

describe('staff readings as heights', () => {
  test('a place where the staff reads more is lower', () => {
    const survey = surveyOf((x) => 0.004 * x);
    const floor = surveyedFloor(floorSurveyOf(survey));
    expect(floor.ok && floor.value.plane.slopeX).toBeCloseTo(0.004, 12);
    expect(readAt(survey, { column: 0, row: 0 })?.staffMm).toBeGreaterThan(
      readAt(survey, { column: 2, row: 0 })?.staffMm ?? 0,
    );
  });

  test('a place that was given up is absent, not zero', () => {
    const survey = withPlace(
      surveyOf(() => 0),
      { column: 1, row: 1, staffMm: null, text: '' },
    );
    expect(floorSurveyOf(survey).heightsMm[1]?.[1]).toBeUndefined();
    expect(floorSurveyOf(survey).heightsMm[1]?.[0]).toBe(-1200);
  });
});

test('a room with a member of its own is refused', () => {
  const room = { outline: [], obstacles: [], survey: surveyOf(() => 0), groundWorks: [] };
  expect(roomSchema.safeParse(room).success).toBe(true);
  expect(roomSchema.safeParse({ ...room, colour: 'grey' }).success).toBe(false);
  expect(roomSchema.safeParse({ ...room, groundWorks: ['2026-3-2'] }).success).toBe(false);
});
