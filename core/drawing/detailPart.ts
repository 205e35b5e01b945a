/** The whole detail of a plan: circle, move, captions and names. */
import { formatLength } from '../units.ts';
import { say } from '../words/index.ts';
import { detailItems } from './detail.ts';
import { type DetailNames, detailLabels, detailTitle } from './detailLabels.ts';
import { detailLegend } from './detailLegend.ts';
import { detailModel } from './detailModel.ts';
import { moveArrows } from './detailMove.ts';
import { detailPlaces } from './detailPlaces.ts';
import type { PlanLayout } from './planLayout.ts';
import type { PlanModel, PlanRequest } from './planModel.ts';
import type { SceneItem } from './scene.ts';

/** The decision rule's usual guard, standard uncertainties (JCGM 106, one-sided 95 % of a normal distribution). */
const GUARD_FACTOR = 1.645;

function namesOf(request: PlanRequest, model: PlanModel, hasArrows: boolean): DetailNames {
  if (model.found === undefined) return { note: say('drawing.notMeasured') };
  const move = request.answer?.moves[0];
  if (move === undefined || !hasArrows) return {};
  return { amount: formatLength(move.amountMm, 1, request.unit, request.decimalSign) };
}

function foundText(model: PlanModel): string | undefined {
  if (model.found === undefined) return undefined;
  return say(model.finding?.basis === 'expected' ? 'drawing.expected' : 'drawing.found');
}

/** Items of the detail, bottom first; none without a station. */
export function detailPart(request: PlanRequest, model: PlanModel, layout: PlanLayout): readonly SceneItem[] {
  const detail = detailModel(model, layout, request.guardFactor ?? GUARD_FACTOR);
  if (detail === undefined) return [];
  const { textPt, decimalSign, unit } = request;
  const writing = { textPt, decimalSign, unit };
  const move = request.answer?.moves[0];
  const places = detailPlaces(detail, layout.detail);
  const arrows =
    move === undefined ? [] : moveArrows(move, detail, places, layout.transform.ptPerMm, layout.signScale);
  const { centrePt, radiusPt } = layout.detail;
  const legendPt = { xPt: centrePt.xPt, yPt: centrePt.yPt + radiusPt + 1.15 * textPt };
  const roomPt = request.sheet.widthPt - layout.columnPt - textPt;
  return [
    ...detailItems(detail, layout, arrows),
    detailTitle(detail, layout, writing),
    ...detailLegend(detail, foundText(model), legendPt, roomPt, writing, layout.transform),
    ...detailLabels(detail, layout, arrows, namesOf(request, model, arrows.length > 0), writing),
  ];
}
