/** A circle a station permits beside or instead of the limits of its coordinates. */
import type { ReactNode } from 'react';
import type { ProcedureStation } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { withStation } from '../../state/procedureDraft.ts';
import { SelectList } from '../../ui/SelectList.tsx';
import { type DraftForm, DraftText } from './draftForm.tsx';

const PLANES = ['none', 'aheadLeft', 'leftUp'] as const;

export function RadialFields({
  form,
  index,
  station,
}: {
  readonly form: DraftForm;
  readonly index: number;
  readonly station: ProcedureStation;
}): ReactNode {
  const { radial, ...without } = station;
  const put = (next: ProcedureStation): void => form.change(withStation(form.draft, index, next));
  return (
    <div className="part-line">
      <SelectList
        label={say('procedureForm.radial')}
        placeholder={say('procedureForm.radial.none')}
        testId={`radial-${station.id}`}
        chosen={radial?.plane ?? 'none'}
        items={PLANES.map((value) => ({ value, text: say(`procedureForm.radial.${value}`) }))}
        onChoose={(value) => {
          const plane = PLANES.find((each) => each === value);
          if (plane === undefined || plane === 'none') put(without);
          else
            put({
              ...without,
              radial: { limit: radial?.limit ?? '', stated: radial?.stated ?? true, plane },
            });
        }}
      />
      {radial === undefined ? null : (
        <DraftText
          form={form}
          where={`stations.${station.id}.radial`}
          label={say('procedureForm.radialLimit')}
          value={radial.limit}
          onChange={(limit) => put({ ...station, radial: { ...radial, limit } })}
        />
      )}
    </div>
  );
}
