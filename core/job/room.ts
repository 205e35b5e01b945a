/**
 * A bay as the shop keeps it: its outline and what stands in it, the survey of its floor with every height as it was typed,
 * and the days of ground works. Recorded whole whenever something of it changes, so that a survey under way loses nothing.
 * Bay frame: origin and x axis are marks on the floor that the shop painted; mm.
 */
import { z } from 'zod';
import type { FloorSurvey } from '../bay/floorSurvey.ts';
import { floorHeightMm } from '../bay/staff.ts';
import type { SurveyTerm } from '../bay/surveyValidity.ts';

const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const placeMm = z.number().finite().min(-100_000).max(100_000);
const line = z.array(placeMm).min(2).max(30);
const outline = z.array(z.tuple([placeMm, placeMm])).max(40);

/** One place of the grid: the staff's reading in mm, null where it cannot be read; absent until somebody was there. */
export const surveyedPlaceSchema = z.strictObject({
  column: z.int().min(0).max(29),
  row: z.int().min(0).max(29),
  staffMm: z.number().finite().min(-20_000).max(20_000).nullable(),
  /** As typed; empty where the place cannot be read. */
  text: z.string().max(60),
});

/** A floor survey, under way or whole. u of a height and of the level as standard uncertainties, mm and a pure number. */
export const roomSurveySchema = z.strictObject({
  madeOn: day,
  validUntil: day,
  person: z.string().max(80),
  instrument: z.string().max(120),
  xsMm: line,
  ysMm: line,
  places: z.array(surveyedPlaceSchema).max(900),
  uHeightMm: z.number().finite().positive().max(100),
  uTilt: z.number().finite().min(0).max(0.1),
});

/** One thing that stands in a bay; heights over the floor. */
export const roomObstacleSchema = z.strictObject({
  name: z.string().min(1).max(60),
  outline: outline.min(3),
  fromMm: placeMm,
  toMm: placeMm,
});

/** What a shop knows of one bay beside its name. */
export const roomSchema = z.strictObject({
  /** Empty until it was drawn. */
  outline,
  obstacles: z.array(roomObstacleSchema).max(40),
  survey: roomSurveySchema.nullable(),
  groundWorks: z.array(day).max(200),
});

export type SurveyedPlace = z.infer<typeof surveyedPlaceSchema>;
export type RoomSurvey = z.infer<typeof roomSurveySchema>;
export type Room = z.infer<typeof roomSchema>;

/** A bay of which nothing is known yet. */
export const EMPTY_ROOM: Room = { outline: [], obstacles: [], survey: null, groundWorks: [] };

/** A place of the grid in walking order. */
export interface GridPlace {
  readonly column: number;
  readonly row: number;
  readonly xMm: number;
  readonly yMm: number;
}

/** The grid's places as they are walked: along the first row, back along the next, so that no step is longer than the grid's. */
export function walkingOrder(survey: Pick<RoomSurvey, 'xsMm' | 'ysMm'>): readonly GridPlace[] {
  return survey.ysMm.flatMap((yMm, row) => {
    const along = survey.xsMm.map((xMm, column) => ({ column, row, xMm, yMm }));
    return row % 2 === 0 ? along : along.reverse();
  });
}

/** What was read at a place, or undefined where nobody was yet. */
export function readAt(
  survey: Pick<RoomSurvey, 'places'>,
  { column, row }: Pick<GridPlace, 'column' | 'row'>,
): SurveyedPlace | undefined {
  return survey.places.find((each) => each.column === column && each.row === row);
}

/** The first place in walking order that nobody read or gave up; undefined for a survey that is whole. */
export function nextPlace(survey: RoomSurvey): GridPlace | undefined {
  return walkingOrder(survey).find((place) => readAt(survey, place) === undefined);
}

/** The survey with one place read (again), or given up with `staffMm` null. */
export function withPlace(survey: RoomSurvey, read: SurveyedPlace): RoomSurvey {
  const others = survey.places.filter((each) => each.column !== read.column || each.row !== read.row);
  return { ...survey, places: [...others, read] };
}

/** The survey as heights on its grid, Z up: the floor is lower where the staff reads more. */
export function floorSurveyOf(survey: RoomSurvey): FloorSurvey {
  return {
    xsMm: survey.xsMm,
    ysMm: survey.ysMm,
    heightsMm: survey.ysMm.map((_, row) =>
      survey.xsMm.map((__, column) => {
        const staffMm = readAt(survey, { column, row })?.staffMm ?? undefined;
        return staffMm === undefined ? undefined : floorHeightMm(staffMm);
      }),
    ),
    uHeightMm: survey.uHeightMm,
    uTilt: survey.uTilt,
  };
}

/** How long a room's survey stands. */
export function surveyTerm(survey: RoomSurvey, room: Pick<Room, 'groundWorks'>): SurveyTerm {
  return { madeOn: survey.madeOn, validUntil: survey.validUntil, groundWorks: room.groundWorks };
}
