/** Conditions the car and bay must meet: a short list to pick from, and the procedure's own. */
import type { ReactNode } from 'react';
import { say } from '../../../core/words/index.ts';
import { LISTED_CONDITIONS, withListed } from '../../state/conditionList.ts';
import { type ConditionDraft, freeName, placed, replaced } from '../../state/procedureDraft.ts';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { type DraftForm, DraftText, FaultLines } from './draftForm.tsx';

const KINDS = ['confirm', 'value'] as const;

function NumberFields({ form, condition, put }: ConditionProps): ReactNode {
  const where = `conditions.${condition.id}`;
  return (
    <div className="part-grid">
      <DraftText
        form={form}
        where={`${where}.least`}
        label={say('procedurePart.least')}
        value={condition.least}
        numeric
        onChange={(least) => put({ ...condition, least })}
      />
      <DraftText
        form={form}
        where={`${where}.most`}
        label={say('procedurePart.most')}
        value={condition.most}
        numeric
        onChange={(most) => put({ ...condition, most })}
      />
      <DraftText
        form={form}
        where={`${where}.unit`}
        label={say('procedureForm.unit')}
        value={condition.unit}
        onChange={(unit) => put({ ...condition, unit })}
      />
    </div>
  );
}

interface ConditionProps {
  readonly form: DraftForm;
  readonly condition: ConditionDraft;
  readonly put: (next: ConditionDraft) => void;
}

function ConditionFields({ form, condition, put }: ConditionProps): ReactNode {
  const where = `conditions.${condition.id}`;
  const { draft, change } = form;
  return (
    <div className="part-item" data-condition={condition.id}>
      <DraftText
        form={form}
        where={where}
        label={say('procedurePart.conditions')}
        value={condition.text}
        onChange={(text) => put({ ...condition, text })}
      />
      {condition.kind === 'choice' ? null : (
        <ChoiceButtons
          label={say('procedureForm.conditionKind')}
          items={KINDS.map((value) => ({ value, text: say(`procedureForm.conditionKind.${value}`) }))}
          chosen={[condition.kind]}
          onChoose={([chosen]) => {
            const kind = KINDS.find((each) => each === chosen);
            if (kind !== undefined) put({ ...condition, kind });
          }}
        />
      )}
      {condition.kind === 'value' ? <NumberFields form={form} condition={condition} put={put} /> : null}
      <DraftText
        form={form}
        where={`${where}.caution`}
        label={say('procedureForm.caution')}
        value={condition.caution}
        onChange={(caution) => put({ ...condition, caution })}
      />
      <div className="part-line">
        <ChoiceButtons
          label={say('procedureForm.blocking')}
          items={[
            { value: 'yes', text: say('procedureForm.blocking.yes') },
            { value: 'no', text: say('procedureForm.blocking.no') },
          ]}
          chosen={[condition.blocking ? 'yes' : 'no']}
          onChoose={([chosen]) => put({ ...condition, blocking: chosen === 'yes' })}
        />
        <Button
          icon="strike"
          weight="quiet"
          label={`${say('procedureForm.remove')}: ${condition.text}`}
          onPress={() =>
            change({ ...draft, conditions: draft.conditions.filter((each) => each !== condition) })
          }
        >
          {say('procedureForm.remove')}
        </Button>
      </div>
    </div>
  );
}

/** The short list; what is picked stays in the document in the words it had when picked. */
function ListedConditions({ form }: { readonly form: DraftForm }): ReactNode {
  const { draft, change } = form;
  return (
    <ChoiceButtons
      label={say('procedureForm.conditions')}
      many
      testId="listed-conditions"
      items={LISTED_CONDITIONS.map((value) => ({ value, text: say(`listedCondition.${value}`) }))}
      chosen={draft.conditions.map((each) => each.id)}
      onChoose={(values) => change({ ...draft, conditions: withListed(draft.conditions, values) })}
    />
  );
}

export function ConditionPart({ form }: { readonly form: DraftForm }): ReactNode {
  const { draft, change } = form;
  const add = (): void => {
    const id = freeName(
      'condition',
      draft.conditions.map((each) => each.id),
    );
    const empty = { caution: '', blocking: true, unit: '', least: '', most: '', choices: [] };
    change({ ...draft, conditions: [...draft.conditions, { kind: 'confirm', id, text: '', ...empty }] });
  };
  return (
    <section className="sheet" data-part="conditions">
      <h2 className="overline">{say('procedureForm.conditions')}</h2>
      <ListedConditions form={form} />
      {form.quick ? null : (
        <>
          {placed(draft.conditions).map(({ key, item, index }) => (
            <ConditionFields
              key={key}
              form={form}
              condition={item}
              put={(next) => change({ ...draft, conditions: replaced(draft.conditions, index, next) })}
            />
          ))}
          <FaultLines form={form} where="conditions" />
          <div className="part-buttons">
            <Button icon="add" testId="add-condition" onPress={add}>
              {say('procedureForm.addCondition')}
            </Button>
          </div>
        </>
      )}
    </section>
  );
}
