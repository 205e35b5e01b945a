/** Quick placement where it leads: at Placement, until it is skipped. */
import { useMemo } from 'react';
import type { Job, JobSensor } from '../../core/job/job.ts';
import type { StageId } from '../../core/job/stages/index.ts';
import { useReckoned } from '../ahead/useReckoned.ts';
import { type QuickGuide, quickAsked, quickGuide } from './quickGuide.ts';
import { useWindow } from './windowContext.tsx';

export function useQuickGuide(
  job: Job,
  sensor: JobSensor | undefined,
  stage: StageId,
): QuickGuide | undefined {
  const skipped = useWindow((state) => state.quickSkipped);
  const asked = useMemo(() => {
    const found = sensor === undefined || stage !== 'placement' ? undefined : quickAsked(job, sensor);
    return found === undefined || skipped.includes(found.key) ? undefined : found;
  }, [job, sensor, stage, skipped]);
  const answer = useReckoned(asked?.question);
  return useMemo(
    () => (asked === undefined || sensor === undefined ? undefined : quickGuide(job, sensor, asked, answer)),
    [job, sensor, asked, answer],
  );
}
