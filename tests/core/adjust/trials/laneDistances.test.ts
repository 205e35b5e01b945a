/** Second derivatives of distances on lanes, against differences of their pulls. */
import { describe, expect, test } from 'vitest';
import { prepare } from '../../../../core/adjust/problem.ts';
import { LaneDistances } from '../../../../core/adjust/trials/laneDistances.ts';
import { LANES, LaneState } from '../../../../core/adjust/trials/laneState.ts';
import { randomFrom } from '../../../../core/uncertainty/random.ts';
import { demoNetwork } from '../../../bench/demoNetwork.ts';

/** Two free points of the demo network, with its tape's scale and zero. */
function between(upright: 0 | 1) {
  const prepared = prepare(demoNetwork());
  if (!prepared.ok) throw new Error(prepared.error.code);
  const { layout } = prepared.value;
  const state = new LaneState(layout);
  const place = (id: string) => state.place(layout.placeById.get(id) ?? -1);
  const shared = [...layout.sharedById.values()].map((slot) => slot * LANES);
  const [scale = -1, zero = -1] = shared;
  const one = { row: 0, from: place('mark.FL'), to: place('ahead.L'), scale, zero, upright };
  const { uniform } = randomFrom(17);
  for (let i = 0; i < LANES; i++) {
    state.numbers[one.from.x + i] = 10 * uniform();
    state.numbers[one.from.y + i] = 10 * uniform();
    state.numbers[one.from.z + i] = 10 * uniform();
    state.numbers[one.to.x + i] = 900 + 50 * uniform();
    state.numbers[one.to.y + i] = 300 + 50 * uniform();
    state.numbers[one.to.z + i] = 200 + 50 * uniform();
    state.numbers[scale + i] = 1e-3 * uniform();
    state.numbers[zero + i] = uniform();
  }
  const says = { observed: new Float64Array(LANES).fill(1010), weight: Float64Array.of(1.7) };
  const numbers = [one.from.x, one.from.y, one.from.z, one.to.x, one.to.y, one.to.z, scale, zero];
  return { state, says, numbers, distances: new LaneDistances([one]) };
}

describe('second derivatives of half the weighted square of a distance', () => {
  test.each([0, 1] as const)('upright %i: all of them are the differences of the pulls', (upright) => {
    const { state, says, numbers, distances } = between(upright);
    distances.write(state, says, true);
    const kept = distances.second.slice();
    const pullAt = (number: number, by: number): Float64Array => {
      for (let i = 0; i < LANES; i++) state.numbers[number + i] = (state.numbers[number + i] ?? 0) + by;
      state.pull.fill(0);
      distances.write(state, says, false);
      for (let i = 0; i < LANES; i++) state.numbers[number + i] = (state.numbers[number + i] ?? 0) - by;
      return state.pull.slice();
    };
    const elements = distances.elements();
    // Eight numbers meet in 36 pairs.
    expect(elements).toHaveLength(36);
    expect(new Set(elements.map(({ number, other }) => [number, other].sort().join())).size).toBe(36);
    for (const number of numbers) {
      const by = number === numbers[6] ? 1e-6 : 1e-3;
      const [more, less] = [pullAt(number, by), pullAt(number, -by)];
      for (const { number: one, other, from, sign } of elements) {
        const partner = one === number ? other : other === number ? one : -1;
        if (partner < 0) continue;
        for (let i = 0; i < LANES; i++) {
          const expected = ((less[partner + i] ?? 0) - (more[partner + i] ?? 0)) / (2 * by);
          const found = sign * (kept[from * LANES + i] ?? Number.NaN);
          expect(Math.abs(found - expected)).toBeLessThan(1e-6 * (1 + Math.abs(expected)));
        }
      }
    }
  });

  test('a distance to a point of a body does not turn', () => {
    const { distances } = between(1);
    const [one] = distances.all;
    if (one === undefined) throw new Error('one distance');
    const onBody = new LaneDistances([{ ...one, to: { ...one.to, ofBody: true } }]);
    expect(onBody.elements()).toEqual([]);
    expect([...onBody.turningRows()]).toEqual([]);
    expect([...distances.turningRows()]).toEqual([0]);
  });
});
