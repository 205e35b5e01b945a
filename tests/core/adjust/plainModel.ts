/**
 * The readings' models written a second time, plainly and without derivatives, to hold the adjuster's against and to
 * hand the same problem to another least-squares program. Shares no code with core/adjust.
 */
import type { Network, Reading } from '../../../core/adjust/network.ts';

type Vector = readonly [number, number, number];

/** One unknown of the plain problem: name as in the adjuster, and where it starts or is known. */
export interface PlainProblem {
  readonly names: readonly string[];
  readonly observed: readonly number[];
  readonly u: readonly number[];
  /** Computed values of all rows for a vector of unknowns in the order of `names`. */
  readonly compute: (x: readonly number[] | Float64Array) => number[];
}

type Knowledge = Network['points'][number]['x'] | Network['bodies'][number]['pose']['yaw'];

function numberOf(
  is: Knowledge | Network['shared'][number]['is'],
  key: 'fixed' | 'known',
): number | undefined {
  if (is.state !== key) return undefined;
  if ('valueMm' in is) return is.valueMm;
  if ('valueRad' in is) return is.valueRad;
  return 'value' in is ? is.value : undefined;
}

function uOf(is: Knowledge | Network['shared'][number]['is']): number {
  if ('uMm' in is) return is.uMm;
  if ('uRad' in is) return is.uRad;
  return 'u' in is ? is.u : Number.NaN;
}

/** The network as names, observations and one function. */
export function plainProblem(network: Network): PlainProblem {
  const names: string[] = [];
  const fixed = new Map<string, number>();
  const observed: number[] = [];
  const u: number[] = [];
  const knownNames: string[] = [];
  const take = (name: string, is: Knowledge | Network['shared'][number]['is']): void => {
    const value = numberOf(is, 'fixed');
    if (value !== undefined) fixed.set(name, value);
    else names.push(name);
    if (is.state === 'known') knownNames.push(name);
  };
  const all = new Map<string, Knowledge | Network['shared'][number]['is']>();
  const note = (name: string, is: Knowledge | Network['shared'][number]['is']): void => {
    all.set(name, is);
    take(name, is);
  };
  for (const p of network.points) for (const c of ['x', 'y', 'z'] as const) note(`${p.id}/${c}`, p[c]);
  for (const b of network.bodies) {
    for (const c of ['x', 'y', 'z', 'yaw', 'pitch', 'roll'] as const) note(`${b.id}/${c}`, b.pose[c]);
    for (const p of b.points) {
      const axes = [
        ['x', p.xMm, p.uXMm],
        ['y', p.yMm, p.uYMm],
        ['z', p.zMm, p.uZMm],
      ] as const;
      for (const [c, valueMm, uMm] of axes) {
        note(`${p.id}/${c}`, uMm === 0 ? { state: 'fixed', valueMm } : { state: 'known', valueMm, uMm });
      }
    }
  }
  for (const s of network.shared) note(`${s.id}/value`, s.is);
  for (const reading of network.readings) {
    for (const [value, uncertainty] of observations(reading)) {
      observed.push(value);
      u.push(uncertainty);
    }
  }
  for (const name of knownNames) {
    const is = all.get(name);
    if (is === undefined) continue;
    observed.push(numberOf(is, 'known') ?? Number.NaN);
    u.push(uOf(is));
  }
  const index = new Map(names.map((name, i) => [name, i]));
  const compute = (x: readonly number[] | Float64Array): number[] => {
    const get = (name: string): number => {
      const i = index.get(name);
      return i === undefined ? (fixed.get(name) ?? Number.NaN) : (x[i] ?? Number.NaN);
    };
    const world = new World(network, get);
    return [...network.readings.flatMap((reading) => world.values(reading)), ...knownNames.map(get)];
  };
  return { names, observed, u, compute };
}

function observations(reading: Reading): (readonly [number, number])[] {
  switch (reading.kind) {
    case 'drop':
      return [
        [reading.alongMm, reading.uAlongMm],
        [reading.acrossMm, reading.uAcrossMm],
      ];
    case 'angle':
    case 'tilt':
      return [[reading.valueRad, reading.uRad]];
    case 'constraint':
      throw new Error('not in the plain model');
    default:
      return [[reading.valueMm, reading.uMm]];
  }
}

class World {
  private readonly get: (name: string) => number;
  private readonly bodyOf = new Map<string, string>();

  constructor(network: Network, get: (name: string) => number) {
    this.get = get;
    for (const body of network.bodies) for (const point of body.points) this.bodyOf.set(point.id, body.id);
  }

  /** Columns of Rz(yaw) Ry(pitch) Rx(roll) by turning the three axes one rotation after the other. */
  axes(body: string): readonly [Vector, Vector, Vector] {
    const turned = (v: Vector): Vector => {
      const roll = this.get(`${body}/roll`);
      const pitch = this.get(`${body}/pitch`);
      const yaw = this.get(`${body}/yaw`);
      let [x, y, z] = v;
      [y, z] = [Math.cos(roll) * y - Math.sin(roll) * z, Math.sin(roll) * y + Math.cos(roll) * z];
      [x, z] = [Math.cos(pitch) * x + Math.sin(pitch) * z, -Math.sin(pitch) * x + Math.cos(pitch) * z];
      [x, y] = [Math.cos(yaw) * x - Math.sin(yaw) * y, Math.sin(yaw) * x + Math.cos(yaw) * y];
      return [x, y, z];
    };
    return [turned([1, 0, 0]), turned([0, 1, 0]), turned([0, 0, 1])];
  }

  point(id: string): Vector {
    const own: Vector = [this.get(`${id}/x`), this.get(`${id}/y`), this.get(`${id}/z`)];
    const body = this.bodyOf.get(id);
    if (body === undefined) return own;
    const [ax, ay, az] = this.axes(body);
    const c = (i: 0 | 1 | 2) => ax[i] * own[0] + ay[i] * own[1] + az[i] * own[2];
    return [this.get(`${body}/x`) + c(0), this.get(`${body}/y`) + c(1), this.get(`${body}/z`) + c(2)];
  }

  heading(direction: { from: string; to: string } | { body: string; axis: 'x' | 'y' }): number {
    if ('body' in direction) {
      const [x, y] = this.axes(direction.body)[direction.axis === 'x' ? 0 : 1];
      return Math.atan2(y, x);
    }
    const [a, b] = [this.point(direction.from), this.point(direction.to)];
    return Math.atan2(b[1] - a[1], b[0] - a[0]);
  }

  /** Along and across components of b - a relative to a heading. */
  relative(a: Vector, b: Vector, heading: number): readonly [number, number] {
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    return [
      Math.cos(heading) * dx + Math.sin(heading) * dy,
      -Math.sin(heading) * dx + Math.cos(heading) * dy,
    ];
  }

  shared(id: string | undefined): number {
    return id === undefined ? 0 : this.get(`${id}/value`);
  }

  values(reading: Reading): number[] {
    switch (reading.kind) {
      case 'drop': {
        const [along, across] = this.relative(
          this.point(reading.point),
          this.point(reading.mark),
          this.heading(reading.direction),
        );
        const arm = this.shared(reading.arm?.shared);
        return [along - arm * (reading.arm?.along ?? 0), across - arm * (reading.arm?.across ?? 0)];
      }
      case 'distance': {
        const [a, b] = [this.point(reading.from), this.point(reading.to)];
        const rise = reading.mode === 'level' ? 0 : b[2] - a[2];
        const length = Math.hypot(b[0] - a[0], b[1] - a[1], rise);
        return [length * (1 + this.shared(reading.scale)) + this.shared(reading.zero)];
      }
      case 'offset':
      case 'along': {
        const heading = this.heading(reading.line);
        const at = this.relative(this.point(reading.line.from), this.point(reading.point), heading);
        return reading.kind === 'offset'
          ? [at[1] + this.shared(reading.zero)]
          : [at[0] * (1 + this.shared(reading.scale)) + this.shared(reading.zero)];
      }
      case 'angle': {
        const turn = this.heading(reading.second) - this.heading(reading.first) + this.shared(reading.zero);
        const off = turn - reading.valueRad;
        return [reading.valueRad + Math.atan2(Math.sin(off), Math.cos(off))];
      }
      case 'height': {
        const above = 'point' in reading.above ? this.point(reading.above.point)[2] : reading.above.levelMm;
        return [this.point(reading.point)[2] - above + this.shared(reading.zero)];
      }
      case 'tilt': {
        const [ax, ay] = this.axes(reading.body);
        const tilt = reading.axis === 'pitch' ? -Math.asin(ax[2]) : Math.asin(ay[2]);
        return [tilt + this.shared(reading.zero)];
      }
      case 'coordinate':
        return [this.point(reading.point)['xyz'.indexOf(reading.axis) as 0 | 1 | 2]];
      default:
        throw new Error('not in the plain model');
    }
  }
}

/** Numeric Jacobian of the plain problem by central differences, row by row. */
export function plainJacobian(problem: PlainProblem, x: readonly number[]): number[][] {
  const step = (name: string): number => (/(yaw|pitch|roll)$/.test(name) ? 1e-5 : 1e-3);
  const columns = problem.names.map((name, j) => {
    const h = step(name);
    const up = problem.compute(x.map((value, i) => (i === j ? value + h : value)));
    const down = problem.compute(x.map((value, i) => (i === j ? value - h : value)));
    return up.map((value, r) => (value - (down[r] ?? 0)) / (2 * h));
  });
  return problem.observed.map((_, r) => columns.map((column) => column[r] ?? 0));
}
