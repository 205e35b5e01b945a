import { describe, expect, test } from 'vitest';
import { alignmentFacts } from '../../../core/job/alignment.ts';
import { alignmentTexts } from '../../../core/job/alignmentText.ts';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import { degFromRad, radFromDeg } from '../../../core/units.ts';
import { Journal } from './madeJob.ts';

/** A job with these toes in degrees. */
function jobWith(toes: Readonly<Record<string, number>>) {
  const journal = new Journal();
  journal.add('jobOpened', { reference: 'R', demo: true, bay: 'b', decisionRule: 'guarded', follows: null });
  journal.add('sensorListed', { sensor: 'fc', kind: 'forwardCamera', name: 'Camera' });
  journal.add('sensorDisposed', { sensor: 'fc', disposition: 'staticHere', source: '' });
  for (const [corner, value] of Object.entries(toes)) {
    const field = `prechecks.toe${corner}`;
    journal.add('fieldRecorded', { field, at: wholeJob, value: radFromDeg(value), text: String(value) });
  }
  return journal.job;
}

const textsOf = (toes: Readonly<Record<string, number>>) =>
  alignmentTexts(alignmentFacts(jobWith(toes))).map((each) => each.value);

describe('an alignment report', () => {
  test('rear toes of 0.20 and 0.10 degrees: 0.30 in, the axle 0.05 to the right', () => {
    const facts = alignmentFacts(jobWith({ RL: 0.2, RR: 0.1 }));
    expect(degFromRad(facts.totalRearRad ?? 0)).toBeCloseTo(0.3, 12);
    expect(degFromRad(facts.thrustRad ?? 0)).toBeCloseTo(-0.05, 12);
    expect(facts.totalFrontRad).toBeUndefined();
    expect(textsOf({ RL: 0.2, RR: 0.1 })).toEqual(['0.30° in', "0.05° to the car's right"]);
  });

  test('toe-out and the other side in words, never a sign', () => {
    expect(textsOf({ FL: -0.1, FR: -0.05, RL: 0.1, RR: 0.3 })).toEqual([
      '0.15° out',
      '0.40° in',
      "0.10° to the car's left",
    ]);
  });

  test('what rounds to nothing has no direction', () => {
    expect(textsOf({ RL: 0.101, RR: 0.1 })).toEqual(['0.20° in', '0.00°']);
  });

  test('one wheel of an axle gives nothing', () => {
    expect(textsOf({ FL: 0.1, RR: 0.1 })).toEqual([]);
  });
});
