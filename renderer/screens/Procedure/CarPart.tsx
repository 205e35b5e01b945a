/** Which sensor of which cars, by which document; and the target. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { type ProcedureDraft, SENSOR_KINDS, withSensor } from '../../state/procedureDraft.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { type DraftForm, DraftText } from './draftForm.tsx';

type TextField = 'title' | 'make' | 'models' | 'fromYear' | 'toYear' | 'document' | 'section' | 'readOn';

/** A text of the draft itself. */
function OwnText({
  form,
  field,
  where,
  label,
  hint,
}: {
  readonly form: DraftForm;
  readonly field: TextField;
  readonly where: string;
  readonly label: string;
  readonly hint?: string;
}): ReactNode {
  const { draft, change } = form;
  const write = (text: string): ProcedureDraft => ({ ...draft, [field]: text });
  return (
    <DraftText
      form={form}
      where={where}
      label={label}
      value={draft[field]}
      {...(hint === undefined ? {} : { hint })}
      onChange={(text) => change(write(text))}
    />
  );
}

export function CarPart({ form }: { readonly form: DraftForm }): ReactNode {
  const { draft, change } = form;
  return (
    <section className="sheet" data-part="car">
      <h2 className="overline">{say('procedureForm.car')}</h2>
      <ChoiceButtons
        label={say('procedurePart.sensor')}
        testId="procedure-sensor"
        items={SENSOR_KINDS.map((value) => ({ value, text: say(`sensor.${value}`) }))}
        chosen={[draft.sensor]}
        onChoose={([chosen]) => {
          const sensor = SENSOR_KINDS.find((each) => each === chosen);
          if (sensor !== undefined) change(withSensor(draft, sensor));
        }}
      />
      <div className="part-grid">
        {form.quick ? null : (
          <OwnText form={form} field="title" where="title" label={say('procedurePart.title')} />
        )}
        <OwnText
          form={form}
          field="make"
          where="applicability.make"
          label={say('procedurePart.applicability.make')}
        />
        <OwnText
          form={form}
          field="models"
          where="applicability.models"
          label={say('procedureForm.models')}
        />
        <OwnText
          form={form}
          field="fromYear"
          where="applicability.fromYear"
          label={say('procedurePart.applicability.fromYear')}
        />
        <OwnText
          form={form}
          field="toYear"
          where="applicability.toYear"
          label={say('procedureForm.toYear')}
        />
      </div>
    </section>
  );
}

export function SourcePart({ form }: { readonly form: DraftForm }): ReactNode {
  return (
    <section className="sheet" data-part="source">
      <h2 className="overline">{say('procedureForm.source')}</h2>
      <div className="part-grid">
        <OwnText
          form={form}
          field="document"
          where="source.document"
          label={say('procedurePart.source.document')}
        />
        <OwnText
          form={form}
          field="section"
          where="source.section"
          label={say('procedurePart.source.section')}
        />
        <OwnText
          form={form}
          field="readOn"
          where="source.readOn"
          label={say('procedureForm.readOn')}
          hint={say('thing.dayHint')}
        />
      </div>
    </section>
  );
}
