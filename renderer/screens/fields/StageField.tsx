/** One row of a stage's table at one place, drawn by its kind. The only place that knows how a kind is drawn. */
import type { ReactNode } from 'react';
import type { Place } from '../../../core/job/assess.ts';
import type { Field } from '../../../core/job/stages/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { sayKey } from '../../text/sayKey.ts';
import { CheckField } from './CheckField.tsx';
import { ChoiceField, yesNo } from './ChoiceField.tsx';
import { ConditionField } from './ConditionField.tsx';
import { CodesField, MomentField, TyreSizeField } from './formFields.tsx';
import { NumberField } from './NumberField.tsx';
import { PersonalField } from './PersonalField.tsx';
import { TypedField } from './TypedField.tsx';
import { VinField } from './VinField.tsx';

export interface StageFieldProps {
  readonly held: HeldJob;
  readonly field: Field;
  readonly place: Place;
}

/** Lengths measured on a car lie within this; beyond it is asked, never refused. */
const CAR_LENGTH_MM = { min: 0, max: 7000 } as const;

/** Unit of a quantity: its own, or of the procedure's input it stands for, else a length. */
function quantityUnit(field: Field, { at, sensor }: Place): 'mm' | '°' {
  if (field.quantity === 'angle') return '°';
  const input = sensor?.procedure?.inputs.find((each) => each.name === at.item);
  return input?.quantity === 'angle' ? '°' : 'mm';
}

export function StageField(props: StageFieldProps): ReactNode {
  const { held, field, place } = props;
  const { at, condition } = place;
  if (condition !== null) return <ConditionField held={held} field={field} at={at} condition={condition} />;
  const label = place.words ?? sayKey(field.label);
  const hint = field.hint === undefined ? {} : { hint: sayKey(field.hint) };
  const stops = field.stops ?? [];
  switch (field.kind) {
    case 'vin':
      return <VinField held={held} field={field} at={at} />;
    case 'personal':
      return <PersonalField held={held} field={field} at={at} />;
    case 'text':
    case 'date':
      return <TypedField held={held} field={field} at={at} />;
    case 'quantity': {
      const unit = quantityUnit(field, place);
      return (
        <NumberField
          held={held}
          field={field.id}
          at={at}
          label={label}
          unit={unit}
          decimals={unit === 'mm' ? 1 : 2}
          {...(unit === 'mm' ? { limits: CAR_LENGTH_MM } : {})}
          {...hint}
        />
      );
    }
    case 'number':
      return (
        <NumberField
          held={held}
          field={field.id}
          at={at}
          label={label}
          unit={field.unit ?? ''}
          decimals={field.decimals ?? 0}
          {...(field.limits === undefined ? {} : { limits: field.limits })}
        />
      );
    case 'check':
      return <CheckField {...props} />;
    case 'codes':
      return <CodesField {...props} />;
    case 'moment':
      return <MomentField {...props} />;
    case 'tyreSize':
      return <TyreSizeField {...props} />;
    case 'confirm':
      return (
        <ChoiceField
          held={held}
          field={field.id}
          at={at}
          label={label}
          kind="confirm"
          items={yesNo(stops)}
          {...hint}
        />
      );
    case 'choice':
    case 'choices':
      return (
        <ChoiceField
          held={held}
          field={field.id}
          at={at}
          label={label}
          kind={field.kind}
          items={(field.choices ?? []).map(({ value, label: text }) => ({
            value,
            text: sayKey(text),
            stops: stops.includes(value),
          }))}
          {...hint}
        />
      );
  }
}
