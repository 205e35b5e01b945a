/** A stage's table as a form: its rows in order, grouped by what they are about, one set per sensor where they are. */
import { Fragment, type ReactNode } from 'react';
import { forbids, type Place, placesOf } from '../../../core/job/assess.ts';
import { fieldKey } from '../../../core/job/fieldKey.ts';
import type { Field, Stage, Walk } from '../../../core/job/stages/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { sayKey } from '../../text/sayKey.ts';
import { Forbids } from './Forbids.tsx';
import { StageField } from './StageField.tsx';

interface Row {
  readonly field: Field;
  readonly place: Place;
}

interface Group {
  readonly key: string;
  readonly heading: string;
  readonly walk: Walk | undefined;
  readonly rows: readonly Row[];
}

/** The rows of a stage at every place they stand in this job, in groups: first of the job, then of each sensor. */
export function groupsOf(held: HeldJob, stage: Stage, only?: (field: Field) => boolean): readonly Group[] {
  const rows = stage.fields
    .filter((field) => only?.(field) ?? true)
    .flatMap((field) => placesOf(held.job, stage, field).map((place) => ({ field, place })));
  const groups: { key: string; heading: string; walk: Walk | undefined; rows: Row[] }[] = [];
  for (const row of rows) {
    const { sensor } = row.place;
    const { walk, printed } = row.field;
    const key = `${sensor?.sensor ?? ''} ${sensor === null ? (walk ?? printed) : ''}`;
    const ofJob = walk === undefined ? `group.${printed}` : `walk.${walk}`;
    const heading = sensor === null ? sayKey(ofJob) : sensor.name;
    const group = groups.find((each) => each.key === key);
    if (group === undefined) groups.push({ key, heading, walk, rows: [row] });
    else group.rows.push(row);
  }
  return groups;
}

export function StageForm({
  held,
  stage,
  only,
  foot,
  children,
}: {
  readonly held: HeldJob;
  readonly stage: Stage;
  readonly only?: (field: Field) => boolean;
  /** What stands below the rows of one place of the walk. */
  readonly foot?: (walk: Walk | undefined) => ReactNode;
  readonly children?: ReactNode;
}): ReactNode {
  return (
    <div className="form" data-form={stage.id}>
      {groupsOf(held, stage, only).map((group) => (
        <section key={group.key} className="sheet form-group">
          <h2 className="overline">{group.heading}</h2>
          <div className="form-grid">
            {group.rows.map(({ field, place }) => (
              <Fragment key={fieldKey(field.id, place.at)}>
                <StageField held={held} field={field} place={place} />
                {forbids(held.job, field, place) ? <Forbids held={held} /> : null}
              </Fragment>
            ))}
          </div>
          {foot?.(group.walk)}
        </section>
      ))}
      {children}
    </div>
  );
}
