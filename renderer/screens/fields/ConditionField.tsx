/** One condition of the chosen procedure: a confirmation, a value between limits, or a choice of which some fit. */
import type { ReactNode } from 'react';
import type { FieldPlace } from '../../../core/job/fieldKey.ts';
import type { Field } from '../../../core/job/stages/index.ts';
import type { ProcedureCondition } from '../../../core/procedure/schema.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { ChoiceField, yesNo } from './ChoiceField.tsx';
import { NumberField } from './NumberField.tsx';

export function ConditionField(props: {
  readonly held: HeldJob;
  readonly field: Field;
  readonly at: FieldPlace;
  readonly condition: ProcedureCondition;
}): ReactNode {
  const { held, field, at, condition } = props;
  const common = { held, field: field.id, at, label: condition.text };
  const caution = condition.caution === null ? {} : { caution: condition.caution };
  switch (condition.kind) {
    case 'confirm':
      return (
        <ChoiceField
          {...common}
          {...caution}
          kind="confirm"
          items={yesNo(condition.blocking ? ['no'] : [])}
        />
      );
    case 'choice':
      return (
        <ChoiceField
          {...common}
          {...caution}
          kind="choice"
          items={condition.choices.map(({ value, text, fits }) => ({
            value,
            text,
            stops: condition.blocking && !fits,
          }))}
        />
      );
    case 'value':
      return (
        <NumberField
          {...common}
          unit={condition.unit}
          decimals={decimalsOf(condition.least, condition.most)}
          below={
            <span className="quiet">
              {say('condition.between', {
                least: `${condition.least} ${condition.unit}`,
                most: `${condition.most} ${condition.unit}`,
              })}
              {condition.caution === null ? null : ` ${condition.caution}`}
            </span>
          }
        />
      );
  }
}

/** As many decimals as the limits are written with. */
function decimalsOf(least: number, most: number): number {
  return Math.max(...[least, most].map((limit) => String(limit).split('.')[1]?.length ?? 0));
}
