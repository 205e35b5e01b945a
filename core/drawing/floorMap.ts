/**
 * The surveyed floor from above: the grid's places with their heights over the lowest one, contour lines between them, and the
 * car where it is parked. A place under way is touched to be read. x runs along the bay to the right, y across it up.
 */
import { formatFixed } from '../units.ts';
import { say } from '../words/index.ts';
import { contourLines, contourStep, type HeightGrid } from './contourLines.ts';
import { line, scenePoint, sign } from './pieces.ts';
import type { Scene, SceneItem, ScenePoint, Sheet, TextItem } from './scene.ts';

/** What is drawn. */
export interface FloorMapRequest {
  readonly sheet: Sheet;
  readonly textPt: number;
  readonly decimalSign: ',' | '.';
  /** Heights with Z up, in any zero. */
  readonly grid: HeightGrid;
  /** Places given up as not readable: `column,row`. */
  readonly givenUp: ReadonlySet<string>;
  /** The place that is read next. */
  readonly next?: { readonly column: number; readonly row: number };
  /** True where places are touched to be read. */
  readonly touchable: boolean;
  /** The parked car's outline and its wheels, bay frame. */
  readonly car?: { readonly outline: readonly ScenePoint[]; readonly wheels: readonly ScenePoint[] };
}

/** A place of the grid as one text: what a touch of it picks. */
export const placeKey = ({ column, row }: { readonly column: number; readonly row: number }): string =>
  `${column},${row}`;

/** More places than this are drawn without their numbers. */
const MOST_NUMBERS = 80;
/** Air about the grid, as a share of its longer side. */
const MARGIN = 0.09;

function span(lines: readonly number[]): number {
  return (lines[lines.length - 1] ?? 0) - (lines[0] ?? 0);
}

function note(at: ScenePoint, text: string, textPt: number, more: Partial<TextItem> = {}): TextItem {
  return {
    kind: 'text',
    at,
    text,
    sizePt: textPt,
    bold: false,
    align: 'middle',
    rise: 'middle',
    role: 'pencil',
    masked: false,
    ...more,
  };
}

function gridItems({ grid, textPt }: FloorMapRequest): readonly SceneItem[] {
  const hair = { role: 'hairline', pen: 'thin' } as const;
  const [y0, y1] = [grid.ysMm[0] ?? 0, grid.ysMm[grid.ysMm.length - 1] ?? 0];
  const [x0, x1] = [grid.xsMm[0] ?? 0, grid.xsMm[grid.xsMm.length - 1] ?? 0];
  return [
    ...grid.xsMm.map((x) => line([scenePoint(x, y0), scenePoint(x, y1)], hair)),
    ...grid.ysMm.map((y) => line([scenePoint(x0, y), scenePoint(x1, y)], hair)),
    ...grid.xsMm.map((x) =>
      note(scenePoint(x, y0 - 0.04 * Math.max(x1 - x0, y1 - y0)), formatFixed(x, 0), textPt, {
        rise: 'below',
      }),
    ),
    ...grid.ysMm.map((y) =>
      note(scenePoint(x0 - 0.03 * Math.max(x1 - x0, y1 - y0), y), formatFixed(y, 0), textPt, {
        align: 'end',
      }),
    ),
  ];
}

function contourItems(request: FloorMapRequest, stepMm: number, lowestMm: number): readonly SceneItem[] {
  const { grid, textPt } = request;
  const over: HeightGrid = {
    ...grid,
    heightsMm: grid.heightsMm.map((row) => row.map((h) => (h === undefined ? undefined : h - lowestMm))),
  };
  return contourLines(over, stepMm).flatMap(({ heightMm, points }): readonly SceneItem[] => {
    const at = points[Math.floor(points.length / 2)];
    const text = formatFixed(heightMm, stepMm < 1 ? 1 : 0, request.decimalSign);
    return [
      line(points, { role: 'accent', pen: 'normal' }),
      ...(at === undefined || points.length < 3
        ? []
        : [note(at, text, textPt, { masked: true, role: 'accent', bold: true })]),
    ];
  });
}

function placeItems(request: FloorMapRequest, lowestMm: number): readonly SceneItem[] {
  const { grid, textPt, next, decimalSign } = request;
  const numbers = grid.xsMm.length * grid.ysMm.length <= MOST_NUMBERS;
  return grid.ysMm.flatMap((y, row) =>
    grid.xsMm.flatMap((x, column): readonly SceneItem[] => {
      const at = scenePoint(x, y);
      const height = grid.heightsMm[row]?.[column];
      const key = placeKey({ column, row });
      const isNext = next?.column === column && next.row === row;
      const touch = request.touchable
        ? {
            pick: key,
            pickLabel: say('drawing.floor.place', {
              along: formatFixed(x, 0),
              across: formatFixed(y, 0),
            }),
            pulse: isNext,
          }
        : {};
      const shape = request.givenUp.has(key) ? 'cross' : height === undefined ? 'ring' : 'dot';
      const text = height === undefined ? [] : [formatFixed(height - lowestMm, 1, decimalSign)];
      return [
        sign(at, isNext ? 'ring' : shape, isNext ? 18 : 7, isNext ? 'accent' : 'ink', touch),
        ...(numbers
          ? text.map((each) => note(at, ` ${each}`, textPt, { align: 'start', rise: 'above', role: 'ink' }))
          : []),
      ];
    }),
  );
}

function carItems({ car }: FloorMapRequest): readonly SceneItem[] {
  if (car === undefined) return [];
  return [
    {
      kind: 'polyline',
      closed: true,
      points: car.outline,
      stroke: { role: 'ink', pen: 'normal', dash: 'dashed' },
    },
    ...car.wheels.map((at) => sign(at, 'mark', 12, 'ink')),
  ];
}

/** The map of a floor, whole or under way. */
export function floorMapScene(request: FloorMapRequest): Scene {
  const { grid, textPt } = request;
  const known = grid.heightsMm.flat().filter((height) => height !== undefined);
  const lowest = known.length === 0 ? 0 : Math.min(...known);
  const fall = known.length === 0 ? 0 : Math.max(...known) - lowest;
  const stepMm = contourStep(fall);
  const margin = MARGIN * Math.max(span(grid.xsMm), span(grid.ysMm));
  const whole = known.length + request.givenUp.size >= grid.xsMm.length * grid.ysMm.length;
  const corners = [...(request.car?.outline ?? [])];
  const [x0, x1] = [grid.xsMm[0] ?? 0, grid.xsMm[grid.xsMm.length - 1] ?? 0];
  const [y0, y1] = [grid.ysMm[0] ?? 0, grid.ysMm[grid.ysMm.length - 1] ?? 0];
  const { decimalSign } = request;
  const caption = whole
    ? say('drawing.floor.caption', {
        fall: formatFixed(fall, 1, decimalSign),
        step: formatFixed(stepMm, stepMm < 1 ? 1 : 0, decimalSign),
      })
    : say('drawing.floor.underWay', { count: String(known.length) });
  return {
    title: say('drawing.floor.title'),
    description: caption,
    view: 'level',
    viewerAt: 'ahead',
    sheet: request.sheet,
    bounds: {
      minXMm: Math.min(x0, ...corners.map((p) => p.xMm)) - 1.2 * margin,
      maxXMm: Math.max(x1, ...corners.map((p) => p.xMm)) + margin,
      minYMm: Math.min(y0, ...corners.map((p) => p.yMm)) - 1.6 * margin,
      maxYMm: Math.max(y1, ...corners.map((p) => p.yMm)) + margin,
    },
    items: [
      ...gridItems(request),
      ...carItems(request),
      ...(whole ? contourItems(request, stepMm, lowest) : []),
      ...placeItems(request, lowest),
      note(scenePoint((x0 + x1) / 2, y0 - 1.2 * margin), caption, textPt),
    ],
  };
}
