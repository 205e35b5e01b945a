/** Text of or about a person. The parties of a job are often the same one, so what is known is offered with one tap. */
import type { ReactNode } from 'react';
import type { FieldPlace } from '../../../core/job/fieldKey.ts';
import type { Field } from '../../../core/job/stages/index.ts';
import { say } from '../../../core/words/index.ts';
import { recordedText, typedFact } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import type { Status } from '../../state/windowState.ts';
import { Button } from '../../ui/Button.tsx';
import { TypedField } from './TypedField.tsx';

interface Suggestion {
  readonly words: string;
  readonly text: string;
}

/** What may stand in this field because it stands elsewhere already. */
export function suggestionFor(field: string, held: HeldJob, shop: Status['shop']): Suggestion | undefined {
  if (field === 'intake.placeOfWork' && shop !== null) {
    return { words: say('act.thisShop'), text: [shop.name, ...shop.address].join(', ') };
  }
  if (field === 'intake.orderingParty' || field === 'intake.payer') {
    const owner = recordedText(held.job.fields['intake.owner'], held.personal);
    return owner === '' ? undefined : { words: say('act.sameAsOwner'), text: owner };
  }
  return undefined;
}

export function PersonalField(props: {
  readonly held: HeldJob;
  readonly field: Field;
  readonly at: FieldPlace;
}): ReactNode {
  const { held, field, at } = props;
  const actions = useActions();
  const shop = useWindow((state) => state.status?.shop ?? null);
  const suggestion = suggestionFor(field.id, held, shop);
  return (
    <TypedField
      held={held}
      field={field}
      at={at}
      below={(text) =>
        suggestion === undefined || text !== '' ? null : (
          <div className="choices">
            <Button
              weight="quiet"
              icon="repeat"
              onPress={() => {
                actions.type(held.job.id, field.id, suggestion.text);
                void actions.send(held.job.id, field.id, [typedFact(field, at, suggestion.text)]);
              }}
            >
              {suggestion.words}
            </Button>
          </div>
        )
      }
    />
  );
}
