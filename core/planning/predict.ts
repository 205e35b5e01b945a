/** Predicted u, dof and U of every coordinate, from the design matrix and the stated uncertainties alone. */
import { at } from '../linalg/at.ts';
import type { ReadingShare } from '../placement/finding.ts';
import { shareName } from '../placement/names.ts';
import { err, ok, type Result } from '../result.ts';
import { coverageFactor } from '../uncertainty/coverage.ts';
import { type Design, designOf } from './design.ts';
import { type Counts, countsOf, dofOf, type Evaluation, evaluate, missingOf } from './evaluate.ts';
import { layOutRecipe } from './network.ts';
import type {
  Plan,
  PlanningError,
  PlanRecipe,
  PlanSetUp,
  PredictedCoordinate,
  PredictedStation,
} from './types.ts';

/** The design of a recipe for a set-up: keep it while neither changes, and predict any plan from it. */
export function planDesign(setUp: PlanSetUp, recipe: PlanRecipe): Result<Design, PlanningError> {
  const laid = layOutRecipe(setUp, recipe);
  return laid.ok ? designOf(laid.value) : laid;
}

/**
 * What a plan will find at the required pose: for careful work with the default recipe, each reading once and the target 5 m
 * from the rear axle, U to the side is 4.2 mm. Fails with `planning/undetermined` and the missing readings.
 */
export function predict(design: Design, plan: Plan): Result<readonly PredictedStation[], PlanningError> {
  const counts = countsOf(design, plan);
  const evaluation = evaluate(design, counts);
  if (evaluation === undefined) {
    return err({ code: 'planning/undetermined', readingIds: missingOf(design, counts) });
  }
  return ok(stationsOf(design, evaluation));
}

/** The same from counts that are known to hold everything. */
export function predictCounts(design: Design, counts: Counts): readonly PredictedStation[] | undefined {
  const evaluation = evaluate(design, counts);
  return evaluation === undefined ? undefined : stationsOf(design, evaluation);
}

function stationsOf(design: Design, evaluation: Evaluation): readonly PredictedStation[] {
  return design.laid.setUp.stations.map((station) => ({
    station: station.id,
    coordinates: design.targets.flatMap((target, k): readonly PredictedCoordinate[] => {
      if (target.station !== station.id) return [];
      const { coordinate } = target;
      const u = Math.sqrt(Math.max(0, at(evaluation.variance, k)));
      const dof = dofOf(evaluation, k);
      const factor = coverageFactor(dof);
      const { permitted } = station[coordinate];
      const judged = permitted !== undefined && station.free?.includes(coordinate) !== true;
      return [
        {
          coordinate,
          u,
          dof,
          k: factor,
          U: factor * u,
          ...(judged ? { permitted } : {}),
          shares: sharesOf(design, evaluation, k),
        },
      ];
    }),
  }));
}

/** Parts of one target's variance by what a person knows them as, the largest first. */
function sharesOf(design: Design, evaluation: Evaluation, target: number): readonly ReadingShare[] {
  const rows = design.source.length;
  const parts = new Map<string, number>();
  let total = 0;
  design.source.forEach((source, r) => {
    const t = at(evaluation.influence, target * rows + r);
    const part = t * t * at(evaluation.weight, r);
    if (part === 0) return;
    const name = shareName(source);
    parts.set(name, (parts.get(name) ?? 0) + part);
    total += part;
  });
  return [...parts]
    .map(([readingId, part]) => ({ readingId, share: part / total }))
    .sort((a, b) => b.share - a.share);
}
