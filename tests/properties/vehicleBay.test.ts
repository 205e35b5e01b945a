/**
 * What must hold for every floor, car and bay, tried on random ones. Seeded: a failure prints its counterexample and comes
 * back the same.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { contactPlane } from '../../core/bay/contactPlane.ts';
import { floorHeights } from '../../core/bay/floorSurface.ts';
import { spaceFit } from '../../core/bay/space/fit.ts';
import type { Polygon } from '../../core/bay/space/polygon.ts';
import { convexHull, polygonFault } from '../../core/bay/space/polygon.ts';
import type { SpacePart } from '../../core/bay/space/room.ts';
import { separation } from '../../core/bay/space/separation.ts';
import { largestGap } from '../../core/bay/straightedge.ts';
import {
  bestWeights,
  type KnownHeight,
  knownPlane,
  knownPlaneHeight,
  slopeToward,
} from '../../core/bay/weightedPlane.ts';
import { type AtWheels, atWheels } from '../../core/bay/wheels.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { wrapRad } from '../../core/units.ts';
import { bodyAttitude } from '../../core/vehicle/bodyAttitude.ts';
import { centrelineFromBodyMarks } from '../../core/vehicle/bodyMarks.ts';
import {
  centrelineFromHubs,
  type DatumLine,
  lineFromRearAxle,
  sideKnowledge,
} from '../../core/vehicle/datumLine.ts';
import { fixtureSetting } from '../../core/vehicle/fixtureSetting.ts';
import { independentPlaces, type PlanPlace } from '../../core/vehicle/knownPlaces.ts';
import { axleGeometry } from '../../core/vehicle/wheelGeometry.ts';

const SEED = 20261126;
const runs = (numRuns: number) => ({ seed: SEED, numRuns });

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const small = number(-15, 15);
const angle = number(-Math.PI, Math.PI);
const u = number(0.05, 3);

type Hub = PlanPlace & { readonly uXMm: number; readonly uYMm: number };
const IDS = ['FL', 'FR', 'RL', 'RR'] as const;

/** A car's hubs with errors in plan, each with the same u in all directions (so that turning the frame keeps it). */
const hubs = fc
  .tuple(
    number(2200, 3400),
    number(1350, 1750),
    fc.array(small, { minLength: 8, maxLength: 8 }),
    fc.array(u, { minLength: 4, maxLength: 4 }),
  )
  .map(([base, track, e, us]) =>
    atWheels(
      (_, i): Hub => ({
        xMm: (i < 2 ? base : 0) + (e[2 * i] ?? 0),
        yMm: (i % 2 === 0 ? track / 2 : -track / 2) + (e[2 * i + 1] ?? 0),
        uXMm: us[i] ?? 1,
        uYMm: us[i] ?? 1,
      }),
    ),
  );

const turned = (p: Hub, turn: number, dx: number, dy: number): Hub => ({
  ...p,
  xMm: dx + Math.cos(turn) * p.xMm - Math.sin(turn) * p.yMm,
  yMm: dy + Math.sin(turn) * p.xMm + Math.cos(turn) * p.yMm,
});
const each = <T, U>(four: AtWheels<T>, change: (value: T) => U): AtWheels<U> =>
  atWheels((wheel) => change(four[wheel]));
const mirror = <T>(four: AtWheels<T>, change: (value: T) => T): AtWheels<T> => ({
  FL: change(four.FR),
  FR: change(four.FL),
  RL: change(four.RR),
  RR: change(four.RL),
});

const MARKS = {
  FL: { aheadMm: 2700, leftMm: 750, uMm: 1 },
  FR: { aheadMm: 2700, leftMm: -750, uMm: 1 },
  RL: { aheadMm: 0, leftMm: 750, uMm: 1 },
  RR: { aheadMm: 0, leftMm: -750, uMm: 1 },
};

/** The three ways to a line that rest on places alone. */
const WAYS: Readonly<Record<string, (four: AtWheels<Hub>) => DatumLine>> = {
  hubs: (four) => unwrap(centrelineFromHubs(independentPlaces(IDS, four))),
  rearAxle: (four) => unwrap(lineFromRearAxle(independentPlaces(['RL', 'RR'], four), 0.001)),
  bodyMarks: (four) => unwrap(centrelineFromBodyMarks(independentPlaces(IDS, four), MARKS)).line,
};

function unwrap<T>(
  result:
    | { readonly ok: true; readonly value: T }
    | { readonly ok: false; readonly error: { readonly code: string } },
): T {
  if (!result.ok) throw new Error(result.error.code);
  return result.value;
}

describe.each(Object.keys(WAYS))('a datum line from %s', (way) => {
  const lineOf = (four: AtWheels<Hub>): DatumLine => {
    const make = WAYS[way];
    if (make === undefined) throw new Error(way);
    return make(four);
  };

  test('turns and shifts with the frame of its places; what is known of it stays', () => {
    fc.assert(
      fc.property(
        hubs,
        angle,
        number(-9000, 9000),
        number(-9000, 9000),
        number(0, 7000),
        (four, turn, dx, dy, ahead) => {
          const here = lineOf(four);
          const there = lineOf(each(four, (p) => turned(p, turn, dx, dy)));
          expect(wrapRad(there.headingRad - here.headingRad - turn)).toBeCloseTo(0, 8);
          const origin = turned({ ...here.origin, uXMm: 0, uYMm: 0 }, turn, dx, dy);
          expect(Math.hypot(there.origin.xMm - origin.xMm, there.origin.yMm - origin.yMm)).toBeLessThan(1e-6);
          const [a, b] = [sideKnowledge(here, ahead).u, sideKnowledge(there, ahead).u];
          expect(Math.abs(a - b)).toBeLessThan(1e-6 * a);
        },
      ),
      runs(60),
    );
  });

  test('mirrored places mirror the line', () => {
    fc.assert(
      fc.property(hubs, number(0, 7000), (four, ahead) => {
        const here = lineOf(four);
        const there = lineOf(mirror(four, (p) => ({ ...p, yMm: -p.yMm })));
        expect(there.headingRad).toBeCloseTo(-here.headingRad, 9);
        expect(there.origin.yMm).toBeCloseTo(-here.origin.yMm, 6);
        expect(there.origin.xMm).toBeCloseTo(here.origin.xMm, 6);
        expect(Math.abs(sideKnowledge(there, ahead).u / sideKnowledge(here, ahead).u - 1)).toBeLessThan(1e-6);
      }),
      runs(60),
    );
  });

  test('u is never negative nor missing, and better readings never raise it', () => {
    fc.assert(
      fc.property(hubs, number(-2000, 9000), number(0.1, 1), (four, ahead, share) => {
        const rough = sideKnowledge(lineOf(four), ahead);
        const better = each(four, (p) => ({ ...p, uXMm: share * p.uXMm, uYMm: share * p.uYMm }));
        const fine = sideKnowledge(lineOf(better), ahead);
        expect(rough.u).toBeGreaterThanOrEqual(0);
        expect(Number.isFinite(rough.U)).toBe(true);
        expect(fine.u).toBeLessThanOrEqual(rough.u * (1 + 1e-9));
      }),
      runs(60),
    );
  });
});

const place = fc.record({ xMm: number(0, 8000), yMm: number(0, 4000), zMm: small, uMm: u });
const heights = fc.array(place, { minLength: 4, maxLength: 25 });

describe('planes through heights', () => {
  test('a floor seen from another frame is the same floor with the same u', () => {
    fc.assert(
      fc.property(heights, angle, number(-9000, 9000), number(-50, 50), (list, turn, shift, lift) => {
        const moved = list.map((h): KnownHeight => {
          const p = turned({ ...h, uXMm: 0, uYMm: 0 }, turn, shift, -shift);
          return { xMm: p.xMm, yMm: p.yMm, zMm: h.zMm + lift, uMm: h.uMm };
        });
        const [here, there] = [list, moved].map((l) => knownPlane(l, bestWeights(l), 1e-4));
        if (here === undefined || there === undefined || !here.ok || !there.ok) {
          expect(here?.ok).toBe(there?.ok);
          return;
        }
        const [a, b] = [knownPlaneHeight(here.value, 0, 0), knownPlaneHeight(there.value, shift, -shift)];
        expect(b.value - lift).toBeCloseTo(a.value, 3);
        expect(Math.abs(b.u / a.u - 1)).toBeLessThan(1e-5);
        const [s, t] = [slopeToward(here.value, 0.3), slopeToward(there.value, 0.3 + turn)];
        expect(t.value).toBeCloseTo(s.value, 7);
        expect(Math.abs(t.u / s.u - 1)).toBeLessThan(1e-5);
      }),
      runs(100),
    );
  });

  test('one more height, however bad, never raises the u of the best plane anywhere', () => {
    fc.assert(
      fc.property(
        heights,
        place,
        number(-2000, 10000),
        number(-2000, 6000),
        angle,
        (list, extra, x, y, way) => {
          const more = [...list, extra];
          const [few, many] = [list, more].map((l) => knownPlane(l, bestWeights(l)));
          if (few === undefined || many === undefined || !few.ok || !many.ok) return;
          const slack = 1 + 1e-6;
          expect(knownPlaneHeight(many.value, x, y).u).toBeLessThanOrEqual(
            knownPlaneHeight(few.value, x, y).u * slack,
          );
          expect(slopeToward(many.value, way).u).toBeLessThanOrEqual(slopeToward(few.value, way).u * slack);
        },
      ),
      runs(150),
    );
  });

  test('the rock changes its sign in the mirror, and stays when the floor is tipped', () => {
    fc.assert(
      fc.property(
        hubs,
        fc.array(small, { minLength: 4, maxLength: 4 }),
        number(-0.02, 0.02),
        (four, zs, tip) => {
          const contacts = atWheels(
            (wheel, i): KnownHeight => ({
              xMm: four[wheel].xMm,
              yMm: four[wheel].yMm,
              zMm: zs[i] ?? 0,
              uMm: 0.4,
            }),
          );
          const here = unwrap(contactPlane(contacts));
          const tipped = unwrap(
            contactPlane(each(contacts, (c) => ({ ...c, zMm: c.zMm + tip * c.xMm - tip * c.yMm }))),
          );
          expect(tipped.rock.value).toBeCloseTo(here.rock.value, 6);
          expect(tipped.plane.slopeX - here.plane.slopeX).toBeCloseTo(tip, 9);
          const mirrored = unwrap(contactPlane(mirror(contacts, (c) => ({ ...c, yMm: -c.yMm }))));
          // The rock is told of the front left patch: in the mirror of the front right one, scaled by the corners' shares.
          expect(Math.sign(mirrored.rock.value) * Math.sign(here.rock.value)).toBeLessThanOrEqual(0);
          expect(mirrored.plane.slopeY).toBeCloseTo(-here.plane.slopeY, 9);
        },
      ),
      runs(100),
    );
  });

  test('the bilinear floor lies between the heights that were read', () => {
    fc.assert(
      fc.property(
        fc.array(small, { minLength: 9, maxLength: 9 }),
        number(0, 2000),
        number(0, 2000),
        (zs, xMm, yMm) => {
          const rows = [0, 1, 2].map((j) => zs.slice(3 * j, 3 * j + 3));
          const survey = {
            xsMm: [0, 1000, 2000],
            ysMm: [0, 1000, 2000],
            heightsMm: rows,
            uHeightMm: 0.4,
            uTilt: 0,
          };
          const { heightsMm } = unwrap(floorHeights({ survey }, [{ name: 'p', xMm, yMm }]));
          expect(heightsMm[0]).toBeGreaterThanOrEqual(Math.min(...zs) - 1e-9);
          expect(heightsMm[0]).toBeLessThanOrEqual(Math.max(...zs) + 1e-9);
        },
      ),
      runs(150),
    );
  });

  test('a straightedge sees no slope, and the same floor from either end', () => {
    fc.assert(
      fc.property(fc.array(small, { minLength: 8, maxLength: 14 }), number(-0.05, 0.05), (zs, slope) => {
        const line = zs.map((heightMm, i) => ({ alongMm: 250 * i, heightMm }));
        const sloped = line.map((p) => ({ ...p, heightMm: p.heightMm + slope * p.alongMm }));
        const end = 250 * (zs.length - 1);
        const reversed = [...line].reverse().map((p) => ({ ...p, alongMm: end - p.alongMm }));
        const gaps = [line, sloped, reversed].map((l) => unwrap(largestGap(l, 1100, 0)).gapMm);
        expect(gaps[1]).toBeCloseTo(gaps[0] ?? Number.NaN, 8);
        expect(gaps[2]).toBeCloseTo(gaps[0] ?? Number.NaN, 8);
      }),
      runs(100),
    );
  });
});

describe('body, wheels and the setting', () => {
  test('mirrored corners: the pitch stays, the roll turns round', () => {
    fc.assert(
      fc.property(hubs, fc.array(small, { minLength: 4, maxLength: 4 }), (four, raised) => {
        const corners = atWheels((wheel, i) => ({
          aheadMm: four[wheel].xMm,
          leftMm: four[wheel].yMm,
          raisedMm: raised[i] ?? 0,
          uMm: 1,
        }));
        const [here, there] = [corners, mirror(corners, (c) => ({ ...c, leftMm: -c.leftMm }))].map((c) =>
          unwrap(bodyAttitude(c)),
        );
        expect(there?.pitch.rad).toBeCloseTo(here?.pitch.rad ?? Number.NaN, 9);
        expect(there?.roll.rad).toBeCloseTo(-(here?.roll.rad ?? Number.NaN), 9);
        expect(there?.heave.mm).toBeCloseTo(here?.heave.mm ?? Number.NaN, 9);
        expect(there?.twist.mm).toBeCloseTo(-(here?.twist.mm ?? Number.NaN), 9);
      }),
      runs(100),
    );
  });

  test('mirrored wheels: the total toe stays, the thrust turns round, whatever the run-out', () => {
    const pair = fc.record({ firstRad: number(-0.02, 0.02), secondRad: number(-0.02, 0.02) });
    fc.assert(
      fc.property(pair, pair, u, (a, b, spread) => {
        const quality = {
          uToeRad: spread / 1000,
          uCamberRad: 0,
          dof: 9,
          uLineRad: 1e-4,
          overRad: 0.1,
          runOutLimitRad: 1e-3,
        };
        const here = axleGeometry({ toe: a }, { toe: b }, quality);
        const there = axleGeometry({ toe: b }, { toe: a }, quality);
        expect(there.totalToe.rad).toBeCloseTo(here.totalToe.rad, 14);
        expect(there.thrust.rad).toBeCloseTo(-here.thrust.rad, 14);
        expect(there.thrust.uRad).toBeCloseTo(here.thrust.uRad, 14);
        // No combination is better known than its line, none of it negative.
        expect(here.thrust.uRad).toBeGreaterThanOrEqual(1e-4);
        expect(here.totalToe.uRad).toBeGreaterThan(0);
      }),
      runs(100),
    );
  });

  test('the setting is the same in whatever frame the heights were read', () => {
    const slopes = fc.tuple(number(-0.02, 0.02), number(-0.02, 0.02), small);
    fc.assert(
      fc.property(
        slopes,
        angle,
        number(-5000, 5000),
        number(-200, 200),
        ([sx, sy, bump], turn, shift, lift) => {
          const floor = (x: number, y: number): number => sx * x + sy * y;
          const at = (x: number, y: number, over = 0): KnownHeight => {
            const p = turned({ xMm: x, yMm: y, uXMm: 0, uYMm: 0 }, turn, shift, shift / 3);
            return { xMm: p.xMm, yMm: p.yMm, zMm: floor(x, y) + lift + over, uMm: 0.4 };
          };
          const settingOf = (place: typeof at) => {
            const wheel = (i: number) =>
              place(i < 2 ? 2600 : 0, i % 2 === 0 ? 750 : -750, i === 0 ? bump : 0);
            return unwrap(
              fixtureSetting({
                hubs: atWheels((_, i) => [wheel(i).xMm, wheel(i).yMm, wheel(i).zMm + 300] as const),
                contacts: atWheels((_, i) => wheel(i)),
                foot: place(5000, 0),
                uTilt: 1e-4,
                required: {
                  aheadMm: 5000,
                  leftMm: 0,
                  upMm: 1300,
                  yawRad: Math.PI,
                  pitchRad: 0.01,
                  rollRad: 0,
                },
                zeroAboveFootMm: 0,
                uZeroMm: 0.2,
              }),
            );
          };
          const there = settingOf(at);
          const here = settingOf((x, y, over = 0) => ({ xMm: x, yMm: y, zMm: floor(x, y) + over, uMm: 0.4 }));
          expect(there.scale.value).toBeCloseTo(here.scale.value, 6);
          expect(there.pitch.value).toBeCloseTo(here.pitch.value, 9);
          expect(there.roll.value).toBeCloseTo(here.roll.value, 9);
          expect(here.scale.u).toBeGreaterThan(0);
        },
      ),
      runs(15),
    );
  });
});

describe('room', () => {
  const blob = fc
    .array(fc.tuple(number(0, 2000), number(0, 2000)), { minLength: 5, maxLength: 9 })
    .map((points) => convexHull(points.map(([x, y]): Vec2 => [x, y])))
    .filter((hull) => polygonFault(hull) === undefined);
  const moved = (polygon: Polygon, turn: number, dx: number, dy: number): Polygon =>
    polygon.map(([x, y]): Vec2 => {
      const p = turned({ xMm: x, yMm: y, uXMm: 0, uYMm: 0 }, turn, dx, dy);
      return [p.xMm, p.yMm];
    });

  test('separation: the same from either side and in any frame, and a move by d changes it by at most d', () => {
    fc.assert(
      fc.property(blob, blob, angle, number(-3000, 3000), number(-500, 500), (a, b, turn, shift, d) => {
        const far = moved(b, 0, shift, 0);
        const here = separation(a, far);
        expect(separation(far, a)).toBeCloseTo(here, 6);
        expect(separation(moved(a, turn, 100, 200), moved(far, turn, 100, 200))).toBeCloseTo(here, 5);
        const after = separation(a, moved(far, 0, d * Math.cos(turn), d * Math.sin(turn)));
        expect(Math.abs(after - here)).toBeLessThanOrEqual(Math.abs(d) + 1e-6);
      }),
      runs(200),
    );
  });

  test('a fit moves with bay and car together', () => {
    const part = (outline: Polygon): SpacePart => ({
      name: 'car',
      kind: 'car',
      outline,
      fromMm: 0,
      toMm: 1,
      marginMm: 0,
    });
    fc.assert(
      fc.property(
        blob,
        blob,
        angle,
        number(0, 3000),
        number(-4000, 4000),
        (car, post, turn, along, shift) => {
          const outline: Polygon = [
            [-500, -500],
            [6000, -500],
            [6000, 2000],
            [3000, 2000],
            [3000, 3000],
            [-500, 3000],
          ];
          const thing = { name: 'post', outline: moved(post, 0, 2500, 0), fromMm: 0, toMm: 9 };
          const here = unwrap(
            spaceFit({ outline, obstacles: [thing] }, [part(car)], { xMm: along, yMm: 0, headingRad: 0.2 }),
          );
          const bay = {
            outline: moved(outline, turn, shift, 77),
            obstacles: [{ ...thing, outline: moved(thing.outline, turn, shift, 77) }],
          };
          const p = turned({ xMm: along, yMm: 0, uXMm: 0, uYMm: 0 }, turn, shift, 77);
          const there = unwrap(
            spaceFit(bay, [part(car)], { xMm: p.xMm, yMm: p.yMm, headingRad: 0.2 + turn }),
          );
          expect(there.spareMm).toBeCloseTo(here.spareMm, 5);
        },
      ),
      runs(100),
    );
  });
});
