/** The shop's bays: name, code, and until when each floor survey stands. Outline and survey are made at a job's Bay stage. */
import { type ReactNode, useState } from 'react';
import { surveyStanding } from '../../../core/bay/surveyValidity.ts';
import type { Shop } from '../../../core/job/shop.ts';
import { say } from '../../../core/words/index.ts';
import type { CallError } from '../../state/ports.ts';
import { withBay } from '../../state/shopDetails.ts';
import { dropDraft, useDraft } from '../../state/shopDrafts.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { Dialog } from '../../ui/Dialog.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { today } from './DueMark.tsx';
import { ThingFieldRow } from './ThingFieldRow.tsx';

type Bay = Shop['bays'][number];

function surveyWords({ room }: Bay): string {
  const survey = room?.survey ?? null;
  if (survey === null) return say('bays.noSurvey');
  const standing = surveyStanding({ ...survey, groundWorks: room?.groundWorks ?? [] }, today());
  const days = { madeOn: survey.madeOn, until: survey.validUntil };
  return say(standing.ok ? 'bays.survey' : 'bays.surveyOver', days);
}

function EditBay({
  shop,
  bay,
  onClose,
}: {
  readonly shop: Shop;
  readonly bay: Bay | undefined;
  readonly onClose: () => void;
}): ReactNode {
  const actions = useActions();
  const form = `bay:${bay?.code ?? 'new'}`;
  const [texts, change] = useDraft(form, { name: bay?.name ?? '', code: bay?.code ?? '' });
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const [error, setError] = useState<CallError | null>(null);
  const save = async (): Promise<void> => {
    const made = withBay(shop, texts, bay?.code);
    if (!made.ok) return setWrong(made.error.fields);
    const failure = await actions.recordShop(made.value);
    if (failure !== null) return setError(failure);
    dropDraft(form);
    onClose();
  };
  const asked = bay === undefined ? ['name', 'code'] : ['name'];
  return (
    <Dialog title={say(bay === undefined ? 'bays.add' : 'bays.change')} open onClose={onClose}>
      <div className="dialog-form" data-form="bay">
        {asked.map((id) => (
          <ThingFieldRow
            key={id}
            field={{ id, kind: 'text' }}
            label={`bays.${id}`}
            text={texts[id] ?? ''}
            wrong={wrong.includes(id)}
            onChange={(text) => {
              change({ [id]: text });
              setWrong([]);
            }}
          />
        ))}
      </div>
      {error === null ? null : <ErrorNotice error={error} />}
      <div className="dialog-buttons">
        <Button weight="quiet" onPress={onClose}>
          {say('act.close')}
        </Button>
        <Button weight="main" onPress={() => void save()} testId="save-bay">
          {say('shop.save')}
        </Button>
      </div>
    </Dialog>
  );
}

export function BayList({
  shop,
  mayChange,
}: {
  readonly shop: Shop;
  readonly mayChange: boolean;
}): ReactNode {
  const [editing, setEditing] = useState<{ readonly bay?: Bay } | null>(null);
  return (
    <section className="sheet" data-things="bays">
      <h2 className="overline">{say('shop.tab.bays')}</h2>
      <p className="quiet">{say('bays.where')}</p>
      <ul className="things">
        {shop.bays.map((bay) => (
          <li key={bay.code} className="thing" data-thing={bay.code}>
            <div className="thing-words">
              <span className="strong">{say('bays.line', { code: bay.code, name: bay.name })}</span>
              <span className="quiet">{surveyWords(bay)}</span>
            </div>
            {mayChange ? (
              <Button
                weight="quiet"
                onPress={() => setEditing({ bay })}
                label={say('shop.changeNamed', { name: bay.name })}
              >
                {say('shop.change')}
              </Button>
            ) : null}
          </li>
        ))}
      </ul>
      {mayChange ? (
        <div>
          <Button icon="add" onPress={() => setEditing({})} testId="add-bays">
            {say('act.add')}
          </Button>
        </div>
      ) : null}
      {editing === null ? null : <EditBay shop={shop} bay={editing.bay} onClose={() => setEditing(null)} />}
    </section>
  );
}
