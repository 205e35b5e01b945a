import { describe, expect, test } from 'vitest';
import { fixtureScale, staffReadings } from '../../../core/job/fixtureScale.ts';
import type { Job, RecordedReading } from '../../../core/job/job.ts';
import { answerOf } from '../placement/answers.ts';
import { CENTRE, inputOf, SQUARE } from '../placement/trueLayout.ts';

const answer = answerOf(inputOf(SQUARE, [CENTRE]));
const required = answer.stations[0]?.required;

const reading = (quantity: string, value: number, struck = false): RecordedReading => ({
  reading: `${quantity}${value}`,
  quantity,
  sensor: null,
  station: null,
  value,
  unit: 'mm',
  direction: null,
  text: String(value),
  instrument: null,
  purpose: 'proof',
  carSetUp: 1,
  fixtureSetUp: 1,
  stamp: { seq: 1, utcMs: 0, offsetMin: 0, person: 'p' },
  struck: struck
    ? { reason: 'other', words: '', stamp: { seq: 2, utcMs: 0, offsetMin: 0, person: 'p' } }
    : null,
});

/** Staff readings: more on the staff is lower floor. */
function floor(values: Readonly<Record<string, number>>): Pick<Job, 'readings'> {
  return { readings: Object.entries(values).map(([place, value]) => reading(`floor.${place}`, value)) };
}

const LEVEL = { FL: 1400, FR: 1400, RL: 1400, RR: 1400, fixtureLeft: 1400, fixtureRight: 1400 };
const scaleOn = (values: Readonly<Record<string, number>>) =>
  fixtureScale(floor(values), answer.vehicle, CENTRE, required);

describe('the number to set on the fixture', () => {
  test('on a level floor it is the procedure’s own height, upright', () => {
    const setting = scaleOn(LEVEL);
    expect(setting?.scale.value).toBeCloseTo(CENTRE.up.value, 6);
    expect(setting?.pitch.value).toBeCloseTo(0, 9);
  });

  test('a fixture that stands 10 mm lower is set 10 mm higher, and no other way', () => {
    const lower = scaleOn({ ...LEVEL, fixtureLeft: 1410, fixtureRight: 1410 });
    expect((lower?.scale.value ?? 0) - CENTRE.up.value).toBeCloseTo(10, 6);
    expect(lower?.overLevelMm).toBeCloseTo(10, 6);
    // One end lower than the other: the middle counts.
    const half = scaleOn({ ...LEVEL, fixtureLeft: 1410 });
    expect(half?.overLevelMm).toBeCloseTo(5, 6);
  });

  test('a car that stands nose up by 1 % wants the target higher by the distance ahead, and leaning', () => {
    const wheelbase = answer.vehicle?.wheelbase.value ?? 0;
    const rise = 0.01 * wheelbase;
    const setting = scaleOn({ ...LEVEL, FL: 1400 - rise, FR: 1400 - rise });
    const ahead = required?.aheadMm ?? 0;
    // The fixture's floor lies at the height of the rear wheels; the plane of the tyres is 1 % of the distance above it.
    expect(setting?.overLevelMm ?? 0).toBeGreaterThan(0.0099 * ahead);
    expect(setting?.overLevelMm ?? 0).toBeLessThan(0.0101 * ahead);
    expect(Math.abs(setting?.pitch.value ?? 0)).toBeCloseTo(Math.atan(0.01), 5);
  });

  test('repeats count as their mean and struck ones not at all', () => {
    const readings = [reading('floor.FL', 1400), reading('floor.FL', 1402), reading('floor.FL', 1600, true)];
    expect(staffReadings({ readings })).toEqual({ FL: 1401 });
  });

  test('there is none while a wheel, the fixture’s floor or the car is not known', () => {
    const { FL: _none, ...rest } = LEVEL;
    expect(scaleOn(rest)).toBeUndefined();
    const { fixtureLeft: _left, ...one } = LEVEL;
    expect(scaleOn(one)).toBeUndefined();
    expect(fixtureScale(floor(LEVEL), undefined, CENTRE, required)).toBeUndefined();
    expect(scaleOn({ ...one, stand: 1395 })?.overLevelMm).toBeCloseTo(-5, 6);
  });
});
