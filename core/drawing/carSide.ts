/**
 * The drawn car seen from its right side, nose to the right: the same invented saloon as in the plan, stretched to the
 * car at hand. x is ahead of the rear axle, y is up from the plane of the tyres.
 */
import type { CarShape } from './carShape.ts';
import { scenePoint } from './pieces.ts';
import type { CubicPiece, CurveItem, Fill, SceneItem, ScenePoint, Stroke } from './scene.ts';

/** A point as `[ahead, up]`. */
type Pair = readonly [number, number];
type Triple = readonly [Pair, Pair, Pair];
/** Puts a point of the car where the car stands. */
export type Stand = (xMm: number, yMm: number) => ScenePoint;

/** Height the silhouette is drawn for, mm; other cars stretch it. */
const DRAWN_HEIGHT_MM = 1450;
/** Reach of a cubic quarter circle. */
const QUARTER = 0.5522847498;

interface Pen {
  readonly at: (pair: Pair) => ScenePoint;
}

function curve(
  pen: Pen,
  start: Pair,
  triples: readonly Triple[],
  closed: boolean,
  stroke: Stroke,
  fill?: Fill,
): CurveItem {
  const pieces = triples.map(
    ([a, b, c]): CubicPiece => ({ control1: pen.at(a), control2: pen.at(b), end: pen.at(c) }),
  );
  return {
    kind: 'curve',
    start: pen.at(start),
    pieces,
    closed,
    stroke,
    ...(fill === undefined ? {} : { fill }),
  };
}

const straight = (from: Pair, to: Pair): Triple => [from, to, to];

/** Over a wheel from its front to its rear, at radius `r` about the hub. */
function arch(hubX: number, hubY: number, r: number, foot: number): readonly Triple[] {
  const k = QUARTER * r;
  return [
    straight([hubX + r, foot], [hubX + r, hubY]),
    [
      [hubX + r, hubY + k],
      [hubX + k, hubY + r],
      [hubX, hubY + r],
    ],
    [
      [hubX - k, hubY + r],
      [hubX - r, hubY + k],
      [hubX - r, hubY],
    ],
    straight([hubX - r, hubY], [hubX - r, foot]),
  ];
}

/** Body from the rear bumper's foot over the roof to the nose and along the sill back. */
function bodyTriples(car: CarShape): { readonly start: Pair; readonly triples: readonly Triple[] } {
  const front = car.wheelbaseMm + car.frontOverhangMm;
  const rear = -car.rearOverhangMm;
  const wb = car.wheelbaseMm;
  const hub = car.tyreDiameterMm / 2;
  const archR = hub + 45;
  const sill = 225;
  const start: Pair = [rear + 95, 300];
  const triples: readonly Triple[] = [
    [
      [rear + 20, 330],
      [rear - 5, 480],
      [rear + 15, 640],
    ],
    [
      [rear + 25, 780],
      [rear + 35, 900],
      [rear + 95, 955],
    ],
    [
      [rear + 210, 1000],
      [rear + 420, 1005],
      [-380, 1012],
    ],
    [
      [-120, 1085],
      [190, 1335],
      [520, 1398],
    ],
    [
      [760, 1444],
      [1120, 1458],
      [wb - 1270, 1430],
    ],
    [
      [wb - 960, 1398],
      [wb - 640, 1130],
      [wb - 330, 985],
    ],
    [
      [wb + 60, 945],
      [front - 330, 850],
      [front - 150, 745],
    ],
    [
      [front - 50, 690],
      [front, 620],
      [front, 500],
    ],
    [
      [front, 380],
      [front - 25, 300],
      [front - 110, 268],
    ],
    straight([front - 110, 268], [wb + archR, sill + 20]),
    ...arch(wb, hub, archR, sill + 20),
    straight([wb - archR, sill], [archR, sill]),
    ...arch(0, hub, archR, sill),
    straight([-archR, sill + 25], start),
  ];
  return { start, triples };
}

function glass(car: CarShape): { readonly start: Pair; readonly triples: readonly Triple[] } {
  const wb = car.wheelbaseMm;
  const start: Pair = [70, 1022];
  return {
    start,
    triples: [
      [
        [240, 1160],
        [400, 1300],
        [580, 1345],
      ],
      [
        [800, 1388],
        [1100, 1398],
        [wb - 1290, 1376],
      ],
      [
        [wb - 1040, 1340],
        [wb - 800, 1160],
        [wb - 600, 1020],
      ],
      straight([wb - 600, 1020], start),
    ],
  };
}

function wheel(car: CarShape, xMm: number, role: 'ink' | 'pencil', stand: Stand): readonly SceneItem[] {
  const r = car.tyreDiameterMm / 2;
  const centre = stand(xMm, r);
  return [
    {
      kind: 'circle',
      centre,
      radiusMm: r,
      stroke: { role, pen: 'normal' },
      fill: { role: 'pencil', tone: 'pale' },
    },
    {
      kind: 'circle',
      centre,
      radiusMm: 0.62 * r,
      stroke: { role: 'pencil', pen: 'thin' },
      fill: { role: 'sheet', tone: 'full' },
    },
  ];
}

/** The car's side, standing where `stand` puts it. */
export function carSide(car: CarShape, role: 'ink' | 'pencil', stand: Stand): readonly SceneItem[] {
  const stretch = car.heightMm / DRAWN_HEIGHT_MM;
  const pen: Pen = { at: ([x, y]) => stand(x, y * stretch) };
  const body = bodyTriples({ ...car, tyreDiameterMm: car.tyreDiameterMm / stretch });
  const panes = glass(car);
  const inner: Stroke = { role: 'pencil', pen: 'thin' };
  const pillar = 0.47 * car.wheelbaseMm;
  return [
    curve(pen, body.start, body.triples, true, { role, pen: 'normal' }, { role: 'sheet', tone: 'full' }),
    curve(pen, panes.start, panes.triples, true, inner, { role: 'pencil', tone: 'pale' }),
    curve(pen, [pillar, 1392], [straight([pillar, 1392], [pillar - 40, 250])], false, inner),
    curve(
      pen,
      [-car.rearOverhangMm + 60, 900],
      [
        [
          [400, 960],
          [1600, 960],
          [car.wheelbaseMm + 0.6 * car.frontOverhangMm, 770],
        ],
      ],
      false,
      { role: 'hairline', pen: 'thin' },
    ),
    ...wheel(car, 0, role, stand),
    ...wheel(car, car.wheelbaseMm, role, stand),
  ];
}

/** A car that stands on a level floor at zero. */
export const levelStand: Stand = (xMm, yMm) => scenePoint(xMm, yMm);
