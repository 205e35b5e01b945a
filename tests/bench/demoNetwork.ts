/**
 * A made-up placement as a network document: four hubs dropped to the floor past side arms, each car-side line
 * extended, widths, diagonals, and a fixture measured by the dropped ends of its bar. Readings are those of a true
 * layout, rounded as one reads a tape (0.5 or 1 mm), an inclinometer (0.05 degrees) and a level (0.5 mm).
 * `node tests/bench/demoNetwork.ts` writes assets/demo/placement-network.json; a test holds the file to this source.
 */
import { writeFileSync } from 'node:fs';
import type { Network, NetworkPoint, Reading, Side } from '../../core/adjust/network.ts';
import { rotate, rotationMatrix } from '../../core/geometry/rotation.ts';
import { add, type Vec3 } from '../../core/geometry/vector.ts';

const RAD_PER_DEG = Math.PI / 180;
/** Slopes of the floor, ahead and to the left. */
const floor = (x: number, y: number): number => 0.0034 * x + 0.0021 * y;
const onFloor = (x: number, y: number): Vec3 => [x, y, floor(x, y)];

/** The true layout, bay frame, mm. Hubs 312 mm above the floor; true side arms 150.2 (left) and 149.7 (right). */
const HUBS = { FL: [2704, 781], FR: [2701, -779], RL: [0, 776], RR: [2, -778] } as const;
const ARMS = { L: 150.2, R: 149.7 } as const;
const HUB_HEIGHT = 312;
const POSE = { yawRad: Math.PI + 0.0061, pitchRad: 0.0021, rollRad: -0.0035 };
const BAR_CENTRE: Vec3 = [4930, 14, 1020];
const BAR_ENDS = { carLeft: [0, -1250, 0], carRight: [0, 1250, 0] } as const;
const FACE: Vec3 = [-35, 0, 330];

/** True positions of everything a reading touches. */
export function trueLayout(): ReadonlyMap<string, Vec3> {
  const points = new Map<string, Vec3>();
  for (const side of ['L', 'R'] as const) {
    const [front, rear] = [HUBS[`F${side}`], HUBS[`R${side}`]];
    const length = Math.hypot(front[0] - rear[0], front[1] - rear[1]);
    const [ex, ey] = [(front[0] - rear[0]) / length, (front[1] - rear[1]) / length];
    const out = side === 'L' ? ARMS.L : -ARMS.R;
    for (const [end, [x, y]] of [
      ['F', front],
      ['R', rear],
    ] as const) {
      points.set(`hub.${end}${side}`, [x, y, floor(x, y) + HUB_HEIGHT]);
      points.set(`mark.${end}${side}`, onFloor(x - ey * out, y + ex * out));
    }
    const along = (from: string, by: number): Vec3 => {
      const [x, y] = points.get(from) ?? [0, 0, 0];
      return onFloor(x + ex * by, y + ey * by);
    };
    points.set(`ahead.${side}`, along(`mark.F${side}`, side === 'L' ? 1203 : 1188));
    points.set(`behind.${side}`, along(`mark.R${side}`, side === 'L' ? -1152 : -1166));
  }
  const r = rotationMatrix(POSE);
  for (const end of ['carLeft', 'carRight'] as const) {
    const at = add(BAR_CENTRE, rotate(r, BAR_ENDS[end]));
    points.set(`bar.${end}`, at);
    points.set(`end.${end}`, onFloor(at[0], at[1]));
  }
  points.set('face', add(BAR_CENTRE, rotate(r, FACE)));
  return points;
}

const rounded = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(6));

/** The network document. */
export function demoNetwork(): Network {
  const truth = trueLayout();
  const at = (id: string): Vec3 => truth.get(id) ?? [Number.NaN, 0, 0];
  const apart = (a: string, b: string): number => {
    const [p, q] = [at(a), at(b)];
    return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
  };
  const tape = (a: string, b: string, uMm: number, step: number): Reading => ({
    kind: 'distance',
    id: `tape.${a}.${b}`,
    instrument: 'tape',
    from: a,
    to: b,
    mode: 'floor',
    valueMm: rounded(apart(a, b), step),
    uMm,
    scale: 'tape.scale',
    zero: 'tape.zero',
  });
  const bodyPoints = ['bar.carLeft', 'bar.carRight', 'face'];
  const points = [...truth.keys()].filter((id) => !bodyPoints.includes(id)).map(freePoint);
  const wheels = ['FL', 'FR', 'RL', 'RR'] as const;
  const ends = ['carLeft', 'carRight'] as const;
  const marks = points.map(({ id }) => id).filter((id) => !id.startsWith('hub'));
  return {
    format: 'datumline-network-1',
    title: 'Invented placement: forward camera, small hatchback, harbour shop',
    points,
    bodies: [
      {
        id: 'fixture',
        pose: { x: FREE, y: FREE, z: FREE, yaw: FREE, pitch: FREE, roll: FREE },
        points: [
          ...ends.map((end) => {
            const [xMm, yMm, zMm] = BAR_ENDS[end];
            return { id: `bar.${end}`, xMm, yMm, zMm, uXMm: 0, uYMm: 0.4, uZMm: 0 };
          }),
          { id: 'face', xMm: FACE[0], yMm: FACE[1], zMm: FACE[2], uXMm: 0.5, uYMm: 0.5, uZMm: 0.5 },
        ],
      },
    ],
    shared: [
      { id: 'arm.left', quantity: 'length', is: { state: 'known', valueMm: 150, uMm: 0.3, dof: 20 } },
      { id: 'arm.right', quantity: 'length', is: { state: 'known', valueMm: 150, uMm: 0.3, dof: 20 } },
      { id: 'tape.scale', quantity: 'ratio', is: { state: 'known', value: 0, u: 0.0001 } },
      { id: 'tape.zero', quantity: 'length', is: { state: 'known', valueMm: 0, uMm: 0.2 } },
    ],
    readings: [
      ...wheels.map((wheel) => hubDrop(wheel)),
      ...(['L', 'R'] as const).flatMap((side) => [
        ...onLine(`ahead.${side}`, side, at),
        ...onLine(`behind.${side}`, side, at),
      ]),
      tape('mark.RL', 'mark.FL', 0.7, 0.5),
      tape('mark.RR', 'mark.FR', 0.7, 0.5),
      tape('ahead.L', 'ahead.R', 0.7, 0.5),
      tape('behind.L', 'behind.R', 0.7, 0.5),
      tape('ahead.L', 'behind.R', 1, 1),
      tape('behind.L', 'ahead.R', 1, 1),
      ...ends.map((end) => barDrop(end)),
      tape('ahead.L', 'end.carLeft', 0.7, 0.5),
      tape('ahead.R', 'end.carRight', 0.7, 0.5),
      tape('ahead.L', 'end.carRight', 0.8, 0.5),
      tape('ahead.R', 'end.carLeft', 0.8, 0.5),
      ...marks.map((id) => levelled(id, at(id)[2], 0.4)),
      ...wheels.map(hubHeight),
      levelled('face', at('face')[2], 0.8),
      tilt('pitch', POSE.pitchRad),
      tilt('roll', POSE.rollRad),
    ],
    sides: ['ahead.R', 'behind.R', 'end.carRight', 'end.carLeft'].map(sideOf),
  };
}

const FREE = { state: 'free' } as const;

function freePoint(id: string): NetworkPoint {
  return { id, x: FREE, y: FREE, z: FREE };
}

function hubDrop(wheel: 'FL' | 'FR' | 'RL' | 'RR'): Reading {
  const side = wheel.endsWith('L') ? 'L' : 'R';
  return {
    kind: 'drop',
    id: `drop.${wheel}`,
    instrument: 'bob',
    dof: 20,
    point: `hub.${wheel}`,
    mark: `mark.${wheel}`,
    direction: { from: `mark.R${side}`, to: `mark.F${side}` },
    alongMm: 0,
    acrossMm: 0,
    arm: { shared: side === 'L' ? 'arm.left' : 'arm.right', along: 0, across: side === 'L' ? 1 : -1 },
    uAlongMm: 1,
    uAcrossMm: 0.8,
  };
}

function barDrop(end: 'carLeft' | 'carRight'): Reading {
  return {
    kind: 'drop',
    id: `drop.${end}`,
    instrument: 'bob',
    dof: 20,
    point: `bar.${end}`,
    mark: `end.${end}`,
    direction: { body: 'fixture', axis: 'x' },
    alongMm: 0,
    acrossMm: 0,
    uAlongMm: 0.8,
    uAcrossMm: 0.8,
  };
}

function onLine(point: string, side: 'L' | 'R', at: (id: string) => Vec3): readonly Reading[] {
  const line = { from: `mark.R${side}`, to: `mark.F${side}` };
  const [[px, py], [ax, ay], [bx, by]] = [at(point), at(line.from), at(line.to)];
  const along = ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / Math.hypot(bx - ax, by - ay);
  return [
    {
      kind: 'along',
      id: `along.${point}`,
      instrument: 'tape',
      point,
      line,
      valueMm: rounded(along, 0.5),
      uMm: 0.7,
      scale: 'tape.scale',
      zero: 'tape.zero',
    },
    { kind: 'offset', id: `offset.${point}`, instrument: 'string', point, line, valueMm: 0, uMm: 0.5 },
  ];
}

function levelled(point: string, z: number, uMm: number): Reading {
  return {
    kind: 'height',
    id: `level.${point}`,
    instrument: 'level',
    point,
    above: { levelMm: 0 },
    valueMm: rounded(z, 0.5),
    uMm,
  };
}

function hubHeight(wheel: string): Reading {
  return {
    kind: 'height',
    id: `height.${wheel}`,
    instrument: 'tape',
    point: `hub.${wheel}`,
    above: { point: `mark.${wheel}` },
    valueMm: HUB_HEIGHT,
    uMm: 1,
  };
}

function tilt(axis: 'pitch' | 'roll', rad: number): Reading {
  const valueRad = Number((rounded(rad / RAD_PER_DEG, 0.05) * RAD_PER_DEG).toFixed(9));
  return {
    kind: 'tilt',
    id: `tilt.${axis}`,
    instrument: 'inclinometer',
    body: 'fixture',
    axis,
    valueRad,
    uRad: 0.0007,
  };
}

/** Everything stands where one expects it, right of the car's left line or ahead of the car. */
function sideOf(point: string): Side {
  return point.startsWith('end')
    ? { point, line: { from: 'ahead.L', to: 'ahead.R' }, side: 'left' }
    : { point, line: { from: 'mark.RL', to: 'mark.FL' }, side: 'right' };
}

if (import.meta.main) {
  const file = new URL('../../assets/demo/placement-network.json', import.meta.url);
  writeFileSync(file, `${JSON.stringify(demoNetwork(), undefined, 2)}\n`);
}
