/** A new survey from what is typed: grid lines by length, width and step; when and with what it is made. Pure. */

import { parseQuantity } from '../../../core/entry/index.ts';
import type { RoomSurvey } from '../../../core/job/room.ts';
import { lengthOfText } from './LengthEntry.tsx';

/** The texts of the form. */
export interface SurveyTexts {
  readonly length: string;
  readonly width: string;
  readonly step: string;
  readonly validUntil: string;
  readonly instrument: string;
  readonly uHeight: string;
  /** In mm/m. */
  readonly uTilt: string;
}

/** The most grid lines in one direction. */
export const MOST_LINES = 30;

/** Lines from zero in even steps no wider than asked for, the last at the end. */
export function gridLines(lengthMm: number, stepMm: number): readonly number[] {
  const steps = Math.max(1, Math.ceil(lengthMm / stepMm - 1e-9));
  return Array.from({ length: steps + 1 }, (_, i) => Math.round((i * lengthMm) / steps));
}

/** The grid of a form; undefined while a number is missing. */
export function gridOf(texts: SurveyTexts): { xsMm: number[]; ysMm: number[] } | undefined {
  const [length, width, step] = [texts.length, texts.width, texts.step].map(lengthOfText);
  if (length === undefined || width === undefined || step === undefined) return undefined;
  if (!(length > 0 && width > 0 && step > 0) || length / step > 1000 || width / step > 1000) return undefined;
  return { xsMm: [...gridLines(length, step)], ysMm: [...gridLines(width, step)] };
}

const DAY = /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])$/;

/** The survey to start with, without a place read; undefined while something is missing or out of its limits. */
export function surveyFrom(texts: SurveyTexts, person: string, day: string): RoomSurvey | undefined {
  const grid = gridOf(texts);
  const uHeightMm = lengthOfText(texts.uHeight);
  const tilt = parseQuantity(texts.uTilt, { kind: 'count' });
  const good =
    grid !== undefined &&
    grid.xsMm.length <= MOST_LINES &&
    grid.ysMm.length <= MOST_LINES &&
    DAY.test(texts.validUntil) &&
    texts.validUntil >= day;
  if (!good || uHeightMm === undefined || !(uHeightMm > 0 && uHeightMm <= 100) || !tilt.ok) return undefined;
  const uTilt = tilt.value.value / 1000;
  if (!(uTilt >= 0 && uTilt <= 0.1)) return undefined;
  return {
    madeOn: day,
    validUntil: texts.validUntil,
    person,
    instrument: texts.instrument,
    xsMm: grid.xsMm,
    ysMm: grid.ysMm,
    places: [],
    uHeightMm,
    uTilt,
  };
}

/** A floor does not jump by this between two places next to each other, mm: more is asked about (common practice, no source). */
const JUMP_MM = 40;

/** How far a staff reading is off the nearest place that was read, where that is doubtful. */
export function doubtfulJump(
  survey: RoomSurvey,
  place: { readonly xMm: number; readonly yMm: number; readonly column: number; readonly row: number },
  staffMm: number,
): number | undefined {
  const others = survey.places.flatMap(({ column, row, staffMm: read }) => {
    if (read === null || (column === place.column && row === place.row)) return [];
    const apart = Math.hypot((survey.xsMm[column] ?? 0) - place.xMm, (survey.ysMm[row] ?? 0) - place.yMm);
    return [{ apart, off: Math.abs(read - staffMm) }];
  });
  const nearest = others.sort((a, b) => a.apart - b.apart)[0];
  return nearest !== undefined && nearest.off > JUMP_MM ? nearest.off : undefined;
}
