/** A circle about the required point: verdict with the whole covariance, words, numbers, procedure. */
import { describe, expect, test } from 'vitest';
import { placementNumbers } from '../../../core/certificate/numbers.ts';
import type { RadialFinding } from '../../../core/placement/finding.ts';
import { judgeWithinCircle } from '../../../core/placement/judge.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import { probabilityWithinCircle } from '../../../core/uncertainty/conformity.ts';
import { answerOf, coordinateOf, stationOf } from './answers.ts';
import { CENTRE, inputOf, SLIDES, SQUARE } from './trueLayout.ts';

const judged = (x: number, y: number, uX: number, uY: number, r = 0, consistent = true) =>
  judgeWithinCircle({ found: { x, y, uX, uY, r }, radiusMm: 10, rule: 'guarded', consistent });

describe('the verdict on a distance within a plane', () => {
  test('of round u: 6 and 3 mm off are 6.71 mm, and 1.645 times 2 mm more are just beyond 10', () => {
    // The root of 45 is 6.708; 10 less 3.29 is 6.71. A circle curves away, so the integral decides so near the edge.
    expect(Math.hypot(6, 3) + 1.645 * 2).toBeCloseTo(9.998, 3);
    const edge = judged(6, 3, 2, 2);
    expect(edge.verdict).toBe(
      probabilityWithinCircle({ x: 6, y: 3, uX: 2, uY: 2 }, 10) >= 0.95 ? 'proven' : 'within',
    );
    expect(judged(5, 3, 2, 2).verdict).toBe('proven');
    expect(judged(8, 5, 2, 2).verdict).toBe('within');
    expect(judged(8.5, 6, 2, 2).verdict).toBe('beyond');
    expect(judged(12, 8, 2, 2).verdict).toBe('outside');
  });
  test('takes u along the deviation: long in x, short in y', () => {
    expect(judged(0, 7.9, 4, 0.5).u).toBeCloseTo(4, 9);
    // Farther out than twice the longer axis, the ellipse is looked at along the deviation.
    expect(judged(0, 9, 4, 0.5).u).toBeCloseTo(0.5, 9);
    expect(judged(9, 0, 4, 0.5).u).toBeCloseTo(4, 9);
  });
  test('a correlation turns the ellipse: r = 1 along (1, 1) leaves nothing across it', () => {
    const along = judged(4, 4, 2, 2, 1);
    const across = judged(4, -4, 2, 2, 1);
    expect(along.u).toBeCloseTo(2 * Math.SQRT2, 9);
    expect(across.u).toBeCloseTo(0, 6);
    expect(across.probability ?? 0).toBeGreaterThan(along.probability ?? 1);
  });
  test('no deviation, round u: 1 - exp(-R^2 / 2 u^2)', () => {
    expect(judged(0, 0, 4, 4).probability).toBeCloseTo(1 - Math.exp(-100 / 32), 9);
  });
  test('while readings contradict each other nothing is proven', () => {
    expect(judged(1, 1, 1, 1, 0, false)).toEqual({ verdict: 'cannotBeJudged', u: 1 });
    expect(judged(30, 1, 1, 1, 0, false).verdict).toBe('outside');
  });
});

const free = <D extends { readonly permitted?: unknown }>({ permitted: _none, ...rest }: D) => rest;
const circled = (radiusMm: number, plane: 'aheadLeft' | 'leftUp' = 'aheadLeft'): StationRequirement => ({
  ...CENTRE,
  ahead: free(CENTRE.ahead),
  left: free(CENTRE.left),
  up: plane === 'leftUp' ? free(CENTRE.up) : CENTRE.up,
  radial: { plane, radiusMm, stated: true },
});
const off = (ahead: number, left: number, up = 0): PlacementAnswer['stations'][number] | undefined => {
  const target = { ...SQUARE.target, ahead: 5000 + ahead, left, up: 1350 + up };
  return stationOf(answerOf(inputOf({ ...SQUARE, target }, [circled(10)])));
};
const radialOf = (station: ReturnType<typeof off>): RadialFinding => {
  if (station?.radial === undefined) throw new Error('no circle');
  return station.radial;
};

describe('a station that permits a circle', () => {
  test('finds the distance from the required point and judges the two coordinates together', () => {
    const station = off(3, -4);
    const found = radialOf(station);
    expect(found.distanceMm).toBeCloseTo(5, 6);
    expect(found.deviation[0]).toBeCloseTo(3, 6);
    expect(found.deviation[1]).toBeCloseTo(-4, 6);
    expect(station?.coordinates.find((each) => each.coordinate === 'left')?.verdict).toBe('notJudged');
    expect(found.k).toBeGreaterThan(1.95);
    expect(found.U).toBeCloseTo(found.k * found.u, 12);
    expect(found.shares.reduce((sum, each) => sum + each.share, 0)).toBeCloseTo(1, 6);
  });
  test('uses the covariance between them, as the pose has it', () => {
    const station = off(0, 0);
    const found = radialOf(station);
    const [aa, al, ll] = [0, 1, 2].map((i) => station?.covariance[i === 2 ? 1 : 0]?.[i === 0 ? 0 : 1] ?? 0);
    // At no deviation u is the longer axis of the ellipse.
    const mean = ((aa ?? 0) + (ll ?? 0)) / 2;
    const longer = mean + Math.hypot(((aa ?? 0) - (ll ?? 0)) / 2, al ?? 0);
    expect(found.u).toBeCloseTo(Math.sqrt(longer), 6);
  });
  test('decides the worst of the station, and a move is asked for', () => {
    expect(off(3, -4)?.worst).toBe(radialOf(off(3, -4)).verdict);
    const far = { ...SQUARE, target: { ...SQUARE.target, ahead: 5020, left: 0 } };
    const answer = answerOf(inputOf(far, [circled(10)]));
    expect(stationOf(answer).worst).toBe('outside');
    expect(answer.moves.map((move) => move.kind)).toEqual(['roll']);
  });
  test('a circle of 1 mm cannot be judged, and the reading that puts most into it is asked for', () => {
    const answer = answerOf(inputOf(SQUARE, [circled(1)]));
    expect(stationOf(answer).radial?.verdict).toBe('cannotBeJudged');
    expect(answer.nextAction.wordKey).toBe('next.betterReading');
  });
  test('seen along the car it takes side and height', () => {
    const target = { ...SQUARE.target, left: 4, up: 1353, ahead: 5050 };
    const station = circled(10, 'leftUp');
    const found = stationOf(answerOf(inputOf({ ...SQUARE, target }, [station]))).radial;
    expect(found?.deviation.map((each) => each.toFixed(3))).toEqual(['4.000', '3.000']);
    expect(found?.distanceMm).toBeCloseTo(5, 6);
  });
  test('slides carry their own circle, and stations without one have none', () => {
    const slides = { west: { towardCarLeft: 553, sag: 4 } };
    const stations = [
      CENTRE,
      ...SLIDES.map((each) => ({ ...each, radial: circled(10, 'leftUp').radial })),
    ].map((each) => each as StationRequirement);
    const answer = answerOf(inputOf({ ...SQUARE, slides }, stations));
    expect(stationOf(answer, 'west').radial?.distanceMm).toBeCloseTo(5, 1);
    expect(stationOf(answer).radial).toBeUndefined();
    expect(coordinateOf(answer, 'left').verdict).toBe('proven');
  });
  test('prints its numbers: distance, U, k, limit, probability', () => {
    const answer = answerOf(
      inputOf({ ...SQUARE, target: { ...SQUARE.target, ahead: 5003, left: -4 } }, [circled(10)]),
    );
    const numbers = placementNumbers('camera', answer).filter((each) => each.id.includes('.radial.'));
    const byId = new Map(numbers.map((each) => [each.id, each.value]));
    expect([...byId.keys()].map((id) => id.replace('camera.centre.radial.', ''))).toEqual([
      'required',
      'found',
      'deviation',
      'U',
      'k',
      'upper',
      'probability',
    ]);
    expect(byId.get('camera.centre.radial.found')).toBeCloseTo(5, 6);
    expect(byId.get('camera.centre.radial.upper')).toBe(10);
  });
});
