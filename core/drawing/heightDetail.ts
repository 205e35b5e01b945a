/**
 * The detail of the side view: the target's centre over the plane of the tyres and the lean of its face, enlarged as in
 * the plan. Heights, tolerance and guard share the scale; the board is drawn shorter, its edges carrying their lean.
 */
import { formatFixed, formatLength } from '../units.ts';
import { say } from '../words/index.ts';
import type { ElevationLayout } from './elevationLayout.ts';
import type { ElevationModel, ElevationRequest } from './elevationModel.ts';
import { gridChords } from './grid.ts';
import { FINE_STEPS, niceBelow } from './niceScale.ts';
import { line, scenePoint, sign } from './pieces.ts';
import type { SceneItem, ScenePoint, Stroke } from './scene.ts';

/** Shares of the circle's radius: half the drawn board, the largest deviation, the board's shift, half the band. */
const BOARD_SHARE = 0.5;
const REACH_SHARE = 0.62;
const BOARD_ROOM_SHARE = 0.42;
const BAND_SHARE = 0.5;
const LEAST_REACH_MM = 4;
const LEAST_SQUARES = 6;
const GUARD_FACTOR = 1.645;

/** Height, lean and their limits, true mm and radians. */
interface HeightState {
  readonly deviationMm?: number;
  readonly leanRad: number;
  readonly uMm: number;
  readonly lower?: number;
  readonly upper?: number;
}

function stateOf(model: ElevationModel): HeightState {
  const { finding, requirement } = model.plan;
  const up = finding?.coordinates.find((each) => each.coordinate === 'up');
  const limits = up?.permitted ?? requirement?.up.permitted;
  const variance = finding?.covariance[2]?.[2] ?? 0;
  return {
    ...(finding === undefined ? {} : { deviationMm: finding.target.upMm - finding.required.upMm }),
    // The finding's pitch is of the vehicle frame (top ahead); the pose's own one flips with the face's heading.
    leanRad: finding?.coordinates.find((each) => each.coordinate === 'pitch')?.deviation ?? 0,
    uMm: Math.sqrt(variance),
    ...(limits?.lower === undefined ? {} : { lower: limits.lower }),
    ...(limits?.upper === undefined ? {} : { upper: limits.upper }),
  };
}

function bandItems(
  state: HeightState,
  at: (x: number, up: number) => ScenePoint,
  half: number,
): readonly SceneItem[] {
  const { lower, upper } = state;
  const ink: Stroke = { role: 'ink', pen: 'normal' };
  const edges = [lower, upper].flatMap((limit) =>
    limit === undefined ? [] : [line([at(-half, limit), at(half, limit)], ink)],
  );
  if (lower === undefined || upper === undefined) return edges;
  return [
    {
      kind: 'polyline',
      closed: true,
      points: [at(-half, lower), at(half, lower), at(half, upper), at(-half, upper)],
      fill: { role: 'pencil', tone: 'pale' },
    },
    ...edges,
  ];
}

function guardItems(
  state: HeightState,
  guardFactor: number,
  at: (x: number, up: number) => ScenePoint,
  capMm: number,
): readonly SceneItem[] {
  const { deviationMm, uMm } = state;
  if (deviationMm === undefined || uMm === 0) return [];
  const pen: Stroke = { role: 'accent', pen: 'normal' };
  const tips = [deviationMm - guardFactor * uMm, deviationMm + guardFactor * uMm];
  return [
    line(
      tips.map((tip) => at(0, tip)),
      pen,
    ),
    ...tips.map((tip) => line([at(-capMm, tip), at(capMm, tip)], pen)),
  ];
}

/** The board's edges in the circle: `lean` is how far its upper edge stands ahead of its centre, true mm. */
function boardLine(centre: ScenePoint, halfMm: number, leanMm: number, stroke: Stroke): SceneItem {
  return line(
    [
      scenePoint(centre.xMm - leanMm, centre.yMm - halfMm),
      scenePoint(centre.xMm + leanMm, centre.yMm + halfMm),
    ],
    stroke,
  );
}

/** The detail circle; nothing when no height is asked for. */
export function heightDetail(
  request: ElevationRequest,
  model: ElevationModel,
  layout: ElevationLayout,
): readonly SceneItem[] {
  if (model.requiredUpMm === undefined) return [];
  const frame = layout.detail;
  const state = stateOf(model);
  const lean = Math.tan(state.leanRad) * (model.plan.fixture.boardWidthMm / 2);
  const reach = Math.max(
    LEAST_REACH_MM,
    Math.abs(state.lower ?? 0),
    Math.abs(state.upper ?? 0),
    Math.abs(state.deviationMm ?? 0) + 2 * state.uMm,
    Math.abs(lean),
  );
  const rise = Math.max(Math.abs(state.deviationMm ?? 0), 1);
  const factor = niceBelow(
    Math.min((REACH_SHARE * frame.radiusMm) / reach, (BOARD_ROOM_SHARE * frame.radiusMm) / rise),
    FINE_STEPS,
  );
  const squareMm = niceBelow((2 * frame.radiusMm) / factor / LEAST_SQUARES);
  const at = (x: number, up: number): ScenePoint =>
    scenePoint(frame.centre.xMm + x, frame.centre.yMm + factor * up);
  const half = BOARD_SHARE * frame.radiusMm;
  const cap = (5 * layout.signScale) / layout.transform.ptPerMm;
  const circle = { kind: 'circle', centre: frame.centre, radiusMm: frame.radiusMm } as const;
  const found = state.deviationMm === undefined ? undefined : at(0, state.deviationMm);
  const { textPt, decimalSign, unit } = request;
  const title = say('drawing.elevation.detail', {
    factor: formatFixed(factor, Number.isInteger(factor) ? 0 : 1, decimalSign),
    square: formatLength(squareMm, squareMm < 1 ? 1 : 0, unit, decimalSign),
  });
  return [
    { ...circle, fill: { role: 'sheet', tone: 'full' } },
    ...gridChords(frame.centre, frame.radiusMm, squareMm * factor),
    ...bandItems(state, at, BAND_SHARE * frame.radiusMm),
    boardLine(frame.centre, half, 0, { role: 'ink', pen: 'normal', dash: 'dashed' }),
    sign(frame.centre, 'cross', 16 * layout.signScale, 'ink'),
    ...(found === undefined ? [] : [boardLine(found, half, lean * factor, { role: 'accent', pen: 'thick' })]),
    ...guardItems(state, request.guardFactor ?? GUARD_FACTOR, at, cap),
    ...(found === undefined ? [] : [sign(found, 'centre', 9 * layout.signScale, 'accent')]),
    { ...circle, stroke: { role: 'ink', pen: 'normal' } },
    {
      kind: 'text',
      at: layout.transform.toWorld({
        xPt: request.sheet.widthPt - 0.6 * textPt,
        yPt: frame.centrePt.yPt - frame.radiusPt - 0.45 * textPt,
      }),
      text: title,
      sizePt: textPt,
      bold: false,
      align: 'end',
      rise: 'above',
      role: 'ink',
      masked: true,
    },
  ];
}
