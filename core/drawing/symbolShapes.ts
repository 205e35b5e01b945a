/** The signs of points, all drawn about the point itself and told apart by shape alone. */
import { assertNever } from '../result.ts';
import { PEN_PT, type SceneRole, type SymbolItem } from './scene.ts';
import type { SheetPoint } from './sceneView.ts';
import { type PathCommand, type PathShape, straightPath } from './sheetShape.ts';

/** Control reach of a quarter circle drawn as one cubic: 4/3 tan(pi/8). */
const QUARTER = 0.5522847498;

function ring(at: SheetPoint, radius: number): readonly PathCommand[] {
  const point = (x: number, y: number): SheetPoint => ({
    xPt: at.xPt + x * radius,
    yPt: at.yPt + y * radius,
  });
  const cubic = (a: SheetPoint, b: SheetPoint, to: SheetPoint): PathCommand => ({
    command: 'cubic',
    control1: a,
    control2: b,
    to,
  });
  return [
    { command: 'move', to: point(1, 0) },
    cubic(point(1, QUARTER), point(QUARTER, 1), point(0, 1)),
    cubic(point(-QUARTER, 1), point(-1, QUARTER), point(-1, 0)),
    cubic(point(-1, -QUARTER), point(-QUARTER, -1), point(0, -1)),
    cubic(point(QUARTER, -1), point(1, -QUARTER), point(1, 0)),
    { command: 'close' },
  ];
}

function quarter(at: SheetPoint, radius: number, x: 1 | -1, y: 1 | -1): readonly PathCommand[] {
  const point = (a: number, b: number): SheetPoint => ({
    xPt: at.xPt + a * radius,
    yPt: at.yPt + b * radius,
  });
  return [
    { command: 'move', to: at },
    { command: 'line', to: point(x, 0) },
    { command: 'cubic', control1: point(x, QUARTER * y), control2: point(QUARTER * x, y), to: point(0, y) },
    { command: 'close' },
  ];
}

function cross(at: SheetPoint, reach: number): readonly PathCommand[] {
  return [
    ...straightPath(
      [
        { xPt: at.xPt - reach, yPt: at.yPt },
        { xPt: at.xPt + reach, yPt: at.yPt },
      ],
      false,
    ),
    ...straightPath(
      [
        { xPt: at.xPt, yPt: at.yPt - reach },
        { xPt: at.xPt, yPt: at.yPt + reach },
      ],
      false,
    ),
  ];
}

function polygon(at: SheetPoint, corners: readonly (readonly [number, number])[]): readonly PathCommand[] {
  return straightPath(
    corners.map(([x, y]) => ({ xPt: at.xPt + x, yPt: at.yPt + y })),
    true,
  );
}

const outlined = (commands: readonly PathCommand[], role: SceneRole): PathShape => ({
  kind: 'path',
  commands,
  stroke: { role, widthPt: PEN_PT.normal, dashPt: [] },
  fill: { role: 'sheet', tone: 'full' },
});

const lined = (commands: readonly PathCommand[], role: SceneRole): PathShape => ({
  kind: 'path',
  commands,
  stroke: { role, widthPt: PEN_PT.normal, dashPt: [] },
});

const filled = (commands: readonly PathCommand[], role: SceneRole): PathShape => ({
  kind: 'path',
  commands,
  fill: { role, tone: 'full' },
});

/** The shapes of one sign; `sizePt` is its width. */
export function symbolShapes(item: SymbolItem, at: SheetPoint): readonly PathShape[] {
  const r = item.sizePt / 2;
  const { role } = item;
  switch (item.shape) {
    case 'hub':
      return [outlined(ring(at, r * 0.7), role), lined(cross(at, r), role)];
    case 'mark':
      return [
        outlined(
          polygon(at, [
            [0, -r],
            [r * 0.9, r * 0.6],
            [-r * 0.9, r * 0.6],
          ]),
          role,
        ),
        filled(ring(at, r * 0.2), role),
      ];
    case 'linePoint':
      return [
        outlined(
          polygon(at, [
            [0, -r],
            [r, 0],
            [0, r],
            [-r, 0],
          ]),
          role,
        ),
      ];
    case 'barEnd':
      return [
        filled(
          polygon(at, [
            [-r, -r],
            [r, -r],
            [r, r],
            [-r, r],
          ]),
          role,
        ),
      ];
    case 'centre':
      return [
        outlined(ring(at, r), role),
        filled([...quarter(at, r, 1, -1), ...quarter(at, r, -1, 1)], role),
      ];
    case 'cross':
      return [lined(cross(at, r), role)];
    case 'dot':
      return [filled(ring(at, r), role)];
    case 'ring':
      return [lined(ring(at, r), role)];
    case 'touch':
      return [];
    default:
      return assertNever(item.shape);
  }
}
