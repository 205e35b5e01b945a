/** A surveyed bay of a floor given as a formula: what a faultless person with a faultless level would record. */
import type { Room, RoomSurvey } from '../../../core/job/room.ts';

export const XS = [0, 1500, 3000, 4500, 6000, 7500, 9000];
export const YS = [0, 1200, 2400, 3600, 4800];
/** Where the level's plane lies over the floor's zero, mm. */
export const PLANE_MM = 1200;

export function surveyOf(floorMm: (x: number, y: number) => number): RoomSurvey {
  return {
    madeOn: '2026-10-05',
    validUntil: '2027-10-05',
    person: 'mira',
    instrument: 'Laser',
    xsMm: XS,
    ysMm: YS,
    places: YS.flatMap((y, row) =>
      XS.map((x, column) => {
        const staffMm = PLANE_MM - floorMm(x, y);
        return { column, row, staffMm, text: String(staffMm) };
      }),
    ),
    uHeightMm: 0.5,
    uTilt: 5e-5,
  };
}

export const roomOf = (survey: RoomSurvey | null, more: Partial<Room> = {}): Room => ({
  outline: [
    [-500, -500],
    [9500, -500],
    [9500, 5300],
    [-500, 5300],
  ],
  obstacles: [],
  survey,
  groundWorks: [],
  ...more,
});
