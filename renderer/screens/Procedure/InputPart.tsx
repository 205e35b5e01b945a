/** What is measured on the car for this procedure: a short name for expressions, its limits, a value to try. */
import type { ReactNode } from 'react';
import type { Procedure } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { freeName, placed, replaced } from '../../state/procedureDraft.ts';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { type DraftForm, DraftText, FaultLines } from './draftForm.tsx';

type Input = Procedure['inputs'][number];
const TEXTS = ['least', 'most'] as const;
const QUANTITIES = ['length', 'angle'] as const;

function InputFields({
  form,
  input,
  index,
}: {
  readonly form: DraftForm;
  readonly input: Input;
  readonly index: number;
}): ReactNode {
  const { draft, change } = form;
  const where = `inputs.${input.name}`;
  const put = (next: Input): void => change({ ...draft, inputs: [...replaced(draft.inputs, index, next)] });
  return (
    <div className="part-item" data-input={input.name}>
      <div className="part-grid">
        <DraftText
          form={form}
          where={`${where}.name`}
          label={say('procedureForm.inputName')}
          value={input.name}
          onChange={(name) => put({ ...input, name })}
        />
        <DraftText
          form={form}
          where={`${where}.label`}
          label={say('procedureForm.inputLabel')}
          value={input.label}
          onChange={(label) => put({ ...input, label })}
        />
        {TEXTS.map((field) => (
          <DraftText
            key={field}
            form={form}
            where={`${where}.${field}`}
            label={say(`procedurePart.${field}`)}
            value={input[field]}
            onChange={(text) => put({ ...input, [field]: text })}
          />
        ))}
        <TextEntry
          label={say('procedureForm.trial')}
          fieldKey={`try.${input.name}`}
          value={form.tried[input.name] ?? ''}
          mark="none"
          onChange={(text) => form.tryWith(input.name, text)}
        />
        <ChoiceButtons
          label={say('procedurePart.quantity')}
          items={QUANTITIES.map((value) => ({ value, text: say(`procedurePart.quantity.${value}`) }))}
          chosen={[input.quantity]}
          onChoose={([chosen]) => {
            const quantity = QUANTITIES.find((each) => each === chosen);
            if (quantity !== undefined) put({ ...input, quantity });
          }}
        />
      </div>
      <FaultLines form={form} where={where} />
      <Button
        icon="strike"
        weight="quiet"
        label={`${say('procedureForm.remove')}: ${input.name}`}
        onPress={() => change({ ...draft, inputs: draft.inputs.toSpliced(index, 1) })}
      >
        {say('procedureForm.remove')}
      </Button>
    </div>
  );
}

export function InputPart({ form }: { readonly form: DraftForm }): ReactNode {
  const { draft, change } = form;
  const add = (): void => {
    const name = freeName(
      'input',
      draft.inputs.map((each) => each.name),
    );
    change({
      ...draft,
      inputs: [...draft.inputs, { name, label: '', quantity: 'length', least: '', most: '' }],
    });
  };
  return (
    <section className="sheet" data-part="inputs">
      <h2 className="overline">{say('procedureForm.inputs')}</h2>
      {placed(draft.inputs).map(({ key, item, index }) => (
        <InputFields key={key} form={form} input={item} index={index} />
      ))}
      <div className="part-buttons">
        <Button icon="add" testId="add-input" onPress={add}>
          {say('procedureForm.addInput')}
        </Button>
      </div>
    </section>
  );
}
