import { describe, expect, test } from 'vitest';
import { COORDINATES } from '../../../core/frames.ts';
import type { CoordinateFinding } from '../../../core/placement/finding.ts';
import { invariant } from '../../../core/result.ts';
import { wordFaults } from '../../../core/words/index.ts';
import { placementView } from '../../../renderer/state/placementView.ts';
import { coordinateWords, deviationOf, probabilityText } from '../../../renderer/text/coordinateWords.ts';
import { barPlaces } from '../../../renderer/ui/toleranceScale.ts';
import { cameraOf, heldAfter, movedIndex, script } from '../demoHeld.ts';

function stationAfter(count: number) {
  const held = heldAfter(count);
  const view = placementView(held.job, cameraOf(held));
  invariant(view.answer.ok, 'the demo job is solved');
  const station = view.answer.value.stations[0];
  invariant(station !== undefined, 'it has a station');
  return { station, rule: held.job.decisionRule };
}

const before = stationAfter(movedIndex);
const after = stationAfter(script.steps.length);

const wordsOf = ({ station, rule }: typeof before) =>
  station.coordinates.map((finding) => ({
    finding,
    words: coordinateWords(finding, station, 'ahead', rule),
  }));

/** A finding of the demo job with another deviation. */
function deviating(coordinate: CoordinateFinding['coordinate'], deviation: number) {
  const finding = before.station.coordinates.find((each) => each.coordinate === coordinate);
  invariant(finding !== undefined, coordinate);
  return coordinateWords({ ...finding, deviation }, before.station, 'ahead', 'guarded').words;
}

describe('a card', () => {
  test('stands for each of the six coordinates, and none shows a sign or a banned word', () => {
    for (const state of [before, after]) {
      const all = wordsOf(state);
      expect(all.map(({ finding }) => finding.coordinate)).toEqual([...COORDINATES]);
      for (const { words } of all) {
        for (const text of [
          words.title,
          words.words,
          words.uncertainty,
          words.verdictWords,
          words.probability,
        ]) {
          expect(wordFaults(text), text).toEqual([]);
        }
      }
    }
  });

  test.each([
    ['ahead', 4, '4.0 mm away from the car'],
    ['ahead', -4, '4.0 mm toward the car'],
    ['left', 2.25, "2.3 mm to the car's left"],
    ['left', -2.25, "2.3 mm to the car's right"],
    ['up', 1, '1.0 mm higher'],
    ['yaw', (0.21 * Math.PI) / 180, "turned 0.21°, car's-left end toward the car"],
    ['yaw', 2 * Math.PI - (0.21 * Math.PI) / 180, "turned 0.21°, car's-left end away from the car"],
    ['ahead', 0.04, 'where it must be'],
    ['pitch', 0, 'where it must be'],
  ] as const)('%s off by %f says %s', (coordinate, deviation, words) => {
    expect(deviating(coordinate, deviation)).toBe(words);
  });

  test('shows the rule: the box lies between the ticks exactly when the verdict is proven', () => {
    const judged = [...wordsOf(before), ...wordsOf(after)].filter(({ words }) => words.bar !== undefined);
    expect(new Set(judged.map(({ words }) => words.verdict)).size).toBeGreaterThan(1);
    for (const { finding, words } of judged) {
      invariant(words.bar !== undefined, 'filtered');
      const { bar } = words;
      const inside =
        bar.found - bar.boxHalfWidth >= (bar.lower ?? -Infinity) &&
        bar.found + bar.boxHalfWidth <= (bar.upper ?? Infinity);
      expect(inside, finding.coordinate).toBe(words.verdict === 'proven');
    }
  });

  test('an angle counts the short way round', () => {
    const yaw = before.station.coordinates.find((each) => each.coordinate === 'yaw');
    invariant(yaw !== undefined, 'yaw');
    expect(deviationOf({ ...yaw, deviation: 2 * Math.PI - 0.01 })).toBeCloseTo(-0.01, 12);
  });
});

test.each([
  [undefined, ''],
  [0.1067, '10.7 % conforming'],
  [0.9994, '99.9 % conforming'],
  [0.99951, 'over 99.9 % conforming'],
  [1, 'over 99.9 % conforming'],
])('probability %s reads "%s"', (probability, text) => {
  expect(probabilityText(probability)).toBe(text);
});

describe('the picture of the rule', () => {
  const bar = { lower: -5, upper: 5, found: 0, boxHalfWidth: 1, whiskerHalfWidth: 2 };

  test('is symmetric about what is required, and inside the scale', () => {
    const at = barPlaces(bar);
    expect(at.zero).toBe(0.5);
    expect(at.found).toBe(0.5);
    expect((at.lower ?? 0) + (at.upper ?? 0)).toBeCloseTo(1, 12);
    expect(at.boxTo - at.boxFrom).toBeCloseTo((at.whiskerTo - at.whiskerFrom) / 2, 12);
  });

  test('order on the scale is the order of the numbers', () => {
    const at = barPlaces({ ...bar, found: 4.5 });
    expect(at.boxFrom).toBeLessThan(at.upper ?? 0);
    expect(at.boxTo).toBeGreaterThan(at.upper ?? 1);
    expect(at.found).toBeLessThan(at.upper ?? 0);
  });

  test('what lies beyond the scale is drawn at its end and said to be so', () => {
    expect(barPlaces({ ...bar, found: 500 })).toMatchObject({ found: 1, boxTo: 1, beyond: true });
    expect(barPlaces({ ...bar, found: -500 })).toMatchObject({ found: 0, beyond: true });
    expect(barPlaces(bar).beyond).toBe(false);
  });

  test('one-sided limits and no limit have a scale too', () => {
    expect(barPlaces({ upper: 5, found: 0, boxHalfWidth: 1 }).lower).toBeUndefined();
    expect(barPlaces({ found: 3, boxHalfWidth: 1 }).found).toBeGreaterThan(0.5);
    expect(barPlaces({ found: 0, boxHalfWidth: 0 }).found).toBe(0.5);
  });
});
