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
  /** Rows with a joint covariance, by number. */
  readonly groups: readonly PlainGroup[];
  /** Computed values of all rows for a vector of unknowns in the order of `names`. */
  readonly compute: (x: readonly number[] | Float64Array) => number[];
}

/** Correlated rows. */
export interface PlainGroup {
  readonly rows: readonly number[];
  readonly covariance: readonly (readonly number[])[];
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
  const groups: PlainGroup[] = [];
  const rowNames: string[] = [];
  for (const reading of network.readings) {
    const first = observed.length;
    for (const [value, uncertainty, component = 'value'] of observations(reading)) {
      rowNames.push(`${reading.id}/${component}`);
      observed.push(value);
      u.push(uncertainty);
    }
    if (reading.kind === 'pose') {
      groups.push({ rows: [0, 1, 2, 3, 4, 5].map((i) => first + i), covariance: reading.covariance });
    }
  }
  for (const name of knownNames) {
    const is = all.get(name);
    if (is === undefined) continue;
    rowNames.push(name);
    observed.push(numberOf(is, 'known') ?? Number.NaN);
    u.push(uOf(is));
  }
  for (const { rows, covariance } of network.correlations ?? []) {
    groups.push({ rows: rows.map((name) => rowNames.indexOf(name)), covariance });
  }
  const index = new Map(names.map((name, i) => [name, i]));
  const read = (name: string): Reader => {
    const i = index.get(name);
    const constant = fixed.get(name) ?? Number.NaN;
    return i === undefined ? () => constant : (x) => x[i] ?? Number.NaN;
  };
  const world = new World(network, read);
  const rows = [...network.readings.flatMap((reading) => world.rows(reading)), ...knownNames.map(read)];
  const compute = (x: readonly number[] | Float64Array): number[] => {
    world.turnBodies(x);
    return rows.map((row) => row(x));
  };
  return { names, observed, u, groups, compute };
}

function observations(reading: Reading): (readonly [number, number, string?])[] {
  switch (reading.kind) {
    case 'drop':
      return [
        [reading.alongMm, reading.uAlongMm, 'along'],
        [reading.acrossMm, reading.uAcrossMm, 'across'],
      ];
    case 'angle':
    case 'tilt':
      return [[reading.valueRad, reading.uRad]];
    case 'pose': {
      const u = (i: number) => Math.sqrt(reading.covariance[i]?.[i] ?? Number.NaN);
      return [
        [reading.xMm, u(0), 'x'],
        [reading.yMm, u(1), 'y'],
        [reading.zMm, u(2), 'z'],
        [0, u(3), 'turnX'],
        [0, u(4), 'turnY'],
        [0, u(5), 'turnZ'],
      ];
    }
    case 'constraint':
      throw new Error('not in the plain model');
    default:
      return [[reading.valueMm, reading.uMm]];
  }
}

type Unknowns = readonly number[] | Float64Array;
/** A number, or a point, as a function of the unknowns. */
type Reader = (x: Unknowns) => number;
type PointReader = (x: Unknowns) => Vector;

const BAY_AXES: readonly Vector[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** The three axes of a body in the bay, brought up to date before the rows are computed. */
interface Axes {
  x: Vector;
  y: Vector;
  z: Vector;
}

class World {
  private readonly read: (name: string) => Reader;
  private readonly bodyOf = new Map<string, string>();
  private readonly axes = new Map<string, Axes>();
  private readonly turns: ((x: Unknowns) => void)[] = [];

  constructor(network: Network, read: (name: string) => Reader) {
    this.read = read;
    for (const { id, points } of network.bodies) {
      for (const point of points) this.bodyOf.set(point.id, id);
      const axes: Axes = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] };
      this.axes.set(id, axes);
      const [yaw, pitch, roll] = [read(`${id}/yaw`), read(`${id}/pitch`), read(`${id}/roll`)];
      this.turns.push((x) => {
        const turn = turning(yaw(x), pitch(x), roll(x));
        axes.x = turn([1, 0, 0]);
        axes.y = turn([0, 1, 0]);
        axes.z = turn([0, 0, 1]);
      });
    }
  }

  turnBodies(x: Unknowns): void {
    for (const turn of this.turns) turn(x);
  }

  private axesOf(body: string): Axes {
    const axes = this.axes.get(body);
    if (axes === undefined) throw new Error(`no body ${body}`);
    return axes;
  }

  private point(id: string): PointReader {
    const [px, py, pz] = [this.read(`${id}/x`), this.read(`${id}/y`), this.read(`${id}/z`)];
    const body = this.bodyOf.get(id);
    if (body === undefined) return (x) => [px(x), py(x), pz(x)];
    const axes = this.axesOf(body);
    const origin = [this.read(`${body}/x`), this.read(`${body}/y`), this.read(`${body}/z`)] as const;
    return (x) => {
      const [a, b, c] = [px(x), py(x), pz(x)];
      const along = (i: 0 | 1 | 2) => origin[i](x) + axes.x[i] * a + axes.y[i] * b + axes.z[i] * c;
      return [along(0), along(1), along(2)];
    };
  }

  private heading(direction: { from: string; to: string } | { body: string; axis: 'x' | 'y' }): Reader {
    if ('body' in direction) {
      const axes = this.axesOf(direction.body);
      return () => Math.atan2(axes[direction.axis][1], axes[direction.axis][0]);
    }
    const [from, to] = [this.point(direction.from), this.point(direction.to)];
    return (x) => {
      const [a, b] = [from(x), to(x)];
      return Math.atan2(b[1] - a[1], b[0] - a[0]);
    };
  }

  private shared(id: string | undefined): Reader {
    return id === undefined ? () => 0 : this.read(`${id}/value`);
  }

  private poseRows(reading: Extract<Reading, { kind: 'pose' }>): Reader[] {
    const own = this.axesOf(reading.body);
    const origin = (body: string) =>
      ['x', 'y', 'z'].map((component) => this.read(`${body}/${component}`)) as [Reader, Reader, Reader];
    const p = origin(reading.body);
    const outer = reading.in === 'bay' ? undefined : this.axesOf(reading.in.body);
    const q = reading.in === 'bay' ? undefined : origin(reading.in.body);
    const turn = turning(reading.yawRad, reading.pitchRad, reading.rollRad);
    const read: readonly Vector[] = [turn([1, 0, 0]), turn([0, 1, 0]), turn([0, 0, 1])];
    const frame = () => (outer === undefined ? BAY_AXES : [outer.x, outer.y, outer.z]);
    const place = (x: Unknowns): Vector => {
      const way: Vector = [0, 1, 2].map((i) => (p[i]?.(x) ?? 0) - (q?.[i]?.(x) ?? 0)) as [
        number,
        number,
        number,
      ];
      return along(way, frame());
    };
    const turned = (): Vector =>
      turnBetween(
        read,
        [own.x, own.y, own.z].map((axis) => along(axis, frame())),
      );
    return [
      ...([0, 1, 2] as const).map(
        (i): Reader =>
          (x) =>
            place(x)[i],
      ),
      ...([0, 1, 2] as const).map(
        (i): Reader =>
          () =>
            turned()[i],
      ),
    ];
  }

  /** One function per scalar row of a reading. */
  rows(reading: Reading): Reader[] {
    switch (reading.kind) {
      case 'drop': {
        const [point, mark] = [this.point(reading.point), this.point(reading.mark)];
        const heading = this.heading(reading.direction);
        const arm = this.shared(reading.arm?.shared);
        const [armAlong, armAcross] = [reading.arm?.along ?? 0, reading.arm?.across ?? 0];
        return [
          (x) => relative(point(x), mark(x), heading(x))[0] - arm(x) * armAlong,
          (x) => relative(point(x), mark(x), heading(x))[1] - arm(x) * armAcross,
        ];
      }
      case 'distance': {
        const [from, to] = [this.point(reading.from), this.point(reading.to)];
        const [scale, zero] = [this.shared(reading.scale), this.shared(reading.zero)];
        const level = reading.mode === 'level';
        return [
          (x) => {
            const [a, b] = [from(x), to(x)];
            const [dx, dy, dz] = [b[0] - a[0], b[1] - a[1], level ? 0 : b[2] - a[2]];
            return Math.sqrt(dx * dx + dy * dy + dz * dz) * (1 + scale(x)) + zero(x);
          },
        ];
      }
      case 'offset':
      case 'along': {
        const [from, point] = [this.point(reading.line.from), this.point(reading.point)];
        const [heading, zero] = [this.heading(reading.line), this.shared(reading.zero)];
        if (reading.kind === 'offset') {
          return [(x) => relative(from(x), point(x), heading(x))[1] + zero(x)];
        }
        const scale = this.shared(reading.scale);
        return [(x) => relative(from(x), point(x), heading(x))[0] * (1 + scale(x)) + zero(x)];
      }
      case 'angle': {
        const [first, second] = [this.heading(reading.first), this.heading(reading.second)];
        const zero = this.shared(reading.zero);
        return [
          (x) => {
            const off = second(x) - first(x) + zero(x) - reading.valueRad;
            return reading.valueRad + Math.atan2(Math.sin(off), Math.cos(off));
          },
        ];
      }
      case 'height': {
        const zero = this.shared(reading.zero);
        const point = this.point(reading.point);
        const { above } = reading;
        if ('levelMm' in above) return [(x) => point(x)[2] - above.levelMm + zero(x)];
        const base = this.point(above.point);
        return [(x) => point(x)[2] - base(x)[2] + zero(x)];
      }
      case 'tilt': {
        const axes = this.axesOf(reading.body);
        const zero = this.shared(reading.zero);
        return reading.axis === 'pitch'
          ? [(x) => -Math.asin(axes.x[2]) + zero(x)]
          : [(x) => Math.asin(axes.y[2]) + zero(x)];
      }
      case 'pose':
        return this.poseRows(reading);
      case 'coordinate': {
        const point = this.point(reading.point);
        const axis = { x: 0, y: 1, z: 2 } as const;
        return [(x) => point(x)[axis[reading.axis]]];
      }
      default:
        throw new Error('not in the plain model');
    }
  }
}

/** Component of a vector along each of three axes. */
function along([x, y, z]: Vector, axes: readonly Vector[]): Vector {
  const [a = 0, b = 0, c = 0] = axes.map((axis) => axis[0] * x + axis[1] * y + axis[2] * z);
  return [a, b, c];
}

/**
 * The turn that carries three axes as they were read onto three as they are: from the skew part of the rotation between
 * them, which is its axis times the sine of its angle, and the trace, which has the cosine.
 */
function turnBetween(read: readonly Vector[], are: readonly Vector[]): Vector {
  const entry = (i: 0 | 1 | 2, j: 0 | 1 | 2) =>
    are.reduce((sum, axis, k) => sum + axis[i] * (read[k]?.[j] ?? Number.NaN), 0);
  const skew: Vector = [
    (entry(2, 1) - entry(1, 2)) / 2,
    (entry(0, 2) - entry(2, 0)) / 2,
    (entry(1, 0) - entry(0, 1)) / 2,
  ];
  const sine = Math.hypot(...skew);
  if (sine === 0) return [0, 0, 0];
  const angle = Math.atan2(sine, (entry(0, 0) + entry(1, 1) + entry(2, 2) - 1) / 2);
  return [(skew[0] * angle) / sine, (skew[1] * angle) / sine, (skew[2] * angle) / sine];
}

/** Turns a vector by roll, then pitch, then yaw about the bay's axes: Rz(yaw) Ry(pitch) Rx(roll), one after the other. */
function turning(yaw: number, pitch: number, roll: number): (v: Vector) => Vector {
  const [cr, sr, cp, sp] = [Math.cos(roll), Math.sin(roll), Math.cos(pitch), Math.sin(pitch)];
  const [cy, sy] = [Math.cos(yaw), Math.sin(yaw)];
  return ([x, y, z]) => {
    const [y1, z1] = [cr * y - sr * z, sr * y + cr * z];
    const [x2, z2] = [cp * x + sp * z1, -sp * x + cp * z1];
    return [cy * x2 - sy * y1, sy * x2 + cy * y1, z2];
  };
}

/** Along and across components of b - a relative to a heading. */
function relative(a: Vector, b: Vector, heading: number): readonly [number, number] {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const [c, s] = [Math.cos(heading), Math.sin(heading)];
  return [c * dx + s * dy, -s * dx + c * dy];
}

/** Numeric Jacobian of the plain problem by central differences, row by row. */
export function plainJacobian(problem: PlainProblem, x: readonly number[]): number[][] {
  const step = (name: string): number => (/(yaw|pitch|roll|scale\/value)$/.test(name) ? 1e-5 : 1e-2);
  const columns = problem.names.map((name, j) => {
    const h = step(name);
    const up = problem.compute(x.map((value, i) => (i === j ? value + h : value)));
    const down = problem.compute(x.map((value, i) => (i === j ? value - h : value)));
    return up.map((value, r) => (value - (down[r] ?? 0)) / (2 * h));
  });
  return problem.observed.map((_, r) => columns.map((column) => column[r] ?? 0));
}
