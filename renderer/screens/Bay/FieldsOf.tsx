/** Rows of the bay's table by their names, where they stand beside a drawing and not in the form. */
import type { ReactNode } from 'react';
import { placesOf } from '../../../core/job/assess.ts';
import { fieldKey } from '../../../core/job/fieldKey.ts';
import { stageById } from '../../../core/job/stages/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { StageField } from '../fields/StageField.tsx';

export function FieldsOf({
  held,
  names,
}: {
  readonly held: HeldJob;
  readonly names: readonly string[];
}): ReactNode {
  const stage = stageById('bay');
  return (
    <div className="form-grid">
      {stage.fields
        .filter((field) => names.includes(field.id))
        .flatMap((field) =>
          placesOf(held.job, stage, field).map((place) => (
            <StageField key={fieldKey(field.id, place.at)} held={held} field={field} place={place} />
          )),
        )}
    </div>
  );
}
