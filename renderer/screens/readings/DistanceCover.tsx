/** The view for a person across the bay, filled from the station in sight: over this window, and in the second one. */
import { type ReactNode, useMemo } from 'react';
import type { Job } from '../../../core/job/job.ts';
import type { StationFinding } from '../../../core/placement/finding.ts';
import type { StationRequirement } from '../../../core/placement/requirement.ts';
import { say } from '../../../core/words/index.ts';
import { useFarFacts } from '../../state/useFarFacts.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { distanceRows } from '../../text/distanceWords.ts';
import { DistanceView } from '../../ui/DistanceView.tsx';
import { useNextLine } from '../Job/nextLineInSight.ts';

export function DistanceCover({
  station,
  requirement,
  rule,
  preview,
}: {
  readonly station: StationFinding | undefined;
  readonly requirement: StationRequirement | undefined;
  readonly rule: Job['decisionRule'];
  readonly preview: boolean;
}): ReactNode {
  const actions = useActions();
  const shown = useWindow((state) => state.cover === 'distance');
  const line = useNextLine();
  const rows = useMemo(
    () => (station === undefined ? [] : distanceRows(station, requirement?.place ?? 'ahead', rule)),
    [station, requirement, rule],
  );
  const empty = say('placement.notYet');
  const note = preview ? say('plan.previewWords') : '';
  useFarFacts({ line: line.text, rows, empty, note });
  if (!shown) return null;
  return (
    <DistanceView
      line={line.text}
      rows={rows}
      empty={empty}
      onClose={() => actions.coverWith('none')}
      {...(preview ? { note } : {})}
    />
  );
}
