/**
 * The drawn car: calm line art of no make, stretched to the wheelbase, tracks, overhangs and width of the car at hand.
 * In the plan x is ahead of the rear axle and y is the car's left; lines are cubics, so any stretch stays smooth.
 */
import type { CubicPiece, CurveItem, Fill, ScenePoint, Stroke } from './scene.ts';

/** The lengths that a drawn car needs, mm. They draw it; nothing is computed from them. */
export interface CarShape {
  readonly wheelbaseMm: number;
  readonly trackFrontMm: number;
  readonly trackRearMm: number;
  readonly frontOverhangMm: number;
  readonly rearOverhangMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly tyreDiameterMm: number;
  readonly tyreWidthMm: number;
}

/** An invented saloon car of middling size, drawn in pencil until the car at hand is known. */
export const NOMINAL_CAR: CarShape = {
  wheelbaseMm: 2700,
  trackFrontMm: 1560,
  trackRearMm: 1560,
  frontOverhangMm: 890,
  rearOverhangMm: 1010,
  widthMm: 1820,
  heightMm: 1450,
  tyreDiameterMm: 634,
  tyreWidthMm: 205,
};

/** A point as `[ahead, across]`. */
type Pair = readonly [number, number];

const point = ([x, y]: Pair): ScenePoint => ({ xMm: x, yMm: y });
const mirrored = ([x, y]: Pair): Pair => [x, -y];

/** Cubic pieces as triples of pairs: two controls and an end. */
type Triple = readonly [Pair, Pair, Pair];

const piece = ([a, b, c]: Triple): CubicPiece => ({ control1: point(a), control2: point(b), end: point(c) });

/** The same pieces walked the other way on the car's right, back to the start. */
function mirroredBack(start: Pair, triples: readonly Triple[]): readonly Triple[] {
  const ends = [start, ...triples.map((triple) => triple[2])];
  return triples
    .map((triple, index): Triple => {
      const before = ends[index] ?? start;
      return [mirrored(triple[1]), mirrored(triple[0]), mirrored(before)];
    })
    .reverse();
}

function curve(
  start: Pair,
  triples: readonly Triple[],
  closed: boolean,
  stroke: Stroke,
  fill?: Fill,
): CurveItem {
  return {
    kind: 'curve',
    start: point(start),
    pieces: triples.map(piece),
    closed,
    stroke,
    ...(fill === undefined ? {} : { fill }),
  };
}

function symmetric(start: Pair, left: readonly Triple[], stroke: Stroke, fill?: Fill): CurveItem {
  return curve(start, [...left, ...mirroredBack(start, left)], true, stroke, fill);
}

function bodyPieces(front: number, rear: number, half: number): readonly Triple[] {
  return [
    [
      [front, 0.42 * half],
      [front - 45, 0.7 * half],
      [front - 175, 0.84 * half],
    ],
    [
      [front - 300, 0.955 * half],
      [front - 520, 0.975 * half],
      [front - 880, 0.985 * half],
    ],
    [
      [front - 1500, half],
      [rear + 1500, half],
      [rear + 760, 0.98 * half],
    ],
    [
      [rear + 420, 0.968 * half],
      [rear + 150, 0.95 * half],
      [rear + 65, 0.8 * half],
    ],
    [
      [rear + 12, 0.66 * half],
      [rear, 0.36 * half],
      [rear, 0],
    ],
  ];
}

/** Windscreen, roof and rear window as three closed panes; `cowl` is the windscreen's foot. */
function panes(car: CarShape, half: number, line: Stroke, glass: Fill): readonly CurveItem[] {
  const cowl = car.wheelbaseMm - 360;
  const roofFront = car.wheelbaseMm - 1010;
  const roofRear = 210;
  const rearFoot = -0.44 * car.rearOverhangMm;
  const windscreen: readonly Triple[] = [
    [
      [cowl, 0.3 * half],
      [cowl - 60, 0.6 * half],
      [cowl - 200, 0.79 * half],
    ],
    [
      [cowl - 330, 0.75 * half],
      [roofFront + 60, 0.66 * half],
      [roofFront - 60, 0.62 * half],
    ],
    [
      [roofFront - 10, 0.4 * half],
      [roofFront, 0.2 * half],
      [roofFront, 0],
    ],
  ];
  const rearWindow: readonly Triple[] = [
    [
      [roofRear, 0.2 * half],
      [roofRear + 15, 0.4 * half],
      [roofRear + 60, 0.6 * half],
    ],
    [
      [roofRear - 120, 0.66 * half],
      [rearFoot + 200, 0.72 * half],
      [rearFoot + 90, 0.72 * half],
    ],
    [
      [rearFoot + 20, 0.5 * half],
      [rearFoot, 0.25 * half],
      [rearFoot, 0],
    ],
  ];
  const roofSide: readonly Triple[] = [
    [
      [roofFront - 420, 0.67 * half],
      [roofRear + 420, 0.66 * half],
      [roofRear + 60, 0.6 * half],
    ],
  ];
  const beltSide: readonly Triple[] = [
    [
      [cowl - 520, 0.9 * half],
      [rearFoot + 900, 0.9 * half],
      [rearFoot + 90, 0.72 * half],
    ],
  ];
  const bothSides = (start: Pair, triples: readonly Triple[]): readonly CurveItem[] => [
    curve(start, triples, false, line),
    curve(
      mirrored(start),
      triples.map(([a, b, c]): Triple => [mirrored(a), mirrored(b), mirrored(c)]),
      false,
      line,
    ),
  ];
  return [
    symmetric([cowl, 0], windscreen, line, glass),
    symmetric([roofRear, 0], rearWindow, line, glass),
    ...bothSides([roofFront - 60, 0.62 * half], roofSide),
    ...bothSides([cowl - 200, 0.79 * half], beltSide),
  ];
}

function mirrors(car: CarShape, half: number, line: Stroke): readonly CurveItem[] {
  const at = car.wheelbaseMm - 690;
  const left: readonly Triple[] = [
    [
      [at + 70, 1.03 * half],
      [at + 60, 1.12 * half],
      [at - 20, 1.13 * half],
    ],
    [
      [at - 60, 1.13 * half],
      [at - 60, 1.02 * half],
      [at - 20, 0.995 * half],
    ],
  ];
  const start: Pair = [at + 60, 0.99 * half];
  return [
    curve(start, left, false, line),
    curve(
      mirrored(start),
      left.map(([a, b, c]): Triple => [mirrored(a), mirrored(b), mirrored(c)]),
      false,
      line,
    ),
  ];
}

function bonnetCreases(car: CarShape, half: number, line: Stroke): readonly CurveItem[] {
  const foot = car.wheelbaseMm - 420;
  const nose = car.wheelbaseMm + 0.72 * car.frontOverhangMm;
  const left: Triple = [
    [foot + 300, 0.6 * half],
    [nose - 300, 0.58 * half],
    [nose, 0.5 * half],
  ];
  const start: Pair = [foot, 0.6 * half];
  return [
    curve(start, [left], false, line),
    curve(mirrored(start), [[mirrored(left[0]), mirrored(left[1]), mirrored(left[2])]], false, line),
  ];
}

/** Lamps: a short line inside each corner of the body. */
function lamps(front: number, rear: number, half: number, line: Stroke): readonly CurveItem[] {
  const headlamp: Triple = [
    [front - 95, 0.66 * half],
    [front - 190, 0.8 * half],
    [front - 400, 0.9 * half],
  ];
  const tail: Triple = [
    [rear + 70, 0.62 * half],
    [rear + 120, 0.8 * half],
    [rear + 330, 0.93 * half],
  ];
  return (
    [
      [[front - 62, 0.5 * half], headlamp],
      [[rear + 60, 0.45 * half], tail],
    ] as const
  ).flatMap(([start, triple]) => [
    curve(start, [triple], false, line),
    curve(mirrored(start), [[mirrored(triple[0]), mirrored(triple[1]), mirrored(triple[2])]], false, line),
  ]);
}

/** The car seen from above, rear axle at zero. `role` is ink when the car is measured, pencil while it is typical. */
export function carPlan(car: CarShape, role: 'ink' | 'pencil'): readonly CurveItem[] {
  const half = car.widthMm / 2;
  const front = car.wheelbaseMm + car.frontOverhangMm;
  const rear = -car.rearOverhangMm;
  const outline: Stroke = { role, pen: 'normal' };
  const inner: Stroke = { role: 'pencil', pen: 'thin' };
  const crease: Stroke = { role: 'hairline', pen: 'thin' };
  return [
    ...mirrors(car, half, inner),
    symmetric([front, 0], bodyPieces(front, rear, half), outline),
    ...bonnetCreases(car, half, crease),
    ...lamps(front, rear, half, inner),
    ...panes(car, half, inner, { role: 'pencil', tone: 'pale' }),
  ];
}

/** A tyre seen from above: a rectangle with softened corners, turned by `headingRad` about its hub. */
export function tyrePlan(
  hub: ScenePoint,
  headingRad: number,
  car: CarShape,
  role: 'ink' | 'pencil',
): CurveItem {
  const a = car.tyreDiameterMm / 2;
  const b = car.tyreWidthMm / 2;
  const soft = b * 0.55;
  const cos = Math.cos(headingRad);
  const sin = Math.sin(headingRad);
  const turned = ([x, y]: Pair): Pair => [hub.xMm + x * cos - y * sin, hub.yMm + x * sin + y * cos];
  const straight = (from: Pair, to: Pair): Triple => [turned(from), turned(to), turned(to)];
  const corner = (corners: Pair, to: Pair): Triple => [turned(corners), turned(corners), turned(to)];
  const triples: readonly Triple[] = [
    straight([a, -b + soft], [a, b - soft]),
    corner([a, b], [a - soft, b]),
    straight([a - soft, b], [-a + soft, b]),
    corner([-a, b], [-a, b - soft]),
    straight([-a, b - soft], [-a, -b + soft]),
    corner([-a, -b], [-a + soft, -b]),
    straight([-a + soft, -b], [a - soft, -b]),
    corner([a, -b], [a, -b + soft]),
  ];
  return curve(turned([a, -b + soft]), triples, true, { role, pen: 'thin' }, { role, tone: 'pale' });
}
