/** Opens a job: VIN, plate, order. Everything else can wait until Intake. */
import { type ReactNode, useState } from 'react';
import { vinFromScan } from '../../../core/entry/vinScan.ts';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import { checkVin } from '../../../core/vehicle/vin.ts';
import { say } from '../../../core/words/index.ts';
import { typedFact } from '../../state/fieldText.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { Dialog } from '../../ui/Dialog.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from '../fields/focusNext.ts';
import { VinLine } from '../fields/VinField.tsx';
import { CameraScan } from './CameraScan.tsx';

const FIELDS = ['intake.plate', 'intake.order'] as const;

/** A scanned text becomes the VIN in it; what holds none stays as it came, and its line says what is wrong. */
function tidyVin(text: string): string {
  const scanned = vinFromScan(text);
  return scanned.ok ? scanned.value.vin : text;
}

export function NewJob({
  startVin = '',
  onClose,
}: {
  /** Scanned before the form was open. */
  readonly startVin?: string;
  readonly onClose: () => void;
}): ReactNode {
  const actions = useActions();
  const bays = useWindow((state) => state.status?.shop?.bays) ?? [];
  const [bay, setBay] = useState(bays[0]?.code ?? '');
  const [vin, setVin] = useState(startVin);
  const [camera, setCamera] = useState(false);
  const [texts, setTexts] = useState<Readonly<Record<string, string>>>({});
  const [error, setError] = useState<CallError | null>(null);
  const [opening, setOpening] = useState(false);
  const report = checkVin(vin);
  const ready = vin.trim() !== '' && (texts['intake.plate'] ?? '').trim() !== '';

  const open = async (): Promise<void> => {
    if (!ready || opening) return;
    setOpening(true);
    const facts = [
      typedFact({ id: 'intake.vin', kind: 'vin' }, wholeJob, report.vin),
      ...FIELDS.filter((field) => (texts[field] ?? '').trim() !== '').map((field) =>
        typedFact({ id: field, kind: 'text' }, wholeJob, (texts[field] ?? '').trim()),
      ),
    ];
    const failure = await actions.createJob(bay, facts);
    setOpening(false);
    setError(failure);
  };
  return (
    <Dialog title={say('home.newJob')} open onClose={onClose}>
      <div className="dialog-form" data-form="new-job">
        <TextEntry
          autoFocus={startVin === ''}
          label={say('field.intake.vin')}
          hint={say('field.intake.vin.hint')}
          fieldKey="new.vin"
          value={vin}
          mark="none"
          onChange={setVin}
          onBlur={() => setVin(tidyVin(vin))}
          onEnter={() => {
            setVin(tidyVin(vin));
            focusNext(document.activeElement);
          }}
          beside={
            camera ? null : (
              <Button icon="camera" onPress={() => setCamera(true)} testId="scan-open">
                {say('scan.open')}
              </Button>
            )
          }
          below={<VinLine text={vin} onTake={setVin} />}
        />
        {camera ? (
          <CameraScan
            onVin={(read) => {
              setVin(read);
              setCamera(false);
            }}
            onClose={() => setCamera(false)}
          />
        ) : null}
        {FIELDS.map((field) => (
          <TextEntry
            key={field}
            autoFocus={startVin !== '' && field === 'intake.plate'}
            label={say(`field.${field}`)}
            fieldKey={`new.${field}`}
            value={texts[field] ?? ''}
            mark="none"
            onChange={(text) => setTexts({ ...texts, [field]: text })}
            onEnter={() => (field === 'intake.order' ? void open() : focusNext(document.activeElement))}
          />
        ))}
        {bays.length < 2 ? null : (
          <ChoiceButtons
            label={say('home.bay')}
            items={bays.map((each) => ({ value: each.code, text: each.name }))}
            chosen={[bay]}
            onChoose={([code]) => setBay(code ?? bay)}
          />
        )}
      </div>
      {error === null ? null : <ErrorNotice error={error} />}
      <div className="dialog-buttons">
        <Button weight="quiet" onPress={onClose}>
          {say('act.cancel')}
        </Button>
        <Button weight="main" disabled={!ready || opening} onPress={() => void open()} testId="open-job">
          {say('home.openJob')}
        </Button>
      </div>
    </Dialog>
  );
}
