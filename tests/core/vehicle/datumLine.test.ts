import { describe, expect, test } from 'vitest';
import { zeroMatrix } from '../../../core/linalg/matrix.ts';
import { radFromDeg } from '../../../core/units.ts';
import {
  centrelineFromHubs,
  type DatumLine,
  lineFromRearAxle,
  sideKnowledge,
  thrustLineFromHeadings,
} from '../../../core/vehicle/datumLine.ts';
import { independentPlaces, jointInputs, type KnownPlaces } from '../../../core/vehicle/knownPlaces.ts';

type Four = 'FL' | 'FR' | 'RL' | 'RR';
const FOUR = ['FL', 'FR', 'RL', 'RR'] as const;

/** Hubs of a car with a wheelbase of 2600 and tracks of 1500, turned by `degrees`, each known to uX and uY. */
function hubs(degrees = 0, uX = 1, uY = 1, dof?: number): KnownPlaces<Four> {
  const [c, s] = [Math.cos(radFromDeg(degrees)), Math.sin(radFromDeg(degrees))];
  const at = (ahead: number, left: number) => ({
    xMm: 1000 + c * ahead - s * left,
    yMm: 500 + s * ahead + c * left,
    uXMm: uX,
    uYMm: uY,
  });
  return independentPlaces(
    FOUR,
    { FL: at(2600, 750), FR: at(2600, -750), RL: at(0, 750), RR: at(0, -750) },
    dof,
  );
}

const rear = (places: KnownPlaces<Four>): KnownPlaces<'RL' | 'RR'> => ({
  ids: ['RL', 'RR'],
  places: places.places,
  covariance: { rows: 4, columns: 4, data: block(places.covariance.data) },
  dof: places.dof,
});
/** The rear hubs' block of an 8 by 8 covariance. */
function block(data: Float64Array): Float64Array {
  return Float64Array.from({ length: 16 }, (_, k) => data[(4 + Math.floor(k / 4)) * 8 + 4 + (k % 4)] ?? 0);
}

const line = (found: ReturnType<typeof centrelineFromHubs>): DatumLine => {
  if (!found.ok) throw new Error(found.error.code);
  return found.value;
};

describe('the centreline from four hub drops', () => {
  test('by hand: 1 mm across at each hub is 0.272 mrad of direction and 0.707 mm at the origin', () => {
    const found = line(centrelineFromHubs(hubs()));
    expect(found.headingRad).toBeCloseTo(0, 12);
    expect(found.origin).toEqual({ xMm: 1000, yMm: 500 });
    // Midpoints: 1 / sqrt 2 each; direction: their difference, 1 mm, over 2600.
    expect(found.heading.u).toBeCloseTo(1 / 2600, 9);
    expect(found.originAcross.u).toBeCloseTo(Math.SQRT1_2, 9);
  });

  test('carried 5 m ahead: the rear midpoint counts (1 - a / L), the front one a / L', () => {
    const found = sideKnowledge(line(centrelineFromHubs(hubs())), 5000);
    const share = 5000 / 2600;
    expect(found.u).toBeCloseTo(Math.SQRT1_2 * Math.hypot(1 - share, share), 6);
    expect(found.k).toBeCloseTo(2, 4);
    expect(found.U).toBeCloseTo(2 * found.u, 4);
    // The parts meet with a negative covariance: a rear hub read too far left turns the line to the right.
    expect(found.u).toBeLessThan(Math.hypot(found.fromOriginMm, found.fromHeadingMm));
    expect(sideKnowledge(line(centrelineFromHubs(hubs())), 0).u).toBeCloseTo(found.fromOriginMm, 9);
  });

  test('turned to any heading, also across half a turn, u is the same', () => {
    const straight = sideKnowledge(line(centrelineFromHubs(hubs(0))), 5000).u;
    for (const degrees of [37, 90, 179.9999, 180, -120]) {
      const found = line(centrelineFromHubs(hubs(degrees)));
      expect(Math.abs(Math.sin(found.headingRad - radFromDeg(degrees)))).toBeLessThan(1e-9);
      expect(sideKnowledge(found, 5000).u).toBeCloseTo(straight, 6);
    }
  });

  test('few degrees of freedom widen U; the share of each coordinate is told', () => {
    const found = line(centrelineFromHubs(hubs(0, 1, 1, 4)));
    // Eight inputs of 4 dof; four of them turn the line, alike: 16 dof.
    expect(found.heading.dof).toBeCloseTo(16, 6);
    expect(found.heading.k).toBeGreaterThan(2.1);
    const shares = found.heading.lines
      .filter((l) => l.share > 1e-9)
      .map((l) => [l.input.id, l.share.toFixed(3)]);
    expect(shares.sort()).toEqual([
      ['FL.y', '0.250'],
      ['FR.y', '0.250'],
      ['RL.y', '0.250'],
      ['RR.y', '0.250'],
    ]);
  });

  test('an error that all four hubs share shifts the line and does not turn it', () => {
    const n = 8;
    const covariance = zeroMatrix(n, n);
    for (const i of [1, 3, 5, 7]) for (const j of [1, 3, 5, 7]) covariance.data[i * n + j] = 4;
    const found = line(centrelineFromHubs({ ...hubs(), covariance }));
    expect(found.heading.u).toBeCloseTo(0, 6);
    expect(found.originAcross.u).toBeCloseTo(2, 6);
  });

  test('front and rear at one place is no line', () => {
    const { FL, FR } = hubs().places;
    expect(centrelineFromHubs({ ...hubs(), places: { FL, FR, RL: FL, RR: FR } })).toEqual({
      ok: false,
      error: { code: 'vehicle/axlesCoincide' },
    });
  });
});

describe('the rear axle alone', () => {
  test('square to the axle: 1 mm along at each hub over the track, 4.7 mm of u at 5 m', () => {
    const found = line(lineFromRearAxle(rear(hubs()), 0));
    expect(found.headingRad).toBeCloseTo(0, 12);
    expect(found.heading.u).toBeCloseTo(Math.SQRT2 / 1500, 9);
    const ahead = sideKnowledge(found, 5000);
    expect(ahead.u).toBeCloseTo(Math.hypot(Math.SQRT1_2, (5000 * Math.SQRT2) / 1500), 6);
    expect(ahead.U).toBeGreaterThan(9.4);
  });

  test('it points ahead for any heading of the car', () => {
    for (const degrees of [0, 45, 135, -100]) {
      const found = line(lineFromRearAxle(rear(hubs(degrees)), 0));
      expect(Math.abs(found.headingRad - radFromDeg(degrees))).toBeLessThan(1e-9);
    }
  });

  test('an axle that may stand 2 mm off square over its track adds 1.33 mrad that no reading removes', () => {
    const perfect = line(lineFromRearAxle(rear(hubs(0, 0, 0)), 2 / 1500));
    expect(perfect.heading.u).toBeCloseTo(2 / 1500, 12);
    expect(sideKnowledge(perfect, 5000).u).toBeCloseTo(10000 / 1500, 9);
    expect(perfect.heading.lines[0]?.input.label).toBe('rear axle square to the car');
  });

  test('two hubs at one place are no axle', () => {
    const { RL } = hubs().places;
    const same = { ...rear(hubs()), places: { RL, RR: RL } };
    for (const found of [
      lineFromRearAxle(same, 0),
      thrustLineFromHeadings(same, { headingRad: 0, uRad: 0, dof: 9 }),
    ]) {
      expect(found).toEqual({ ok: false, error: { code: 'vehicle/axleTooShort', lengthMm: 0 } });
    }
  });
});

describe('the thrust line from headings', () => {
  test('origin from the drops, direction from the wheels', () => {
    const heading = { headingRad: 0.002, uRad: 0.0005, dof: 20 };
    const found = line(thrustLineFromHeadings(rear(hubs()), heading));
    expect(found.headingRad).toBeCloseTo(0.002, 12);
    expect(found.heading.u).toBeCloseTo(0.0005, 12);
    expect(found.heading.dof).toBeCloseTo(20, 6);
    // 0.5 mrad at 5 m is 2.5 mm, with 0.707 mm of the origin.
    expect(sideKnowledge(found, 5000).u).toBeCloseTo(Math.hypot(2.5, Math.SQRT1_2), 5);
  });
});

describe('places known together', () => {
  test('a full correlation that rounding carries past one is one', () => {
    const covariance = { rows: 2, columns: 2, data: Float64Array.from([1, 1 + 1e-15, 1 + 1e-15, 1]) };
    expect(jointInputs(['a', 'b'], [0, 0], covariance, 5).correlations).toEqual([
      { between: ['a', 'b'], r: 1 },
    ]);
    const negative = { rows: 1, columns: 1, data: Float64Array.from([-1]) };
    expect(() => jointInputs(['a'], [0], negative, 5)).toThrow(/not negative/);
  });
});
