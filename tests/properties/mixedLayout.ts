/**
 * Random layouts in space that use every kind of reading that has a value: three fixed marks, free points, two bodies,
 * shared unknowns, correlated readings and poses with full covariances. Every point is also held weakly by its
 * coordinates, so that each layout has an answer; what the rest adds is left to chance.
 */
import type { Correlation, Network, Reading } from '../../core/adjust/network.ts';
import { rotate, rotateBack, rotationMatrix, yawPitchRoll } from '../../core/geometry/rotation.ts';
import { rotationOfTurn } from '../../core/geometry/turn.ts';
import { add, subtract, type Vec3 } from '../../core/geometry/vector.ts';
import { multiply, transpose } from '../../core/linalg/matrix.ts';

/** Draws numbers from 0 up to 1, and normal ones. */
export interface Chance {
  readonly uniform: () => number;
  readonly normal: () => number;
}

interface Attitude {
  readonly at: Vec3;
  readonly yawRad: number;
  readonly pitchRad: number;
  readonly rollRad: number;
}

/** What is true of a layout; readings are made from it. */
interface Truth {
  readonly points: ReadonlyMap<string, Vec3>;
  readonly bodies: ReadonlyMap<string, Attitude>;
  readonly scale: number;
  readonly zero: number;
}

const BODIES = ['rig', 'board'] as const;
const OWN: Readonly<Record<(typeof BODIES)[number], readonly (readonly [string, Vec3])[]>> = {
  rig: [
    ['rig.a', [0, -900, 40]],
    ['rig.b', [30, 950, -60]],
  ],
  board: [['board.a', [-40, 210, 330]]],
};

/** A random covariance of given standard deviations, its correlations up to about 0.8. */
export function randomCovariance(u: readonly number[], chance: Chance): number[][] {
  const lower = u.map((_, i) => u.map((__, j) => (j > i ? 0 : i === j ? 1 : chance.uniform() - 0.5)));
  const length = lower.map((row) => Math.hypot(...row));
  return u.map((a, i) =>
    u.map((b, j) => {
      const product = (lower[i] ?? []).reduce((sum, value, k) => sum + value * (lower[j]?.[k] ?? 0), 0);
      return i === j ? a * a : (a * b * product) / ((length[i] ?? 1) * (length[j] ?? 1));
    }),
  );
}

function between(low: number, high: number, { uniform }: Chance): number {
  return low + (high - low) * uniform();
}

function makeTruth(chance: Chance, free: readonly string[]): Truth {
  const points = new Map<string, Vec3>([
    ['A', [0, 0, 0]],
    ['B', [5200, 150, 22]],
    ['C', [2400, 4100, -35]],
  ]);
  for (const [i, id] of free.entries()) {
    points.set(id, [
      700 + 1300 * i + between(0, 600, chance),
      between(500, 3500, chance),
      between(-60, 900, chance),
    ]);
  }
  const bodies = new Map<string, Attitude>();
  for (const [i, id] of BODIES.entries()) {
    const at: Vec3 = [2000 + 2400 * i, between(500, 2500, chance), between(600, 1200, chance)];
    const attitude = {
      at,
      yawRad: between(-3, 3, chance),
      pitchRad: between(-0.6, 0.6, chance),
      rollRad: between(-0.6, 0.6, chance),
    };
    bodies.set(id, attitude);
    for (const [own, arm] of OWN[id]) points.set(own, add(at, rotate(rotationMatrix(attitude), arm)));
  }
  return { points, bodies, scale: 1e-4 * chance.normal(), zero: 0.5 * chance.normal() };
}

/** The layout as a document, its readings true but for errors of their stated size. */
export function mixedLayout(chance: Chance): Network {
  const free = ['P', 'Q', 'S'].slice(0, 1 + Math.floor(3 * chance.uniform()));
  const truth = makeTruth(chance, free);
  const ids = [...truth.points.keys()];
  const at = (id: string): Vec3 => truth.points.get(id) ?? [Number.NaN, 0, 0];
  const readings: Reading[] = [];
  for (const id of free) {
    for (const [k, axis] of (['x', 'y', 'z'] as const).entries()) {
      const valueMm = (at(id)[k] ?? 0) + 6 * chance.normal();
      readings.push({ kind: 'coordinate', id: `${id}.${axis}`, point: id, axis, valueMm, uMm: 6 });
    }
  }
  for (let k = 0; k < 14; k++) readings.push(reading(`r${k}`, ids, truth, chance));
  readings.push(pose('seen.rig', 'rig', undefined, truth, chance));
  readings.push(pose('seen.board', 'board', chance.uniform() < 0.5 ? undefined : 'rig', truth, chance));
  const near = (value: number) => value + 2 * chance.normal();
  return {
    format: 'datumline-network-1',
    points: ids
      .filter((id) => !id.includes('.'))
      .map((id) => {
        const [x, y, z] = at(id);
        const is = (value: number) =>
          free.includes(id)
            ? ({ state: 'free', startMm: near(value) } as const)
            : ({ state: 'fixed', valueMm: value } as const);
        return { id, x: is(x), y: is(y), z: is(z) };
      }),
    bodies: BODIES.map((id) => body(id, truth, chance)),
    shared: [
      { id: 'scale', quantity: 'ratio', is: { state: 'known', value: 0, u: 1e-4 } },
      { id: 'zero', quantity: 'length', is: { state: 'known', valueMm: 0, uMm: 0.5 } },
    ],
    readings,
    sides: [],
    correlations: correlated(readings, chance),
  };
}

function body(id: (typeof BODIES)[number], truth: Truth, chance: Chance): Network['bodies'][number] {
  const { at, ...angles } = truth.bodies.get(id) ?? { at: [0, 0, 0], yawRad: 0, pitchRad: 0, rollRad: 0 };
  const length = (value: number) => ({ state: 'free', startMm: value + 2 * chance.normal() }) as const;
  const angle = (value: number) => ({ state: 'free', startRad: value + 0.002 * chance.normal() }) as const;
  return {
    id,
    pose: {
      x: length(at[0] ?? 0),
      y: length(at[1] ?? 0),
      z: length(at[2] ?? 0),
      yaw: angle(angles.yawRad),
      pitch: angle(angles.pitchRad),
      roll: angle(angles.rollRad),
    },
    points: OWN[id].map(([own, [xMm, yMm, zMm]]) => {
      return { id: own, xMm, yMm, zMm, uXMm: 0, uYMm: 0.4, uZMm: 0.3 };
    }),
  };
}

function reading(id: string, ids: readonly string[], truth: Truth, chance: Chance): Reading {
  const pick = (not: readonly string[] = []): string => {
    const list = ids.filter((one) => !not.includes(one));
    return list[Math.floor(list.length * chance.uniform())] ?? '';
  };
  const at = (point: string): Vec3 => truth.points.get(point) ?? [Number.NaN, 0, 0];
  const [p, q] = [pick(), ''];
  const other = q === '' ? pick([p]) : q;
  const third = pick([p, other]);
  const [d, e] = [subtract(at(other), at(p)), subtract(at(third), at(p))];
  const plan = Math.hypot(d[0], d[1]);
  const along = (d[0] * e[0] + d[1] * e[1]) / plan;
  const offset = (d[0] * e[1] - d[1] * e[0]) / plan;
  const line = { from: p, to: other };
  const mm = (value: number, uMm: number) => ({ valueMm: value + uMm * chance.normal(), uMm });
  const rad = (value: number, uRad: number) => ({ valueRad: value + uRad * chance.normal(), uRad });
  const taped = (length: number) => length * (1 + truth.scale) + truth.zero;
  const rig = truth.bodies.get('rig') ?? { yawRad: 0, pitchRad: 0, rollRad: 0 };
  const kinds: readonly (() => Reading)[] = [
    () => ({
      kind: 'distance',
      id,
      from: p,
      to: other,
      mode: 'slope',
      ...mm(taped(Math.hypot(...d)), 0.8),
      scale: 'scale',
      zero: 'zero',
    }),
    () => ({ kind: 'distance', id, from: p, to: other, mode: 'level', ...mm(plan, 0.9) }),
    () => ({ kind: 'offset', id, point: third, line, ...mm(offset, 0.7) }),
    () => ({ kind: 'along', id, point: third, line, ...mm(taped(along), 1), scale: 'scale', zero: 'zero' }),
    () => ({ kind: 'height', id, point: other, above: { point: p }, ...mm(d[2], 0.5) }),
    () => ({
      kind: 'angle',
      id,
      first: line,
      second: { from: p, to: third },
      ...rad(Math.atan2(offset, along), 5e-4),
    }),
    () => ({
      kind: 'angle',
      id,
      first: line,
      second: { body: 'rig', axis: 'x' },
      ...rad(rig.yawRad - Math.atan2(d[1], d[0]), 1e-3),
    }),
    () => ({ kind: 'tilt', id, body: 'rig', axis: 'pitch', ...rad(rig.pitchRad, 1e-3) }),
    () => ({
      kind: 'tilt',
      id,
      body: 'rig',
      axis: 'roll',
      ...rad(Math.asin(Math.cos(rig.pitchRad) * Math.sin(rig.rollRad)), 1e-3),
    }),
    () => ({
      kind: 'drop',
      id,
      point: p,
      mark: other,
      direction: { from: p, to: third },
      alongMm: (d[0] * e[0] + d[1] * e[1]) / Math.hypot(e[0], e[1]) + chance.normal(),
      acrossMm: (e[0] * d[1] - e[1] * d[0]) / Math.hypot(e[0], e[1]) + chance.normal(),
      uAlongMm: 1,
      uAcrossMm: 1,
    }),
  ];
  // Plan directions between points nearly above each other would turn by anything: take another reading there.
  const usable = plan > 300 && Math.hypot(e[0], e[1]) > 300;
  const made = kinds[Math.floor(kinds.length * chance.uniform())];
  return usable && made !== undefined
    ? made()
    : { kind: 'height', id, point: other, above: { point: p }, ...mm(d[2], 0.5) };
}

function pose(id: string, of: string, from: string | undefined, truth: Truth, chance: Chance): Reading {
  const level: Attitude = { at: [0, 0, 0], yawRad: 0, pitchRad: 0, rollRad: 0 };
  const own = truth.bodies.get(of) ?? level;
  const outer = from === undefined ? level : (truth.bodies.get(from) ?? level);
  const frame = rotationMatrix(outer);
  const [x, y, z] = rotateBack(frame, subtract(own.at, outer.at));
  const wrong = rotationOfTurn([0.001 * chance.normal(), 0.001 * chance.normal(), 0.001 * chance.normal()]);
  const seen = yawPitchRoll(multiply(wrong, multiply(transpose(frame), rotationMatrix(own))));
  return {
    kind: 'pose',
    id,
    body: of,
    in: from === undefined ? 'bay' : { body: from },
    xMm: x + chance.normal(),
    yMm: y + chance.normal(),
    zMm: z + chance.normal(),
    ...seen,
    covariance: randomCovariance([1, 1, 1.2, 0.001, 0.001, 0.0012], chance),
  };
}

/** Up to five of the plain readings share errors. */
function correlated(readings: readonly Reading[], chance: Chance): Correlation[] {
  const rows: string[] = [];
  const u: number[] = [];
  for (const one of readings) {
    const own = 'uMm' in one ? one.uMm : 'uRad' in one ? one.uRad : undefined;
    if (own === undefined || rows.length === 5 || chance.uniform() < 0.4) continue;
    rows.push(`${one.id}/value`);
    u.push(own);
  }
  if (rows.length < 2) return [];
  return [{ id: 'together', rows, covariance: randomCovariance(u, chance) }];
}
