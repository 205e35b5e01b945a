/**
 * One sensor's placement as the window shows it: solved from the record, and solved once more with what is typed and
 * not yet recorded, as a preview that moves the drawing and proves nothing. A state of a job is solved once, however
 * many parts of the window look at it.
 */
import type { Answers } from '../../core/job/assess.ts';
import type { Job, JobSensor } from '../../core/job/job.ts';
import { placementInput, type SolveError, solveJob } from '../../core/job/solve.ts';
import type { PlacementAnswer } from '../../core/placement/placementAnswer.ts';
import type { PlacementReading } from '../../core/placement/placementReading.ts';
import { defaultRecipe, type ReadingSpec } from '../../core/placement/recipe.ts';
import type { StationRequirement } from '../../core/placement/requirement.ts';
import type { Result } from '../../core/result.ts';
import { spokenLanguage } from '../../core/words/index.ts';

export interface PlacementView {
  readonly sensor: JobSensor;
  readonly stations: readonly StationRequirement[];
  readonly recipe: readonly ReadingSpec[];
  readonly answer: Result<PlacementAnswer, SolveError>;
}

const solved = new WeakMap<Job, Map<string, PlacementView>>();

function solve(job: Job, sensor: JobSensor): PlacementView {
  const input = placementInput(job, sensor);
  const stations = input.ok ? input.value.stations : [];
  const recipe = defaultRecipe(input.ok ? input.value : {});
  return { sensor, stations, recipe, answer: solveJob(job, sensor) };
}

/** A sensor solved from the record. The recipe is the plain one while procedure or equipment are not chosen. */
export function placementView(job: Job, sensor: JobSensor): PlacementView {
  const known = solved.get(job) ?? new Map<string, PlacementView>();
  solved.set(job, known);
  // An answer holds names and turns in words.
  const key = `${spokenLanguage()} ${sensor.sensor}`;
  const view = known.get(key) ?? solve(job, sensor);
  known.set(key, view);
  return view;
}

/** The answers of all sensors calibrated here, for assessment; a sensor that cannot be solved has none. */
export function answersOf(job: Job): Answers {
  const here = job.sensors.filter((sensor) => sensor.disposition === 'staticHere');
  const answers = here.map((sensor) => [sensor.sensor, placementView(job, sensor).answer] as const);
  return Object.fromEntries(answers.flatMap(([id, answer]) => (answer.ok ? [[id, answer.value]] : [])));
}

/** The answer with typed readings in it; the recorded answer where nothing is typed or it does not solve. */
export function previewAnswer(
  job: Job,
  view: PlacementView,
  typed: readonly PlacementReading[],
): { readonly answer: PlacementAnswer | undefined; readonly preview: boolean } {
  const recorded = view.answer.ok ? view.answer.value : undefined;
  if (typed.length === 0) return { answer: recorded, preview: false };
  const preview = solveJob(job, view.sensor, typed);
  return preview.ok ? { answer: preview.value, preview: true } : { answer: recorded, preview: false };
}
