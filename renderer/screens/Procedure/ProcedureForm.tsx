/** A procedure as a form, with its source page or the drawing of its pose beside it, live. Quick: one screen, one station. */
import { type ReactNode, useState } from 'react';
import { isReviewed, type Procedure } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { goToProcedures } from '../../state/goToProcedures.ts';
import { draftOf, emptyDraft } from '../../state/procedureDraft.ts';
import { today } from '../../state/today.ts';
import { type HeldDraft, useProcedureDraft } from '../../state/useProcedureDraft.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { CarPart, SourcePart } from './CarPart.tsx';
import { ConditionPart } from './ConditionPart.tsx';
import type { DraftForm } from './draftForm.tsx';
import { InputPart } from './InputPart.tsx';
import { PoseDrawing } from './PoseDrawing.tsx';
import { ProcedurePage } from './ProcedurePage.tsx';
import { SourcePage } from './SourcePage.tsx';
import { StationPart } from './StationPart.tsx';
import { StepPart } from './StepPart.tsx';
import { SensorAtPart, TargetPart } from './TargetPart.tsx';

const VIEWS = ['page', 'drawing'] as const;
type View = (typeof VIEWS)[number];

function Beside({
  held,
  view,
  onView,
}: {
  readonly held: HeldDraft;
  readonly view: View;
  readonly onView: (view: View) => void;
}): ReactNode {
  const { draft, change } = held;
  return (
    <>
      <ChoiceButtons
        label={say('procedureForm.view')}
        testId="beside"
        items={VIEWS.map((value) => ({ value, text: say(`procedureForm.view.${value}`) }))}
        chosen={[view]}
        onChoose={([chosen]) => onView(chosen === 'page' ? 'page' : 'drawing')}
      />
      {view === 'page' ? (
        <SourcePage page={draft.page} onPage={(page) => change({ ...draft, page })} />
      ) : (
        <PoseDrawing draft={draft} trial={held.trial} />
      )}
    </>
  );
}

/** What recording makes of it, and the one button that does. */
function RecordBar({
  form,
  procedure,
  onRecorded,
}: {
  readonly form: HeldDraft;
  readonly procedure: Procedure | undefined;
  readonly onRecorded: () => void;
}): ReactNode {
  const before = procedure !== undefined && isReviewed(procedure) ? procedure : undefined;
  return (
    <div className="procedure-record">
      {form.error === null ? null : <ErrorNotice error={form.error} />}
      {form.restored ? (
        <p className="question">
          <span className="question-text">{say('procedureForm.restored')}</span>
          <Button onPress={form.startOver}>{say('procedureForm.startOver')}</Button>
        </p>
      ) : null}
      <p className="quiet" data-testid="becomes">
        {form.mayRecord
          ? say('procedureForm.becomes', { edition: String(form.edition) })
          : say('procedureForm.noPerson')}{' '}
        {before === undefined
          ? null
          : say('procedureForm.reviewedBefore', { edition: String(before.edition) })}
      </p>
      {form.faults.length === 0 ? null : (
        <p className="procedure-faults" role="status" data-testid="fault-count">
          {say('procedureForm.faults', { count: String(form.faults.length) })}
        </p>
      )}
      <Button
        weight="main"
        icon="done"
        disabled={!form.mayRecord || (procedure !== undefined && form.unchanged)}
        testId="record-procedure"
        onPress={() => void form.record().then((done) => (done ? onRecorded() : showFirstFault()))}
      >
        {say('procedureForm.record')}
      </Button>
    </div>
  );
}

/** The first field with a fault comes into sight. */
function showFirstFault(): void {
  window.requestAnimationFrame(() =>
    document.querySelector('[data-fault]')?.scrollIntoView({ block: 'center' }),
  );
}

export function ProcedureForm({
  title,
  procedure,
  quick,
}: {
  readonly title: string;
  /** The edition that is changed; undefined for a new one. */
  readonly procedure: Procedure | undefined;
  readonly quick: boolean;
}): ReactNode {
  const actions = useActions();
  const [first] = useState(() =>
    procedure === undefined
      ? emptyDraft('forwardCamera', today(), say('procedureForm.station', { number: '1' }))
      : draftOf(procedure),
  );
  const name = procedure === undefined ? (quick ? 'quick' : 'new') : `${procedure.id}.${procedure.edition}`;
  const held = useProcedureDraft(name, first, procedure);
  const [view, setView] = useState<View>(quick ? 'page' : 'drawing');
  const form: DraftForm = { ...held, quick };
  return (
    <ProcedurePage title={title} testId={quick ? 'quick-procedure' : 'procedure-editor'}>
      <div className="procedure-desk">
        <div className="procedure-form" data-form="procedure">
          <CarPart form={form} />
          <SourcePart form={form} />
          {quick ? null : <InputPart form={form} />}
          <StationPart form={form} />
          <TargetPart form={form} />
          <ConditionPart form={form} />
          {quick ? null : <StepPart form={form} />}
          {quick ? null : <SensorAtPart form={form} />}
        </div>
        <div className="procedure-side">
          <Beside held={held} view={view} onView={setView} />
          <RecordBar form={held} procedure={procedure} onRecorded={() => goToProcedures(actions)} />
        </div>
      </div>
    </ProcedurePage>
  );
}
