/** What a correction does to the verdicts of a stored job, hand-worked where it can be. */
import { describe, expect, test } from 'vitest';
import { type Correction, correctionSchema, correctJob, trueReading } from '../../../core/job/correction.ts';
import { type Impact, impactOf, impactOnJob } from '../../../core/job/impact.ts';
import type { Job, RecordedReading } from '../../../core/job/job.ts';
import { solveAll } from '../../../core/job/solve.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import type { TrueLayout } from '../../../core/rehearsal/trueBay.ts';
import { CENTRE, SLIDES, SQUARE } from '../placement/trueLayout.ts';
import { Journal, procedureOf } from './madeJob.ts';

function journalOf(layout: TrueLayout, stations: readonly StationRequirement[] = [CENTRE]): Journal {
  const journal = new Journal();
  journal.open(stations);
  journal.read(layout, stations);
  return journal;
}

function impactOfCorrection(journal: Journal, ...corrections: readonly Correction[]): Impact {
  const impact = impactOf(journal.events, corrections);
  if (!impact.ok) throw new Error(impact.error.code);
  return impact.value;
}

const rowOf = (impact: Impact, judged: string, station = 'centre') => {
  const row = impact.judged.find((each) => each.judged === judged && each.station === station);
  if (row === undefined) throw new Error(`no ${judged}`);
  return row;
};

describe('a side arm of another length', () => {
  const journal = journalOf(SQUARE);
  test('6 mm on one side move the centreline by 3 mm, and that side only changes "left"', () => {
    const impact = impactOfCorrection(journal, { kind: 'sideArm', side: 'left', lengthMm: 286 });
    expect(impact.touched).toBe(true);
    const left = rowOf(impact, 'left');
    expect(left.before?.deviation).toBeCloseTo(0, 6);
    // The car's-left hubs lie 6 mm nearer to the middle: the middle goes 3 mm to the car's right.
    expect(left.after?.deviation).toBeCloseTo(3, 3);
    expect(rowOf(impact, 'up').after?.deviation).toBeCloseTo(0, 3);
    expect(impact.turned).toEqual([]);
  });
  test('40 mm turn the verdict of the side, and say so', () => {
    const impact = impactOfCorrection(journal, { kind: 'sideArm', side: 'left', lengthMm: 320 });
    expect(
      impact.turned.map((each) => [each.station, each.judged, each.before?.verdict, each.after?.verdict]),
    ).toEqual([['centre', 'left', 'proven', 'outside']]);
  });
  test('the length it has already concerns nothing', () => {
    expect(impactOfCorrection(journal, { kind: 'sideArm', side: 'left', lengthMm: 280 }).touched).toBe(false);
  });
});

describe('an instrument that read wrong', () => {
  test('a tape that reads 1 in 1000 long: 5 m from the rear axle were 4.995', () => {
    const impact = impactOfCorrection(journalOf(SQUARE), {
      kind: 'instrument',
      instrument: 'tape',
      perUnit: 0.001,
    });
    const ahead = rowOf(impact, 'ahead');
    // All lengths shrink by 1/1.001: 5000 mm become 4995.005; the target's own 80 mm before the bar do not.
    expect(ahead.after?.deviation).toBeCloseTo(-(5000 + 80) * (1 - 1 / 1.001), 1);
    expect(rowOf(impact, 'up').after?.deviation).toBeCloseTo(-1350 * (1 - 1 / 1.001), 1);
  });
  test('readings without that instrument are left alone', () => {
    const impact = impactOfCorrection(journalOf(SQUARE), {
      kind: 'instrument',
      instrument: 'other',
      readsMore: 5,
    });
    expect(impact.touched).toBe(false);
    expect(impact.turned).toEqual([]);
  });
  test('a worse class widens u and takes the proof of what was proven by a hair', () => {
    const worse = { kind: 'instrument', instrument: 'tape', accuracyClass: 'III' } as const;
    const u = rowOf(impactOfCorrection(journalOf(SQUARE), worse), 'ahead');
    const [before, after] = [u.before?.u ?? 0, u.after?.u ?? 0];
    expect(after).toBeGreaterThan(before * 1.05);
    // Between the two guard bands: 10 mm less 1.645 times the mean of both u.
    const ahead = 5000 + 10 - 1.645 * ((before + after) / 2);
    const impact = impactOfCorrection(journalOf({ ...SQUARE, target: { ...SQUARE.target, ahead } }), worse);
    expect(impact.turned.map((each) => [each.judged, each.before?.verdict, each.after?.verdict])).toEqual([
      ['ahead', 'proven', 'within'],
    ]);
  });
  test('a tilt that passes zero turns its way round', () => {
    const reading = (value: number, direction: string | null) =>
      ({ value, direction }) as unknown as RecordedReading;
    const taken = (value: number, direction: string | null, more: number) => {
      const { value: now, direction: way } = trueReading(reading(value, direction), more, 0);
      return [Number(now.toFixed(9)), way];
    };
    expect(taken(0.3, 'towardCar', 0.2)).toEqual([0.1, 'towardCar']);
    expect(taken(0.1, 'towardCar', 0.3)).toEqual([0.2, 'awayFromCar']);
    expect(taken(0.1, 'awayFromCar', 0.3)).toEqual([0.4, 'awayFromCar']);
    expect(taken(0.1, 'carRightLow', -0.3)).toEqual([0.2, 'carLeftLow']);
    expect(taken(500, null, 2)).toEqual([498, null]);
    expect(trueReading(reading(1001, null), 0, 0.001).value).toBeCloseTo(1000, 9);
  });
});

describe('other things that turned out wrong', () => {
  test('a fixture whose face sits 12 mm farther out: the target stood 12 mm nearer', () => {
    const impact = impactOfCorrection(journalOf(SQUARE), {
      kind: 'fixture',
      fixture: 'bar',
      change: { faceAheadMm: 92 },
    });
    expect(rowOf(impact, 'ahead').after?.deviation).toBeCloseTo(-12, 3);
    expect(impact.turned.map((each) => each.judged)).toEqual(['ahead']);
    const stranger = { kind: 'fixture', fixture: 'stranger', change: { faceAheadMm: 92 } } as const;
    expect(impactOfCorrection(journalOf(SQUARE), stranger).touched).toBe(false);
  });
  test('a floor that is 8 mm higher under the fixture lifts the target by 8 mm', () => {
    const impact = impactOfCorrection(journalOf(SQUARE), {
      kind: 'floor',
      higherMm: { 'floor.fixtureLeft': 8, 'floor.fixtureRight': 8 },
    });
    expect(rowOf(impact, 'up').after?.deviation).toBeCloseTo(8, 1);
  });
  test('a corrected procedure is judged by its own values', () => {
    const corrected = procedureOf([{ ...CENTRE, ahead: { ...CENTRE.ahead, value: 5030 } }]);
    const impact = impactOfCorrection(journalOf(SQUARE), {
      kind: 'procedure',
      procedure: { ...corrected, edition: 2 },
    });
    expect(rowOf(impact, 'ahead').after?.deviation).toBeCloseTo(-30, 6);
    expect(impact.turned.map((each) => each.after?.verdict)).toEqual(['outside']);
    const other = { ...corrected, id: 'other' };
    expect(impactOfCorrection(journalOf(SQUARE), { kind: 'procedure', procedure: other }).touched).toBe(
      false,
    );
  });
  test('a reading that cannot stand: its station is found no more', () => {
    const journal = journalOf(SQUARE);
    const height = journal.job.readings.find((each) => each.quantity === 'target.height');
    const impact = impactOfCorrection(journal, { kind: 'withdrawn', readings: [height?.reading ?? ''] });
    expect(impact.turned).toHaveLength(6);
    expect(impact.turned.every((each) => each.after === undefined)).toBe(true);
    expect(impactOfCorrection(journal, { kind: 'withdrawn', person: 'p2' }).touched).toBe(false);
    expect(impactOfCorrection(journal, { kind: 'withdrawn' }).touched).toBe(false);
    expect(impactOfCorrection(journal, { kind: 'withdrawn', person: 'p1' }).turned).toHaveLength(6);
  });
  test('one of a blunder with redundancy: the readings disagree from then on', () => {
    const journal = journalOf(SQUARE);
    // As recorded, the two diagonals fit; with a tape short by 40 mm they do not fit the bar.
    const impact = impactOfCorrection(journal, {
      kind: 'fixture',
      fixture: 'bar',
      change: { barLengthMm: 2040 },
    });
    expect(impact.agreement).toEqual([{ sensor: 'fc', before: true, after: false }]);
  });
  test('work that was told too careful', () => {
    const impact = impactOfCorrection(journalOf(SQUARE), { kind: 'work', work: 'typical' });
    expect(rowOf(impact, 'left').after?.u ?? 0).toBeGreaterThan(rowOf(impact, 'left').before?.u ?? 0);
    expect(impactOfCorrection(journalOf(SQUARE), { kind: 'work', work: 'careful' }).touched).toBe(false);
  });
});

describe('an impact as a whole', () => {
  const slides = { west: { towardCarLeft: 550, sag: 0 }, east: { towardCarLeft: -550, sag: 0 } };
  const journal = journalOf({ ...SQUARE, slides }, [CENTRE, ...SLIDES]);
  test('tells every station, slides too', () => {
    const impact = impactOfCorrection(journal, { kind: 'sideArm', side: 'right', lengthMm: 250 });
    expect(new Set(impact.judged.map((each) => each.station))).toEqual(new Set(['centre', 'west', 'east']));
    expect(impact.judged).toHaveLength(18);
    expect(impact.turned.map((each) => `${each.station} ${each.judged}`)).toEqual([
      'centre left',
      'west left',
      'east left',
    ]);
  });
  test('corrections add up in their order, and two that undo each other change nothing', () => {
    const there = { kind: 'instrument', instrument: 'tape', readsMore: 3 } as const;
    const back = { kind: 'instrument', instrument: 'tape', readsMore: -3 } as const;
    const impact = impactOfCorrection(journal, there, back);
    for (const row of impact.judged) {
      expect(row.after?.deviation ?? 1).toBeCloseTo(row.before?.deviation ?? 0, 9);
    }
  });
  test('the job itself is as it was', () => {
    const before = JSON.stringify(journal.job);
    const job: Job = journal.job;
    correctJob(job, { kind: 'withdrawn', person: 'p1' });
    impactOnJob(job, [{ kind: 'sideArm', side: 'left', lengthMm: 1 }]);
    expect(JSON.stringify(job)).toBe(before);
    expect(solveAll(job)).toEqual(solveAll(journal.job));
  });
  test('events that open no job are none', () => {
    expect(impactOf(journal.events.slice(1), [])).toEqual({ ok: false, error: { code: 'impact/notAJob' } });
  });
  test('a correction is read strictly', () => {
    expect(correctionSchema.safeParse({ kind: 'floor', higherMm: { 'floor.FL': 2 } }).success).toBe(true);
    expect(correctionSchema.safeParse({ kind: 'floor', higherMm: { 'base.L': 2 } }).success).toBe(false);
    expect(
      correctionSchema.safeParse({ kind: 'instrument', instrument: 'tape', readsMore: 'long' }).success,
    ).toBe(false);
    expect(correctionSchema.safeParse({ kind: 'sideArm', side: 'left', lengthMm: -1 }).success).toBe(false);
  });
});
