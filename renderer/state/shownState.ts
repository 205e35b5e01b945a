/** The state of a stage as the rail shows it: that of the assessment, where there is anything to assess. Pure. */
import { type Assessment, type StageState, sensorsOf } from '../../core/job/assess.ts';
import type { Job } from '../../core/job/job.ts';
import type { Stage } from '../../core/job/stages/index.ts';

export type ShownState = StageState | 'notNeeded';

/**
 * A stage that no sensor asks for is not needed, once every sensor is decided; no station is done before a procedure
 * names it; sign-off is done when it is signed, not when nothing is missing.
 */
export function shownState(stage: Stage, job: Job, assessment: Assessment): ShownState {
  if (stage.id === 'signoff') {
    if (job.certificates.length > 0) return 'done';
    return assessment.kind === undefined ? 'empty' : 'underWay';
  }
  const sensors = sensorsOf(job, stage);
  if (stage.appliesTo.length > 0 && sensors.length === 0) {
    const decided = job.sensors.length > 0 && job.sensors.every((sensor) => sensor.disposition !== null);
    return decided ? 'notNeeded' : 'empty';
  }
  if (stage.id === 'stations' && sensors.every((sensor) => sensor.procedure === null)) return 'empty';
  return assessment.stageStates[stage.id];
}
