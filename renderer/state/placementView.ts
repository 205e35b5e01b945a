/**
 * One sensor's placement as the window shows it: solved from the record, and solved once more with what is typed and
 * not yet recorded, as a preview that moves the drawing and proves nothing.
 */
import type { Job, JobSensor } from '../../core/job/job.ts';
import { placementInput, type SolveError, solveJob } from '../../core/job/solve.ts';
import { defaultRecipe, type ReadingSpec } from '../../core/placement/recipe.ts';
import type { PlacementAnswer, PlacementReading, StationRequirement } from '../../core/placement/types.ts';
import type { Result } from '../../core/result.ts';

export interface PlacementView {
  readonly sensor: JobSensor;
  readonly stations: readonly StationRequirement[];
  readonly recipe: readonly ReadingSpec[];
  readonly answer: Result<PlacementAnswer, SolveError>;
}

/** Solves a sensor from the record. The recipe is the plain one while procedure or equipment are not chosen. */
export function placementView(job: Job, sensor: JobSensor): PlacementView {
  const input = placementInput(job, sensor);
  const stations = input.ok ? input.value.stations : [];
  return { sensor, stations, recipe: defaultRecipe({ stations }), answer: solveJob(job, sensor) };
}

/** The answer with typed readings in it; the recorded answer where nothing is typed or it does not solve. */
export function previewAnswer(
  job: Job,
  view: PlacementView,
  typed: readonly PlacementReading[],
): { readonly answer: PlacementAnswer | undefined; readonly preview: boolean } {
  const recorded = view.answer.ok ? view.answer.value : undefined;
  if (typed.length === 0) return { answer: recorded, preview: false };
  const solved = solveJob(job, view.sensor, typed);
  return solved.ok ? { answer: solved.value, preview: true } : { answer: recorded, preview: false };
}
