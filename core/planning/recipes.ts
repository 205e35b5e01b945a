/**
 * The recipes planning knows, as data, and the readings of each with what they cost. A station's own needs are added to
 * all of them: the plumbed body face, the rear wheels' headings, the slides.
 */
import { length, subtract } from '../geometry/vector.ts';
import type { InstrumentKind } from '../placement/equipment.ts';
import { defaultRecipe, nearPoints, type ReadingSpec, slotKey } from '../placement/recipe.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import { planDefaults } from './defaults.ts';
import { distanceEnds, type Nominal, pointAt } from './nominal.ts';
import type { PlanRecipe, PlanSetUp, PlanSlot, RecipeId } from './types.ts';

/** All recipes, the one to prefer first. */
export const RECIPES = [
  { id: 'default', axles: 'both', headings: 'alignmentReport', leaveOut: [] },
  { id: 'oneDiagonal', axles: 'both', headings: 'alignmentReport', leaveOut: ['diagonal.RL'] },
  { id: 'rimHeadings', axles: 'both', headings: 'rim', leaveOut: [] },
  { id: 'rearOnly', axles: 'rear', headings: 'alignmentReport', leaveOut: [] },
] as const satisfies readonly PlanRecipe[];

/** A recipe by its name. */
export function recipeById(id: RecipeId): PlanRecipe {
  return RECIPES.find((recipe) => recipe.id === id) ?? RECIPES[0];
}

/** Of each of these sets one reading may be left out: three lengths close the figure. */
export const ONE_MAY_BE_ABSENT = [
  ['width.behind', 'diagonal.RL', 'diagonal.LR', 'width.ahead'],
  ['bar.sameL', 'bar.diagLR', 'bar.sameR', 'bar.diagRL'],
] as const;

const optionalKeys: ReadonlySet<string> = new Set(ONE_MAY_BE_ABSENT.flat());

/** True when a station measures from the thrust line. */
export function wantsThrustLine(stations: readonly StationRequirement[]): boolean {
  return stations.some(({ left, yaw }) => left.from === 'thrustLine' || yaw.from === 'thrustLine');
}

type Draft = { readonly key: string; readonly label: string; readonly instrument: InstrumentKind };

const REAR_DISTANCES: readonly Draft[] = ['rear.sameL', 'rear.diagLR', 'rear.sameR', 'rear.diagRL'].map(
  (key) => ({ key, label: `planning.reading.${key}`, instrument: 'tape' }),
);
const RIM_HEADINGS: readonly Draft[] = ['rim.RL', 'rim.RR'].map((key) => ({
  key,
  label: `planning.reading.${key}`,
  instrument: 'rule',
}));

/** Readings of the default recipe that need marks under the front hubs, or the car-side lines through them. */
function needsFront({ id, kind, points }: ReadingSpec): boolean {
  if (kind === 'floorHeight') return false;
  return kind === 'offset' || id.startsWith('bar.') || points.some((point) => FRONT_POINT.test(point));
}
const FRONT_POINT = /^(?:(?:hub|mark)\.F|ahead\.|behind\.)/;

function draftsOf(setUp: PlanSetUp, recipe: PlanRecipe): readonly Draft[] {
  const specs = defaultRecipe({ stations: setUp.stations }).filter(
    (spec) => spec.purpose === 'proof' && !spec.optional,
  );
  const rim = recipe.headings === 'rim' && wantsThrustLine(setUp.stations);
  const kept = specs.filter(
    (spec) =>
      !recipe.leaveOut.includes(spec.id) &&
      !(rim && spec.kind === 'toe') &&
      !(recipe.axles === 'rear' && needsFront(spec)),
  );
  const drafts = kept.map((spec) => ({
    key: slotKey(spec),
    label: spec.label,
    instrument: spec.instrument,
  }));
  const at = drafts.findIndex(({ key }) => key === 'target.height');
  return [
    ...drafts.slice(0, at),
    ...(recipe.axles === 'rear' ? REAR_DISTANCES : []),
    ...(rim ? RIM_HEADINGS : []),
    ...drafts.slice(at),
  ];
}

/** The readings of a recipe for a set-up, in walking order. */
export function planSlots(setUp: PlanSetUp, recipe: PlanRecipe, layout: Nominal): readonly PlanSlot[] {
  const ends = new Map(distanceEnds(nearPoints(setUp.stations)).map(([key, a, b]) => [key, [a, b]] as const));
  return draftsOf(setUp, recipe).map((draft) => {
    const joined = ends.get(draft.key);
    const [a = 'target', b = 'target'] = joined ?? [];
    const walkMm = length(subtract(pointAt(layout.points, a), pointAt(layout.points, b)));
    const cost = draft.key.startsWith('rim.') ? 4 : 1;
    return {
      ...draft,
      least: optionalKeys.has(draft.key) ? 0 : 1,
      most: planDefaults.most[draft.instrument],
      cost,
      // Whole seconds: both sides of a car then take equally long, and a search need not tell them apart.
      seconds: Math.round(cost * planDefaults.seconds[draft.instrument] + walkMm / planDefaults.walkMmPerS),
    };
  });
}

/** The plan that takes each reading once. */
export function planOnce(slots: readonly PlanSlot[]): ReadonlyMap<string, number> {
  return new Map(slots.map(({ key }) => [key, 1]));
}
