/**
 * Does the covariance say the truth? A few hundred bays are built with real errors (marks beside their points, arms and bar
 * of another length, a stretched tape, readings off), each is solved, and the spread of the answers is held against the
 * uncertainty every answer claims. Seeded; the errors are drawn by physics, not by the solver's rows.
 */
import { beforeAll, describe, expect, test } from 'vitest';
import { lineExtensionU } from '../../../core/placement/carNetwork.ts';
import { defaultUncertainties, splitTapeClass } from '../../../core/placement/defaults.ts';
import type { PlacementEquipment } from '../../../core/placement/equipment.ts';
import { type Errors, type TrueLayout, trueReadings } from '../../../core/rehearsal/trueBay.ts';
import { answerOf, deviationsOf, stationOf } from './answers.ts';
import { asReadings, EQUIPMENT, inputOf, SQUARE } from './trueLayout.ts';

/** Park and Miller's minimal generator with Box and Muller: small, seeded, good enough for spreads. */
function normals(seed: number): () => number {
  let state = seed;
  const uniform = (): number => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

const SEED = 20261125;
const RUNS = 400;
const layout: TrueLayout = {
  ...SQUARE,
  floorSlope: [0.004, -0.006],
  hubs: { FL: [2652, 782, 318], FR: [2648, -782, 318], RL: [2, 772, 316], RR: [-2, -772, 316] },
  target: { ...SQUARE.target, ahead: 5006, left: -9, yaw: SQUARE.target.yaw + 0.006, pitch: 0.004 },
};
const work = defaultUncertainties.byWork.careful;

/** One bay with its errors, as readings. */
function draw(normal: () => number) {
  const { scale } = splitTapeClass('II', 1000);
  const stretched = scale * normal();
  const drop = Math.hypot(work.hubCentreMm, work.plumbMm, work.markMm);
  const bob = Math.hypot(work.plumbMm, work.markMm);
  const step = 1 / Math.sqrt(12);
  const errors: Errors = {
    beside: (point) => {
      if (point.startsWith('mark.')) return [drop * normal(), drop * normal()];
      if (point.startsWith('barMark.')) return [bob * normal(), bob * normal()];
      return [0, lineExtensionU(work, 2650, 1000) * normal()];
    },
    read: (key, value) => {
      if (key.startsWith('floor.')) return value + defaultUncertainties.staffMm * normal();
      if (key.startsWith('drop.')) return value + defaultUncertainties.hubHeightMm * normal();
      if (key === 'target.height') {
        const { ownMm, scale: own } = splitTapeClass('II', value);
        return value + Math.hypot(ownMm, own * value, work.heightSetMm, work.tapeRepeatMm, step) * normal();
      }
      if (key.startsWith('fixture.')) return value + work.inclinometerRad * normal();
      if (key.startsWith('toe.')) return value;
      const { ownMm } = splitTapeClass('II', value);
      return value * (1 + stretched) + Math.hypot(ownMm, work.tapeSetMm, work.tapeRepeatMm, step) * normal();
    },
  };
  const armLeft = layout.armLeft + EQUIPMENT.sideArms.left.uMm * normal();
  const armRight = layout.armRight + EQUIPMENT.sideArms.right.uMm * normal();
  const { barLength, face } = EQUIPMENT.fixture;
  const truly: PlacementEquipment = {
    ...EQUIPMENT,
    fixture: {
      barLength: { mm: barLength.mm + barLength.uMm * normal(), uMm: 0 },
      face: {
        ...face,
        outMm: face.outMm + face.uMm * normal(),
        // The centre mark halves the bar within half of its length's u, which moves the target along the bar.
        acrossMm: face.acrossMm + Math.hypot(face.uMm, barLength.uMm / 2) * normal(),
        upMm: face.upMm + face.uMm * normal(),
      },
    },
  };
  return asReadings(trueReadings({ ...layout, armLeft, armRight }, truly, 'ahead', errors));
}

describe('a few hundred bays with real errors', () => {
  const normal = normals(SEED);
  const base = inputOf(layout);
  const truth = deviationsOf(answerOf(base));
  const coordinates = ['ahead', 'left', 'up', 'yaw', 'pitch', 'roll'] as const;
  const errorsOf: Record<string, number[]> = {};
  const claimed: Record<string, number> = {};
  let chiSquares = 0;
  let rejected = 0;
  let joint = 0;
  beforeAll(() => {
    for (let run = 0; run < RUNS; run++) {
      const answer = answerOf({ ...base, readings: draw(normal) });
      const found = deviationsOf(answer);
      chiSquares += answer.globalTest?.chiSquare ?? 0;
      if (answer.globalTest?.passed === false) rejected += 1;
      for (const each of stationOf(answer).coordinates) {
        const list = errorsOf[each.coordinate] ?? [];
        list.push(found[each.coordinate] - truth[each.coordinate]);
        errorsOf[each.coordinate] = list;
        claimed[each.coordinate] = each.u;
      }
      const cov = stationOf(answer).covariance;
      const [a, l] = [found.ahead - truth.ahead, found.left - truth.left];
      const [[aa = 1, al = 0] = [], [, ll = 1] = []] = cov;
      joint += (ll * a * a - 2 * al * a * l + aa * l * l) / (aa * ll - al * al);
    }
  }, 120_000);

  test.each(coordinates)('the spread of %s is its u within 10 percent', (coordinate) => {
    const list = errorsOf[coordinate] ?? [];
    expect(list).toHaveLength(RUNS);
    const spread = Math.sqrt(list.reduce((sum, each) => sum + each * each, 0) / list.length);
    // The relative standard deviation of a spread of 400 is 1 / root 800 = 3.5 percent.
    expect(spread / (claimed[coordinate] ?? 0)).toBeGreaterThan(0.9);
    expect(spread / (claimed[coordinate] ?? 0)).toBeLessThan(1.1);
  });

  // Six coordinates at once: four standard errors leave a false alarm of 1 in 2600 seeds, a bias of 0.2 u still shows.
  test.each(coordinates)('the mean error of %s is nothing within four standard errors', (coordinate) => {
    const list = errorsOf[coordinate] ?? [];
    const mean = list.reduce((sum, each) => sum + each, 0) / list.length;
    expect(Math.abs(mean)).toBeLessThan((4 * (claimed[coordinate] ?? 0)) / Math.sqrt(RUNS));
  });

  test('ahead and left together follow a chi-square of two degrees of freedom', () => {
    // Mean 2, standard deviation of the mean 2 / root 400 = 0.1.
    expect(joint / RUNS).toBeGreaterThan(1.7);
    expect(joint / RUNS).toBeLessThan(2.3);
  });

  test('the global test has the chi-square it should have, and rejects about as often as it says', () => {
    const dof = answerOf(base).globalTest?.dof ?? 0;
    expect(dof).toBeGreaterThan(0);
    const sigma = Math.sqrt((2 * dof) / RUNS);
    expect(Math.abs(chiSquares / RUNS - dof)).toBeLessThan(3.5 * sigma);
    expect(rejected).toBeLessThan(RUNS * 0.1);
  });
});
