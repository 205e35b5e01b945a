/** The steps of the procedure in their order, each with its caution. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { placed, replaced } from '../../state/procedureDraft.ts';
import { Button } from '../../ui/Button.tsx';
import { type DraftForm, DraftText } from './draftForm.tsx';

export function StepPart({ form }: { readonly form: DraftForm }): ReactNode {
  const { draft, change } = form;
  return (
    <section className="sheet" data-part="steps">
      <h2 className="overline">{say('procedureForm.steps')}</h2>
      {placed(draft.steps).map(({ key, item, index }) => {
        const put = (step: typeof item): void =>
          change({ ...draft, steps: replaced(draft.steps, index, step) });
        const name = `${say('procedurePart.steps')} ${index + 1}`;
        return (
          <div className="part-item" key={key}>
            <DraftText
              form={form}
              where={`steps.${index}`}
              label={name}
              value={item.text}
              onChange={(text) => put({ ...item, text })}
            />
            <div className="part-line">
              <DraftText
                form={form}
                where={`steps.${index}.caution`}
                label={say('procedureForm.caution')}
                value={item.caution}
                onChange={(caution) => put({ ...item, caution })}
              />
              <Button
                icon="strike"
                weight="quiet"
                label={`${say('procedureForm.remove')}: ${name}`}
                onPress={() => change({ ...draft, steps: draft.steps.toSpliced(index, 1) })}
              >
                {say('procedureForm.remove')}
              </Button>
            </div>
          </div>
        );
      })}
      <div className="part-buttons">
        <Button
          icon="add"
          testId="add-step"
          onPress={() => change({ ...draft, steps: [...draft.steps, { text: '', caution: '' }] })}
        >
          {say('procedureForm.addStep')}
        </Button>
      </div>
    </section>
  );
}
