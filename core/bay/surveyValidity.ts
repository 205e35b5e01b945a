/**
 * How long a floor survey stands for the floor: from the day it was made to the day the shop set, and no longer than to
 * the next ground works. Work outside the shop has no such floor: there the four wheels and the fixture's place are
 * read on the same day from one set-up, before the car moves.
 */
import { err, ok, type Result } from '../result.ts';
import { type ContactError, type ContactPlane, contactPlane } from './contactPlane.ts';
import type { KnownHeight } from './weightedPlane.ts';
import { type AtWheels, WHEEL_NAMES } from './wheels.ts';

/** A day as `2026-11-25`; such texts sort as the days do. */
export type Day = string;

const DAY = /^\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])$/;

/** When a survey was made, until when the shop lets it stand, and the days of ground works since. */
export interface SurveyTerm {
  readonly madeOn: Day;
  readonly validUntil: Day;
  readonly groundWorks: readonly Day[];
}

/** Why a survey no longer stands, or not yet. */
export type SurveyStandingError =
  | { readonly code: 'bay/dayUnreadable'; readonly day: string }
  | { readonly code: 'bay/surveyNotYet'; readonly madeOn: Day; readonly day: Day }
  | { readonly code: 'bay/surveyExpired'; readonly validUntil: Day; readonly day: Day }
  | { readonly code: 'bay/groundWorksSince'; readonly madeOn: Day; readonly worksOn: Day };

/**
 * Whether a survey stands on a day. Its last day counts; works on the day of the survey itself count against it, for
 * nobody can tell which came first.
 */
export function surveyStanding(term: SurveyTerm, day: Day): Result<Day, SurveyStandingError> {
  const days = [term.madeOn, term.validUntil, ...term.groundWorks, day];
  const unreadable = days.find((d) => !DAY.test(d));
  if (unreadable !== undefined) return err({ code: 'bay/dayUnreadable', day: unreadable });
  if (day < term.madeOn) return err({ code: 'bay/surveyNotYet', madeOn: term.madeOn, day });
  const works = [...term.groundWorks].sort().find((d) => d >= term.madeOn && d <= day);
  if (works !== undefined) return err({ code: 'bay/groundWorksSince', madeOn: term.madeOn, worksOn: works });
  if (day > term.validUntil) return err({ code: 'bay/surveyExpired', validUntil: term.validUntil, day });
  return ok(term.validUntil);
}

/** One height of a spot survey: which day, from which set-up of the instrument. */
export interface SpotHeight extends KnownHeight {
  readonly readOn: Day;
  readonly setUp: number;
}

/** Four wheels and every place the fixture will stand, read on the spot. */
export interface SpotSurvey {
  readonly wheels: Partial<AtWheels<SpotHeight>>;
  readonly fixturePlaces: Readonly<Record<string, SpotHeight>>;
  /** u of the instrument's level, a pure number. */
  readonly uTilt: number;
}

/** Why a spot survey does not carry the work. */
export type SpotSurveyError =
  | ContactError
  | { readonly code: 'bay/spotMissing'; readonly place: string }
  | { readonly code: 'bay/spotOtherDay'; readonly place: string; readonly readOn: Day; readonly day: Day }
  | { readonly code: 'bay/spotOtherSetUp'; readonly place: string };

/** The car's plane and the fixture's places of a complete spot survey. */
export interface SpotFloor {
  readonly contact: ContactPlane;
  readonly contacts: AtWheels<KnownHeight>;
  readonly fixturePlaces: Readonly<Record<string, KnownHeight>>;
  readonly uTilt: number;
}

/** Checks that a spot survey is whole, of `day`, and of one set-up; then fits the contact plane. */
export function spotFloor(spot: SpotSurvey, day: Day): Result<SpotFloor, SpotSurveyError> {
  const { FL, FR, RL, RR } = spot.wheels;
  if (FL === undefined || FR === undefined || RL === undefined || RR === undefined) {
    const place = WHEEL_NAMES.find((wheel) => spot.wheels[wheel] === undefined) ?? 'FL';
    return err({ code: 'bay/spotMissing', place });
  }
  const contacts = { FL, FR, RL, RR };
  const fixtures = Object.entries(spot.fixturePlaces);
  if (fixtures.length === 0) return err({ code: 'bay/spotMissing', place: 'fixture' });
  for (const [place, height] of [...WHEEL_NAMES.map((w) => [w, contacts[w]] as const), ...fixtures]) {
    if (height.readOn !== day) return err({ code: 'bay/spotOtherDay', place, readOn: height.readOn, day });
    if (height.setUp !== FL.setUp) return err({ code: 'bay/spotOtherSetUp', place });
  }
  const contact = contactPlane(contacts, spot.uTilt);
  if (!contact.ok) return contact;
  return ok({ contact: contact.value, contacts, fixturePlaces: spot.fixturePlaces, uTilt: spot.uTilt });
}
