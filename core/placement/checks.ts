/** What the readings say about each other: global test, suspects, residuals and controls. */
import type { RowResult, Solution } from '../adjust/solution.ts';
import { repeatabilityLimit } from '../uncertainty/readingUncertainty.ts';
import type { WorkUncertainties } from './defaults.ts';
import { shareName } from './names.ts';
import type { ControlFinding, GlobalTestFinding, ResidualFinding, SuspectFinding } from './readingFinding.ts';
import { repeatability, type SlotValues } from './readings.ts';
import type { ReadingSpec } from './recipe.ts';
import { slotKey } from './recipe.ts';

/** The global test; absent while nothing is redundant. */
export function globalTestOf(solution: Solution): GlobalTestFinding | undefined {
  const { chiSquare, dof, limit, passed } = solution.globalTest;
  return dof > 0 ? { chiSquare, dof, limit, passed } : undefined;
}

/**
 * Suspected readings by what a person knows them as, the likeliest first. The engine drops none of them. What is known
 * beforehand (an arm, the tape) may be among them but cannot be read again, so it never is the one that separates them.
 */
export function suspectsOf(solution: Solution, values: SlotValues): readonly SuspectFinding[] {
  return solution.suspicions.map((suspicion) => {
    const readingIds = [...new Set(suspicion.sources.map(shareName))];
    const proposed =
      suspicion.repeatToSeparate === undefined ? undefined : shareName(suspicion.repeatToSeparate);
    const separatedBy =
      proposed !== undefined && values.has(proposed) ? proposed : readingIds.find((id) => values.has(id));
    return {
      readingIds,
      estimatedBlunder: Math.abs(suspicion.likelyError),
      standardisedResidual: Math.abs(suspicion.standardised),
      ...(readingIds.length > 1 && separatedBy !== undefined ? { separatedBy } : {}),
    };
  });
}

const isReading = (row: RowResult, values: SlotValues): boolean => values.has(shareName(row.source));

/** Observed minus computed of every reading, in the order of the network. */
export function residualsOf(solution: Solution, values: SlotValues): readonly ResidualFinding[] {
  return solution.rows
    .filter((row) => isReading(row, values))
    .map((row) => ({
      readingId: shareName(row.source),
      residual: row.residual,
      standardised: row.standardised ?? 0,
      redundancy: row.redundancy,
    }));
}

/** How many readings more than the unknowns need: the dof of the global test. */
export const redundancyOf = (solution: Solution): number => solution.globalTest.dof;

/**
 * Controls against the readings they repeat. They agree within 2.8 standard deviations of the pooled repeatability (95 %
 * of pairs); a control never enters the solution.
 */
export function controlFindings(
  recipe: readonly ReadingSpec[],
  values: SlotValues,
  work: WorkUncertainties,
): readonly ControlFinding[] {
  return recipe.flatMap((spec) => {
    if (spec.purpose !== 'control') return [];
    const control = values.get(slotKey(spec));
    const repeated = values.get(slotKey({ ...spec, purpose: 'proof' }));
    if (control === undefined || repeated === undefined) return [];
    const differenceMm = control.value - repeated.value;
    const limitMm = repeatabilityLimit(repeatability(spec, work));
    return [{ id: slotKey(spec), differenceMm, limitMm, agrees: Math.abs(differenceMm) <= limitMm }];
  });
}
