/** What would prove a tolerance that a plan does not: other recipes and more careful work, each reading taken once. */
import type { WorkClass } from '../placement/equipment.ts';
import { planDesign, predict } from './predict.ts';
import { provable } from './proves.ts';
import { planOnce, RECIPES } from './recipes.ts';
import type { PlanSetUp, PlanTarget, RecipeId } from './types.ts';

/** One recipe with one way of working, and what it would find; mm or rad. */
export interface Alternative {
  readonly recipe: RecipeId;
  readonly work: WorkClass;
  readonly u: number;
  readonly U: number;
  readonly proves: boolean;
}

const WORKS: readonly WorkClass[] = ['typical', 'careful', 'best'];

/** Every recipe and way of working for one coordinate, the least demanding work first; those that cannot serve are left out. */
export function alternativesFor(setUp: PlanSetUp, target: PlanTarget): readonly Alternative[] {
  const permitted = setUp.stations.find(({ id }) => id === target.station)?.[target.coordinate].permitted;
  return WORKS.flatMap((work) =>
    RECIPES.flatMap((recipe): readonly Alternative[] => {
      const there = { ...setUp, equipment: { ...setUp.equipment, work } };
      const design = planDesign(there, recipe);
      const predicted = design.ok ? predict(design.value, planOnce(design.value.laid.slots)) : undefined;
      const found = predicted?.ok
        ? predicted.value
            .find(({ station }) => station === target.station)
            ?.coordinates.find(({ coordinate }) => coordinate === target.coordinate)
        : undefined;
      if (found === undefined) return [];
      const { u, U } = found;
      const proves = permitted === undefined || provable({ u, U }, permitted, setUp.decisionRule).proven;
      return [{ recipe: recipe.id, work, u, U, proves }];
    }),
  );
}

/** The first that proves: the least demanding work, and of that the preferred recipe. */
export function whatWouldProve(setUp: PlanSetUp, target: PlanTarget): Alternative | undefined {
  return alternativesFor(setUp, target).find(({ proves }) => proves);
}
