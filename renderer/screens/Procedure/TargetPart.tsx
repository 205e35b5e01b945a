/** The target a sensor looks at, and, in the whole form, where the sensor itself sits. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { type DraftForm, DraftText } from './draftForm.tsx';

const TARGET_KINDS = ['board', 'plate', 'mat', 'corner'] as const;
const TARGET_TEXTS = ['name', 'width', 'height'] as const;
const SENSOR_AT = ['ahead', 'left', 'up'] as const;

export function TargetPart({ form }: { readonly form: DraftForm }): ReactNode {
  const { draft, change } = form;
  const { target } = draft;
  return (
    <section className="sheet" data-part="target">
      <h2 className="overline">{say('procedureForm.target')}</h2>
      <ChoiceButtons
        label={say('targetKind.label')}
        testId="target-kind"
        items={TARGET_KINDS.map((value) => ({ value, text: say(`targetKind.${value}`) }))}
        chosen={[target.kind]}
        onChoose={([chosen]) => {
          const kind = TARGET_KINDS.find((each) => each === chosen);
          if (kind !== undefined) change({ ...draft, target: { ...target, kind } });
        }}
      />
      <div className="part-grid">
        {TARGET_TEXTS.map((field) => (
          <DraftText
            key={field}
            form={form}
            where={`target.${field}`}
            label={say(`procedurePart.target.${field}`)}
            value={target[field]}
            onChange={(text) => change({ ...draft, target: { ...target, [field]: text } })}
          />
        ))}
      </div>
    </section>
  );
}

export function SensorAtPart({ form }: { readonly form: DraftForm }): ReactNode {
  const { draft, change } = form;
  return (
    <section className="sheet" data-part="sensorAt">
      <h2 className="overline">{say('procedureForm.sensorAt')}</h2>
      <div className="part-grid">
        {SENSOR_AT.map((field) => (
          <DraftText
            key={field}
            form={form}
            where={`sensorAt.${field}`}
            label={say(`procedurePart.sensorAt.${field}`)}
            value={draft.sensorAt[field]}
            onChange={(text) => change({ ...draft, sensorAt: { ...draft.sensorAt, [field]: text } })}
          />
        ))}
      </div>
    </section>
  );
}
