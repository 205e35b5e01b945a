/**
 * The stated u against the scatter of simulated readings: each reading is drawn with its own u, the result computed with no u
 * at all, and the spread of many results is held against what was stated. N results know a spread to 1 / sqrt(2 N); five of
 * these is the limit. Seeded.
 */
import { describe, expect, test } from 'vitest';
import { atWheels } from '../../../core/bay/wheels.ts';
import { rotationMatrix, yawPitchRoll } from '../../../core/geometry/rotation.ts';
import { multiply, transpose } from '../../../core/linalg/matrix.ts';
import { randomFrom } from '../../../core/uncertainty/random.ts';
import { standardNormal } from '../../../core/uncertainty/sampler.ts';
import { standardDeviation } from '../../../core/uncertainty/typeA.ts';
import { centrelineFromBodyMarks } from '../../../core/vehicle/bodyMarks.ts';
import {
  centrelineFromHubs,
  type DatumLine,
  lineFromRearAxle,
  sideKnowledge,
} from '../../../core/vehicle/datumLine.ts';
import { type FixtureSettingInput, fixtureSetting } from '../../../core/vehicle/fixtureSetting.ts';
import { pointFromVehicle, vehicleFrame } from '../../../core/vehicle/frame.ts';
import { independentPlaces } from '../../../core/vehicle/knownPlaces.ts';

const limitOf = (trials: number): number => 5 / Math.sqrt(2 * trials);

const IDS = ['FL', 'FR', 'RL', 'RR'] as const;
const PLACES = { FL: [2600, 800], FR: [2610, -740], RL: [5, 730], RR: [-5, -760] } as const;
const U = { FL: [0.9, 1.2], FR: [1.1, 0.8], RL: [1.3, 0.7], RR: [0.8, 1.4] } as const;

/** Hubs as read: displaced by `noise` times their u, and stated with `stated` times it. */
function hubs(noise: () => number, stated: number) {
  const at = (id: (typeof IDS)[number]) => ({
    xMm: PLACES[id][0] + noise() * U[id][0],
    yMm: PLACES[id][1] + noise() * U[id][1],
    uXMm: stated * U[id][0],
    uYMm: stated * U[id][1],
  });
  return independentPlaces(IDS, { FL: at('FL'), FR: at('FR'), RL: at('RL'), RR: at('RR') });
}

const MARKS = atWheels((id) => ({ aheadMm: PLACES[id][0], leftMm: PLACES[id][1], uMm: 0 }));

function must<T>(result: { readonly ok: true; readonly value: T } | { readonly ok: false }): T {
  if (!result.ok) throw new Error('the layout is sound');
  return result.value;
}

const rearOf = (places: ReturnType<typeof hubs>) => {
  const rear = { RL: places.places.RL, RR: places.places.RR };
  const uOf = (id: 'RL' | 'RR') => {
    const i = 2 * IDS.indexOf(id);
    return {
      uXMm: Math.sqrt(places.covariance.data[9 * i] ?? 0),
      uYMm: Math.sqrt(places.covariance.data[9 * i + 9] ?? 0),
    };
  };
  return independentPlaces(['RL', 'RR'], {
    RL: { ...rear.RL, ...uOf('RL') },
    RR: { ...rear.RR, ...uOf('RR') },
  });
};

describe('stated u against simulated scatter', () => {
  // Body marks need a covariance to weigh by: they keep their stated one in every trial.
  test.each([
    ['hubs', 0, (p: ReturnType<typeof hubs>): DatumLine => must(centrelineFromHubs(p))],
    ['rear axle', 0, (p: ReturnType<typeof hubs>): DatumLine => must(lineFromRearAxle(rearOf(p), 0))],
    [
      'body marks',
      1,
      (p: ReturnType<typeof hubs>): DatumLine => must(centrelineFromBodyMarks(p, MARKS)).line,
    ],
  ] as const)('side position 5 m ahead, from %s', (_, stated, lineOf) => {
    const normal = standardNormal(randomFrom(20261127));
    const sides = Array.from({ length: 1500 }, () => {
      const { origin, headingRad } = lineOf(hubs(normal, stated));
      return origin.yMm + (5000 - origin.xMm) * Math.tan(headingRad);
    });
    const u = sideKnowledge(lineOf(hubs(() => 0, 1)), 5000).u;
    expect(Math.abs(standardDeviation(sides) / u - 1)).toBeLessThan(limitOf(1500));
  });

  test("the fixture's number and its lean, heights, tilt and zero drawn together", () => {
    const normal = standardNormal(randomFrom(20261128));
    const input = (noise: () => number, stated: number): FixtureSettingInput => {
      const [tiltX, tiltY] = [2e-4 * noise(), 2e-4 * noise()];
      const at = (xMm: number, yMm: number) => ({
        xMm,
        yMm,
        zMm: -0.004 * xMm + 0.002 * yMm + 0.5 * noise() + tiltX * xMm + tiltY * yMm,
        uMm: 0.5 * stated,
      });
      return {
        hubs: atWheels((id) => [PLACES[id][0], PLACES[id][1], 300 - 0.004 * PLACES[id][0]] as const),
        contacts: atWheels((id) => at(PLACES[id][0], PLACES[id][1])),
        foot: at(5200, 300),
        uTilt: 2e-4 * stated,
        required: { aheadMm: 5200, leftMm: 300, upMm: 1200, yawRad: Math.PI, pitchRad: 0, rollRad: 0 },
        zeroAboveFootMm: 200 + 0.3 * noise(),
        uZeroMm: 0.3 * stated,
      };
    };
    const stated = must(fixtureSetting(input(() => 0, 1)));
    // Worked anew from the drawn heights, by the frame alone.
    const trials = Array.from({ length: 4000 }, () => {
      const { hubs: centres, contacts, foot, zeroAboveFootMm, required } = input(normal, 0);
      const floor = atWheels((id) => [contacts[id].xMm, contacts[id].yMm, contacts[id].zMm] as const);
      const frame = must(vehicleFrame(centres, floor));
      const centre = pointFromVehicle(frame, [required.aheadMm, required.leftMm, required.upMm]);
      const face = yawPitchRoll(multiply(transpose(frame.axes), rotationMatrix(required)));
      return [centre[2] - foot.zMm - zeroAboveFootMm, face.pitchRad] as const;
    });
    const spread = (k: 0 | 1): number => standardDeviation(trials.map((t) => t[k]));
    expect(Math.abs(spread(0) / stated.scale.u - 1)).toBeLessThan(limitOf(4000));
    expect(Math.abs(spread(1) / stated.pitch.u - 1)).toBeLessThan(limitOf(4000));
  });
});
