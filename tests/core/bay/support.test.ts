import { describe, expect, test } from 'vitest';
import {
  type ContactReading,
  SUPPORT_KINDS,
  type SupportKind,
  supportCaution,
  supportedContacts,
} from '../../../core/bay/support.ts';
import {
  type SpotHeight,
  type SpotSurvey,
  spotFloor,
  surveyStanding,
} from '../../../core/bay/surveyValidity.ts';
import { troubleOf } from '../../../core/bay/trouble.ts';
import { type AtWheels, atWheels } from '../../../core/bay/wheels.ts';

/** Contacts on one kind each, front left first. */
function on(
  kinds: readonly [SupportKind, SupportKind, SupportKind, SupportKind],
  loaded = true,
): AtWheels<ContactReading> {
  return atWheels((_, i) => ({
    xMm: i < 2 ? 2600 : 0,
    yMm: i % 2 === 0 ? 750 : -750,
    zMm: 10 + i,
    uMm: 0.4,
    support: kinds[i] ?? 'floor',
    underLoad: loaded,
  }));
}

const ALL_FLOOR = ['floor', 'floor', 'floor', 'floor'] as const;
const PLATES = ['turnPlates', 'turnPlates', 'floor', 'floor'] as const;

describe('what the wheels stand on', () => {
  test('a floor needs no caution and no load', () => {
    const found = supportedContacts(on(ALL_FLOOR, false), ['floor']);
    expect(found.ok && found.value.cautions).toEqual([]);
    expect(found.ok && found.value.contacts.RL).toEqual({ xMm: 0, yMm: 750, zMm: 12, uMm: 0.4 });
  });

  test('each wheel counts for itself: plates in front, floor behind', () => {
    const found = supportedContacts(on(PLATES), ['floor', 'turnPlates']);
    expect(found.ok && found.value.cautions).toEqual(['bay.caution.turnPlates']);
  });

  test('a forbidden support: no contacts, the caution first, the wheels and what is permitted', () => {
    const found = supportedContacts(on(['lift', 'lift', 'lift', 'lift']), ['floor', 'runways']);
    expect(found).toEqual({
      ok: false,
      error: {
        code: 'bay/supportForbidden',
        caution: 'bay.caution.lift',
        support: 'lift',
        wheels: ['FL', 'FR', 'RL', 'RR'],
        permitted: ['floor', 'runways'],
      },
    });
    const words = troubleOf(found.ok ? { code: 'bay/noLightReadings' } : found.error);
    expect(words.caution).toMatch(/^Caution: a raised car can fall/);
    expect(words.what).toContain('lift');
    expect(words.what).toContain("car's left front wheel");
    expect(words.next).toContain('floor, runways');
  });

  test('of two forbidden kinds the more dangerous one is named', () => {
    const found = supportedContacts(on(['turnPlates', 'turnPlates', 'stands', 'stands']), ['floor']);
    expect(!found.ok && found.error).toMatchObject({ support: 'stands', wheels: ['RL', 'RR'] });
  });

  test('read without the weight of the car: refused, except on the floor', () => {
    const found = supportedContacts(on(PLATES, false), SUPPORT_KINDS);
    expect(!found.ok && found.error).toMatchObject({ code: 'bay/contactNotUnderLoad', wheels: ['FL', 'FR'] });
    expect(supportedContacts(on(PLATES, true), SUPPORT_KINDS).ok).toBe(true);
  });

  test('everything but the floor has its caution', () => {
    expect(SUPPORT_KINDS.filter((kind) => supportCaution(kind) === undefined)).toEqual(['floor']);
  });
});

describe('how long a survey stands', () => {
  const term = { madeOn: '2026-01-15', validUntil: '2027-01-14', groundWorks: [] };

  test('from its first day to its last, both included', () => {
    for (const day of ['2026-01-15', '2026-06-30', '2027-01-14']) {
      expect(surveyStanding(term, day)).toEqual({ ok: true, value: '2027-01-14' });
    }
  });

  test.each([
    [term, '2026-01-14', { code: 'bay/surveyNotYet', madeOn: '2026-01-15', day: '2026-01-14' }],
    [term, '2027-01-15', { code: 'bay/surveyExpired', validUntil: '2027-01-14', day: '2027-01-15' }],
    [
      { ...term, groundWorks: ['2026-09-01', '2026-05-02'] },
      '2026-09-30',
      { code: 'bay/groundWorksSince', madeOn: '2026-01-15', worksOn: '2026-05-02' },
    ],
    [
      { ...term, groundWorks: ['2026-01-15'] },
      '2026-01-15',
      { code: 'bay/groundWorksSince', madeOn: '2026-01-15', worksOn: '2026-01-15' },
    ],
    [term, '15.1.2026', { code: 'bay/dayUnreadable', day: '15.1.2026' }],
    [term, '2026-13-01', { code: 'bay/dayUnreadable', day: '2026-13-01' }],
  ])('%j on %s', (when, day, error) => {
    expect(surveyStanding(when, day)).toEqual({ ok: false, error });
  });

  test('works before the survey, and works still to come, do not count', () => {
    const works = { ...term, groundWorks: ['2025-12-01', '2026-08-01'] };
    expect(surveyStanding(works, '2026-07-31').ok).toBe(true);
    expect(surveyStanding(works, '2026-08-01').ok).toBe(false);
  });
});

describe('a spot survey', () => {
  const DAY = '2026-11-25';
  const height = (xMm: number, yMm: number, zMm: number): SpotHeight => ({
    xMm,
    yMm,
    zMm,
    uMm: 0.4,
    readOn: DAY,
    setUp: 3,
  });
  const whole = {
    wheels: {
      FL: height(2600, 750, 13),
      FR: height(2600, -750, 13),
      RL: height(0, 750, 0),
      RR: height(0, -750, 0),
    },
    fixturePlaces: { 'mast foot': height(5000, 0, 20) },
    uTilt: 1e-4,
  } satisfies SpotSurvey;

  test('four wheels and the fixture of one day and one set-up carry the plane', () => {
    const found = spotFloor(whole, DAY);
    expect(found.ok && found.value.contact.plane.slopeX).toBeCloseTo(0.005, 12);
    expect(found.ok && found.value.fixturePlaces['mast foot']?.zMm).toBe(20);
  });

  test('a wheel or the fixture missing', () => {
    const { RR: _, ...three } = whole.wheels;
    expect(spotFloor({ ...whole, wheels: three }, DAY)).toEqual({
      ok: false,
      error: { code: 'bay/spotMissing', place: 'RR' },
    });
    expect(spotFloor({ ...whole, fixturePlaces: {} }, DAY)).toEqual({
      ok: false,
      error: { code: 'bay/spotMissing', place: 'fixture' },
    });
  });

  test('of yesterday, or of another set-up: named by its place', () => {
    const old = { ...whole.wheels, FR: { ...whole.wheels.FR, readOn: '2026-11-24' } };
    expect(spotFloor({ ...whole, wheels: old }, DAY)).toMatchObject({
      error: { code: 'bay/spotOtherDay', place: 'FR', readOn: '2026-11-24', day: DAY },
    });
    const moved = { 'mast foot': { ...height(5000, 0, 20), setUp: 4 } };
    expect(spotFloor({ ...whole, fixturePlaces: moved }, DAY)).toMatchObject({
      error: { code: 'bay/spotOtherSetUp', place: 'mast foot' },
    });
  });
});
