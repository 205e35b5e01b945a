/** A second look at a procedure beside its source page: by a second person, another shop, or the same person typing again. */
import { type ReactNode, useState } from 'react';
import { isReviewed, type Procedure } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { goToProcedures } from '../../state/goToProcedures.ts';
import type { CallError } from '../../state/ports.ts';
import { againstReview, reviewedByOwnEntry, reviewedBySecond } from '../../state/procedureReview.ts';
import { today } from '../../state/today.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { OtherShop } from './OtherShop.tsx';
import { ProcedurePage } from './ProcedurePage.tsx';
import { SecondEntry } from './SecondEntry.tsx';
import { PageView } from './SourcePage.tsx';
import { tickCount, ValueTicks } from './ValueTicks.tsx';

const WAYS = ['secondPerson', 'otherShop', 'ownSecondEntry'] as const;
type Way = (typeof WAYS)[number];

interface WayProps {
  readonly procedure: Procedure;
  readonly person: string;
  readonly onReviewed: (procedure: Procedure) => void;
}

function SecondPerson({ procedure, person, onReviewed }: WayProps): ReactNode {
  const actions = useActions();
  const [ticked, setTicked] = useState<readonly string[]>([]);
  const count = tickCount(procedure, ticked);
  return (
    <>
      <ValueTicks procedure={procedure} ticked={ticked} onTick={setTicked} />
      <p className="quiet">{say('reviewing.wrong')}</p>
      <div className="part-buttons">
        <span data-testid="tick-count">{count.words}</span>
        <Button onPress={() => actions.go({ screen: 'procedure', act: 'edit', id: procedure.id })}>
          {say('procedureList.edit')}
        </Button>
        <Button
          weight="main"
          icon="done"
          disabled={!count.all}
          testId="record-review"
          onPress={() => onReviewed(reviewedBySecond(procedure, person, today()))}
        >
          {say('reviewing.record')}
        </Button>
      </div>
    </>
  );
}

/** The chosen way, or what stands against it. */
function ChosenWay({ way, ...props }: WayProps & { readonly way: Way }): ReactNode {
  const { procedure, person, onReviewed } = props;
  if (way === 'otherShop') return <OtherShop procedure={procedure} onReviewed={onReviewed} />;
  const against = againstReview(procedure, way, person, today());
  if (against !== undefined) {
    const slots = against === 'review.against.other' ? { name: procedure.source.enteredBy } : {};
    return (
      <p className="question" data-testid="against-review">
        {sayKey(against, slots)}
      </p>
    );
  }
  return way === 'secondPerson' ? (
    <SecondPerson {...props} />
  ) : (
    <SecondEntry procedure={procedure} onAgreed={() => onReviewed(reviewedByOwnEntry(procedure, today()))} />
  );
}

export function ReviewScreen({ procedure }: { readonly procedure: Procedure }): ReactNode {
  const actions = useActions();
  const person = useWindow(
    (state) => state.status?.shop?.people.find((each) => each.id === state.person)?.name ?? '',
  );
  const [way, setWay] = useState<Way>('secondPerson');
  const [error, setError] = useState<CallError | null>(null);
  const record = async (reviewed: Procedure): Promise<void> => {
    const failure = await actions.recordProcedure(reviewed);
    setError(failure);
    if (failure === null) goToProcedures(actions);
  };
  const { page, reviewWay } = procedure.source;
  return (
    <ProcedurePage title={say('reviewing.title', { title: procedure.title })} testId="review-procedure">
      <div className="procedure-desk">
        <div className="procedure-form">
          {isReviewed(procedure) ? (
            <p>{say('reviewing.already', { review: say(`review.${reviewWay}`) })}</p>
          ) : (
            <>
              <ChoiceButtons
                label={say('reviewing.way')}
                testId="review-way"
                items={WAYS.map((value) => ({ value, text: say(`reviewing.way.${value}`) }))}
                chosen={[way]}
                onChoose={([chosen]) => setWay(WAYS.find((each) => each === chosen) ?? way)}
              />
              <p>{say(`reviewing.words.${way}`)}</p>
              <ChosenWay
                way={way}
                procedure={procedure}
                person={person}
                onReviewed={(next) => void record(next)}
              />
            </>
          )}
          {error === null ? null : <ErrorNotice error={error} />}
        </div>
        <div className="procedure-side">
          {page === undefined ? (
            <p className="source-page source-empty">{say('reviewing.noPage')}</p>
          ) : (
            <PageView page={page} />
          )}
          {page === undefined ? null : <span className="quiet">{say('procedureForm.page.copyright')}</span>}
        </div>
      </div>
    </ProcedurePage>
  );
}
