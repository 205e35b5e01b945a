/** The fixture on the plan: as it stands in accent, as required in dashed ink, the targets of slide stations dotted. */
import { line, movedAlong, sign } from './pieces.ts';
import type { FixtureStand, PlanModel } from './planModel.ts';
import type { PolylineItem, SceneItem, ScenePoint, Stroke } from './scene.ts';

/** Drawn depth of the target board, mm; its front edge is the face. */
const BOARD_DEPTH_MM = 45;
/** Drawn size of the castored base, mm: half its width, its depth behind and before the mast. */
const BASE = { halfMm: 330, behindMm: 300, beforeMm: 60 } as const;
/** Symbol sizes, points. */
const END_PT = 8;
const CENTRE_PT = 9;

interface Axes {
  readonly outRad: number;
  readonly acrossRad: number;
}

const axesOf = (stand: FixtureStand): Axes => ({
  outRad: stand.facingRad,
  acrossRad: stand.facingRad + Math.PI / 2,
});

function corner(at: ScenePoint, axes: Axes, outMm: number, acrossMm: number): ScenePoint {
  return movedAlong(movedAlong(at, outMm, axes.outRad), acrossMm, axes.acrossRad);
}

/** The board as a closed rectangle with its front edge on the face. */
function board(stand: FixtureStand, widthMm: number, stroke: Stroke, filled: boolean): PolylineItem {
  const axes = axesOf(stand);
  const half = widthMm / 2;
  return {
    kind: 'polyline',
    closed: true,
    points: [
      corner(stand.face, axes, 0, half),
      corner(stand.face, axes, 0, -half),
      corner(stand.face, axes, -BOARD_DEPTH_MM, -half),
      corner(stand.face, axes, -BOARD_DEPTH_MM, half),
    ],
    stroke,
    ...(filled ? { fill: { role: 'accent', tone: 'pale' } } : {}),
  };
}

function base(stand: FixtureStand): readonly SceneItem[] {
  const axes = axesOf(stand);
  const at = (out: number, across: number): ScenePoint => corner(stand.bar, axes, out, across);
  const leg: Stroke = { role: 'accent', pen: 'thin' };
  return [
    line([at(-BASE.behindMm, -BASE.halfMm), at(BASE.beforeMm, 0), at(-BASE.behindMm, BASE.halfMm)], leg),
    line([at(-BASE.behindMm, -BASE.halfMm), at(-BASE.behindMm, BASE.halfMm)], leg),
  ];
}

function standing(stand: FixtureStand, boardWidthMm: number, scale: number): readonly SceneItem[] {
  return [
    ...base(stand),
    board(stand, boardWidthMm, { role: 'accent', pen: 'normal' }, true),
    line([stand.endCarLeft, stand.endCarRight], { role: 'accent', pen: 'thick' }),
    sign(stand.endCarLeft, 'barEnd', END_PT * scale, 'accent'),
    sign(stand.endCarRight, 'barEnd', END_PT * scale, 'accent'),
    sign(stand.face, 'centre', CENTRE_PT * scale, 'accent'),
  ];
}

function requiredItems(
  stand: FixtureStand,
  boardWidthMm: number,
  role: 'ink' | 'pencil',
): readonly SceneItem[] {
  const dashed: Stroke = { role, pen: 'normal', dash: 'dashed' };
  return [
    line([stand.endCarLeft, stand.endCarRight], dashed),
    board(stand, boardWidthMm, { ...dashed, pen: 'thin' }, false),
  ];
}

/** Fixture items, the required stand under the found one; none when no station is asked for. */
export function fixtureItems(model: PlanModel, scale: number): readonly SceneItem[] {
  const { required, found } = model;
  if (required === undefined) return [];
  const width = model.fixture.boardWidthMm;
  const role = model.datumKnown ? 'ink' : 'pencil';
  const dotted: Stroke = { role: 'pencil', pen: 'thin', dash: 'dotted' };
  return [
    ...model.otherFaces.map((face) => board({ ...required, face }, width, dotted, false)),
    ...requiredItems(required, width, role),
    ...(found === undefined
      ? [sign(required.face, 'centre', CENTRE_PT * scale, role)]
      : standing(found, width, scale)),
  ];
}
