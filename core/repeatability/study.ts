/**
 * A crossed repeatability study: every person measures every set-up (or part) equally often, without knowing what was
 * read before. Repeated set-ups of the same thing count as parts: what differs between them is set-up, not reading.
 */
import { err, ok, type Result } from '../result.ts';

/** Readings by part, then person, then trial, all in one unit. */
export type StudyReadings = readonly (readonly (readonly number[])[])[];

/** A study whose readings are whole: at least two parts, people and trials, equally many everywhere. */
export interface Study {
  readonly readings: StudyReadings;
  readonly parts: number;
  readonly people: number;
  readonly trials: number;
}

/** What keeps readings from being a crossed study; places are counted from 0. */
export type StudyError =
  | {
      readonly code: 'repeatability/tooFew';
      readonly parts: number;
      readonly people: number;
      readonly trials: number;
    }
  | { readonly code: 'repeatability/unequal'; readonly part: number; readonly person: number }
  | {
      readonly code: 'repeatability/notANumber';
      readonly part: number;
      readonly person: number;
      readonly trial: number;
    };

/** Checks the readings. One missing reading is an error that names its place: nothing is filled in. */
export function crossedStudy(readings: StudyReadings): Result<Study, StudyError> {
  const parts = readings.length;
  const people = readings[0]?.length ?? 0;
  const trials = readings[0]?.[0]?.length ?? 0;
  if (parts < 2 || people < 2 || trials < 2)
    return err({ code: 'repeatability/tooFew', parts, people, trials });
  for (const [part, row] of readings.entries()) {
    for (let person = 0; person < Math.max(people, row.length); person++) {
      const cell = row[person];
      if (cell?.length !== trials || person >= people)
        return err({ code: 'repeatability/unequal', part, person });
      const trial = cell.findIndex((value) => !Number.isFinite(value));
      if (trial >= 0) return err({ code: 'repeatability/notANumber', part, person, trial });
    }
  }
  return ok({ readings, parts, people, trials });
}
