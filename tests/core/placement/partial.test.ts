/** Live while readings are typed: what is determined is answered, what is not is named with the reading that would fix it. */
import { describe, expect, test } from 'vitest';
import type { PlacementInput } from '../../../core/placement/placementInput.ts';
import { slotKey } from '../../../core/placement/recipe.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import { solvePlacement } from '../../../core/placement/solvePlacement.ts';
import { answerOf, coordinateOf } from './answers.ts';
import { CENTRE, inputOf, SLIDES, SQUARE } from './trueLayout.ts';

const whole = inputOf(SQUARE);
const only = (input: PlacementInput, keep: (id: string) => boolean): PlacementInput => ({
  ...input,
  readings: input.readings.filter((each) => keep(each.id)),
});
const changed = (input: PlacementInput, id: string, change: (value: number) => number): PlacementInput => ({
  ...input,
  readings: input.readings.map((each) => (each.id === id ? { ...each, value: change(each.value) } : each)),
});

describe('how far the readings carry', () => {
  test('nothing typed: nothing known, the first reading of the walk is next', () => {
    const answer = answerOf({ ...whole, readings: [] });
    expect(answer.stage).toBe('nothing');
    expect(answer.vehicle).toBeUndefined();
    expect(answer.nextReading).toEqual({ id: 'floor.FL', purpose: 'proof' });
    expect(answer.nextAction).toEqual({
      wordKey: 'next.read',
      values: { reading: "staff at the car's left front wheel" },
    });
    expect(answer.problems[0]).toMatchObject({ code: 'placement/undetermined', quantity: 'vehicle' });
  });

  test('typed one after the other in walking order, each answer asks for the next one', () => {
    const order = answerOf({ ...whole, readings: [] }).missing.map(slotKey);
    const read: PlacementInput['readings'][number][] = [];
    const stages: string[] = [];
    for (const key of order) {
      const answer = answerOf({ ...whole, readings: read });
      expect(answer.nextReading && slotKey(answer.nextReading)).toBe(key);
      stages.push(answer.stage);
      const reading = whole.readings.find((each) => slotKey(each) === key);
      if (reading !== undefined) read.push(reading);
    }
    expect(answerOf({ ...whole, readings: read }).stage).toBe('fixture');
    expect(stages.join(' ')).toMatch(/^(nothing )+datum( datum)*( fixture)*$/);
  });

  test('with the datum whole and the bar open, the car is there and the fixture is not', () => {
    const answer = answerOf(only(whole, (id) => !id.startsWith('bar.')));
    expect(answer.stage).toBe('datum');
    expect(answer.vehicle?.wheelbase.value).toBeCloseTo(2650, 6);
    expect(answer.fixture).toBeUndefined();
    expect(answer.stations).toEqual([]);
    expect(answer.problems).toEqual([
      {
        code: 'placement/undetermined',
        quantity: 'fixture',
        readingIds: ['bar.sameL', 'bar.diagLR', 'bar.sameR', 'bar.diagRL'],
      },
    ]);
  });

  test('two of the four bar distances leave the fixture open, three do not', () => {
    const two = only(whole, (id) => id !== 'bar.sameL' && id !== 'bar.diagRL');
    expect(answerOf(two).stage).toBe('datum');
    expect(answerOf(only(whole, (id) => id !== 'bar.sameL')).stage).toBe('fixture');
  });

  test('without stations the fixture is placed all the same, with nothing to compare it with', () => {
    const answer = answerOf({ ...whole, stations: [] });
    expect(answer.stage).toBe('fixture');
    expect(answer.fixture?.target.aheadMm).toBeCloseTo(5000, 6);
    expect(answer.worst).toBeUndefined();
    expect(answer.nextAction.wordKey).toBe('next.noStation');
  });
});

describe('what is undetermined is named with the reading that would fix it', () => {
  const toThrust: StationRequirement = { ...CENTRE, left: { ...CENTRE.left, from: 'thrustLine' } };
  const fromFace: StationRequirement = { ...CENTRE, ahead: { value: 1500, from: 'bodyFace' } };

  test('the thrust line without rear toe', () => {
    const answer = answerOf(inputOf(SQUARE, [toThrust], { leaveOut: ['toe.RL', 'toe.RR'] }));
    expect(answer.problems).toEqual([
      { code: 'placement/undetermined', quantity: 'thrustLine', readingIds: ['toe.RL', 'toe.RR'] },
    ]);
    expect(answer.stations).toEqual([]);
    expect(answer.moves).toEqual([]);
    expect(answer.vehicle?.thrustLine).toBeUndefined();
    expect(answer.nextReading).toEqual({ id: 'toe.RL', purpose: 'proof' });
    expect(answer.fixture?.target.aheadMm).toBeCloseTo(5000, 6);
  });
  test('the thrust line with one rear toe only', () => {
    const answer = answerOf(inputOf(SQUARE, [toThrust], { leaveOut: ['toe.RR'] }));
    expect(answer.problems).toMatchObject([{ quantity: 'thrustLine', readingIds: ['toe.RR'] }]);
  });
  test('the body face that is not plumbed', () => {
    const answer = answerOf(inputOf(SQUARE, [fromFace], { leaveOut: ['face'] }));
    expect(answer.problems).toEqual([
      { code: 'placement/undetermined', quantity: 'bodyFace', readingIds: ['face'] },
    ]);
    expect(answer.stations).toEqual([]);
  });
  test('stations that need neither are not held up by one that does, and two that need the same name it once', () => {
    const slides = SLIDES.map((slide) => ({
      ...slide,
      left: { ...slide.left, from: 'thrustLine' as const },
    }));
    const answer = answerOf(inputOf(SQUARE, [CENTRE, ...slides], { leaveOut: ['toe.RL', 'toe.RR'] }));
    expect(answer.stations.map((each) => each.station)).toEqual(['centre']);
    expect(answer.problems).toHaveLength(1);
  });
});

describe('readings that cannot be', () => {
  test('a width ten times too large closes no triangle and is named', () => {
    const answer = answerOf(changed(whole, 'width.ahead', (value) => value * 10));
    expect(answer.stage).toBe('nothing');
    expect(answer.problems[0]).toEqual({
      code: 'placement/impossible',
      readingIds: ['diagonal.LR', 'width.ahead'],
    });
    expect(answer.nextAction.wordKey).toBe('next.readAgain');
  });
  test('a bar distance ten times too large takes only the fixture away', () => {
    const answer = answerOf(changed(whole, 'bar.sameL', (value) => value * 10));
    expect(answer.stage).toBe('datum');
    expect(answer.problems[0]).toEqual({
      code: 'placement/impossible',
      readingIds: ['bar.sameL', 'bar.diagRL'],
    });
  });
  test('a staff reading ten times too large is named by itself, and takes away what stands on it', () => {
    const car = answerOf(changed(whole, 'floor.RL', (value) => value * 10));
    expect(car.problems).toEqual([{ code: 'placement/impossible', readingIds: ['floor.RL'] }]);
    expect(car.stage).toBe('nothing');
    const fixture = answerOf(changed(whole, 'floor.fixtureRight', (value) => value / 10));
    expect(fixture.problems).toEqual([{ code: 'placement/impossible', readingIds: ['floor.fixtureRight'] }]);
    expect(fixture.stage).toBe('datum');
  });
  test('a line of no length and a fixture that lies on the floor are named', () => {
    expect(answerOf(changed(whole, 'ahead.R', () => 0)).problems).toEqual([
      { code: 'placement/impossible', readingIds: ['ahead.R'] },
    ]);
    expect(answerOf(changed(whole, 'fixture.roll', () => 1.5)).problems).toEqual([
      { code: 'placement/impossible', readingIds: ['fixture.roll'] },
    ]);
  });
  test('a figure that misses by half a metre is called impossible, one that misses by 100 mm is adjusted and suspected', () => {
    const half = answerOf(changed(whole, 'base.R', (value) => value + 500));
    expect(half.problems[0]).toMatchObject({ code: 'placement/impossible' });
    const tenth = answerOf(changed(whole, 'base.R', (value) => value + 100));
    expect(tenth.stage).toBe('fixture');
    expect(tenth.globalTest?.passed).toBe(false);
    expect(tenth.suspects[0]?.readingIds).toContain('base.R');
    const separatedBy = tenth.suspects[0]?.separatedBy ?? '';
    expect(whole.readings.map((each) => each.id)).toContain(separatedBy);
  });
  test('a tilt without a way asks which way it goes', () => {
    const tilted = {
      ...whole,
      readings: whole.readings.map((each) => {
        if (each.id !== 'fixture.pitch') return each;
        const { direction: _none, ...rest } = each;
        return { ...rest, value: 0.01 };
      }),
    };
    expect(answerOf(tilted).problems).toEqual([
      { code: 'placement/directionMissing', readingIds: ['fixture.pitch'] },
    ]);
  });
  test('a slide without a placed station, and a face that looks across the car, are refused in words', () => {
    const [slide] = SLIDES;
    expect(solvePlacement({ ...whole, stations: slide === undefined ? [] : [slide] })).toEqual({
      ok: false,
      error: { code: 'placement/firstStationSlides' },
    });
    const across = { ...CENTRE, yaw: { ...CENTRE.yaw, value: Math.PI / 2 } };
    expect(answerOf({ ...whole, stations: [across] }).problems).toEqual([
      { code: 'placement/faceAcrossCar' },
    ]);
  });
  test('a blunder of 12 mm in a diagonal fails the global test, is suspected, and blocks what was proven', () => {
    const answer = answerOf(changed(whole, 'diagonal.LR', (value) => value + 12));
    expect(answer.globalTest?.passed).toBe(false);
    expect(answer.suspects[0]?.readingIds).toContain('diagonal.LR');
    expect(answer.suspects[0]?.estimatedBlunder).toBeGreaterThan(0);
    expect(answer.nextAction.wordKey).toMatch(/^next\.(readAgain|oneOfThese)$/);
    for (const each of answer.stations[0]?.coordinates ?? []) {
      expect(['cannotBeJudged', 'beyond', 'outside']).toContain(each.verdict);
      if (each.verdict === 'cannotBeJudged') expect(each.probability).toBeUndefined();
    }
  });
});

describe('repeats and controls', () => {
  const twice = (id: string, difference: number): PlacementInput => ({
    ...whole,
    readings: whole.readings.flatMap((each) =>
      each.id === id && each.purpose === 'proof'
        ? [each, { ...each, ref: `${each.ref}/2`, value: each.value + difference }]
        : [each],
    ),
  });
  test('repeats are averaged: 4 mm on one of two moves the mean by 2', () => {
    const readings = twice('target.height', 4);
    expect(coordinateOf(answerOf(readings), 'up').deviation).toBeCloseTo(2, 6);
  });
  test('repeats that spread beyond 2.8 s are named, closer ones are not', () => {
    expect(answerOf(twice('width.ahead', 1.1)).spreads).toEqual([]);
    expect(answerOf(twice('width.ahead', 1.2)).spreads).toMatchObject([
      { id: 'width.ahead', spread: expect.closeTo(1.2, 9) },
    ]);
  });
  test('tilts that fall to both sides of zero average to the middle', () => {
    const readings = [
      ...whole.readings.filter((each) => each.id !== 'fixture.pitch'),
      ...(['towardCar', 'awayFromCar'] as const).map((direction) => ({
        ref: direction,
        id: 'fixture.pitch',
        purpose: 'proof' as const,
        value: 0.002,
        direction,
        carSetUp: 1,
        fixtureSetUp: 1,
      })),
    ];
    expect(coordinateOf(answerOf({ ...whole, readings }), 'pitch').deviation).toBeCloseTo(0, 9);
  });
  test('a control that differs by more than repeatability explains is told, one that agrees goes on', () => {
    const slides = { west: { towardCarLeft: 550, sag: 0 }, east: { towardCarLeft: -550, sag: 0 } };
    const input = inputOf({ ...SQUARE, slides }, [CENTRE, ...SLIDES]);
    expect(answerOf(input).controls).toMatchObject([{ id: 'bar.sameL!control', agrees: true }]);
    const bumped = {
      ...input,
      readings: input.readings.map((each) =>
        each.purpose === 'control' ? { ...each, value: each.value + 3 } : each,
      ),
    };
    expect(answerOf(bumped).controls).toMatchObject([{ agrees: false, differenceMm: expect.closeTo(3, 9) }]);
    expect(answerOf(bumped).nextAction.wordKey).toBe('next.control');
  });
});
