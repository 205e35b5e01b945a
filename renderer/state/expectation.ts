/**
 * What a reading at the fixture would show if the fixture stood where it must. Used only after the entry, and only to
 * ask when the reading is far off: proof is read blind.
 */
import { planModel } from '../../core/drawing/planModel.ts';
import type { ScenePoint } from '../../core/drawing/scene.ts';
import type { ReadingContext } from '../../core/entry/index.ts';
import { fixtureShape } from '../../core/job/equipment.ts';
import type { PlacementAnswer } from '../../core/placement/placementAnswer.ts';
import type { ReadingPoint } from '../../core/placement/recipe.ts';
import type { PlacementView } from './placementView.ts';
import { contextOf } from './readingEntry.ts';
import { partnerOf, type Slot } from './readings.ts';

function requiredPoints(
  view: PlacementView,
  answer: PlacementAnswer,
): Partial<Record<ReadingPoint, ScenePoint>> {
  const { equipment } = view.sensor;
  if (equipment === null || answer.vehicle === undefined) return {};
  const model = planModel({
    sheet: { widthPt: 100, heightPt: 100 },
    textPt: 14,
    view: 'asIStand',
    decimalSign: '.',
    unit: 'mm',
    stations: view.stations,
    recipe: [],
    taken: [],
    medium: 'screen',
    fixture: fixtureShape(equipment),
    answer: { ...answer, stations: [] },
  });
  if (model.required === undefined) return {};
  return {
    ...model.points,
    'barEnd.carLeft': model.required.endCarLeft,
    'barEnd.carRight': model.required.endCarRight,
  };
}

/** Expected value in mm of a distance to a bar end, of the target's height or of a slide; undefined for any other. */
export function expectedMm(slot: Slot, view: PlacementView): number | undefined {
  if (!view.answer.ok) return undefined;
  const answer = view.answer.value;
  const { spec } = slot;
  if (spec.kind === 'slide') {
    return answer.stations.find((each) => each.station === spec.station)?.slide?.setMm;
  }
  // A control is held against what it repeats, never against where the fixture should stand.
  if (spec.stage !== 'placement') return undefined;
  if (spec.kind === 'height') return view.stations[0]?.up.value;
  if (spec.kind !== 'distance') return undefined;
  const points = requiredPoints(view, answer);
  const [a, b] = spec.points.map((name) => points[name]);
  return a === undefined || b === undefined ? undefined : Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm);
}

/** What is known about a reading before it is typed, at the fixture with what the required pose says of both sides. */
export function entryContext(slot: Slot, slots: readonly Slot[], view: PlacementView): ReadingContext {
  const partner = partnerOf(slot, slots);
  return contextOf(
    slot,
    slots,
    expectedMm(slot, view),
    partner === undefined ? undefined : expectedMm(partner, view),
  );
}
