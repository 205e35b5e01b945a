/** The sensors of a job. Each has one disposition; one that is calibrated here also a procedure and its equipment. */
import { type ReactNode, useState } from 'react';
import type { SensorKind } from '../../../core/job/events.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { Dialog } from '../../ui/Dialog.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { SensorRow } from './SensorRow.tsx';

const KINDS: readonly SensorKind[] = ['forwardCamera', 'frontRadar', 'cornerRadar', 'surroundCamera'];

/** `forwardCamera-1`, `cornerRadar-3`: the kind and how many of the job's sensors come before. */
function sensorId(held: HeldJob, kind: SensorKind): string {
  return `${kind}-${held.job.sensors.length + 1}`;
}

function AddSensor({ held, onClose }: { readonly held: HeldJob; readonly onClose: () => void }): ReactNode {
  const actions = useActions();
  const [kind, setKind] = useState<SensorKind>('forwardCamera');
  const [name, setName] = useState<string | undefined>(undefined);
  const shown = name ?? say(`sensor.${kind}`);
  const add = (): void => {
    if (shown.trim() === '') return;
    void actions.record(held.job.id, [
      { type: 'sensorListed', v: 1, payload: { sensor: sensorId(held, kind), kind, name: shown.trim() } },
    ]);
    onClose();
  };
  return (
    <Dialog title={say('sensor.add')} open onClose={onClose}>
      <ChoiceButtons
        label={say('sensor.kind')}
        items={KINDS.map((value) => ({ value, text: say(`sensor.${value}`) }))}
        chosen={[kind]}
        onChoose={([value]) => setKind(KINDS.find((each) => each === value) ?? kind)}
      />
      <TextEntry label={say('sensor.name')} value={shown} mark="none" onChange={setName} onEnter={add} />
      <div className="dialog-buttons">
        <Button weight="quiet" onPress={onClose}>
          {say('act.cancel')}
        </Button>
        <Button weight="main" onPress={add} testId="add-sensor-now">
          {say('act.add')}
        </Button>
      </div>
    </Dialog>
  );
}

export function SensorList({ held }: { readonly held: HeldJob }): ReactNode {
  const [adding, setAdding] = useState(false);
  return (
    <section className="sheet form-group" data-field="intake.sensors" data-testid="sensors">
      <h2 className="overline">{say('sensor.title')}</h2>
      {held.job.sensors.length === 0 ? <p>{say('sensor.none')}</p> : null}
      {held.job.sensors.map((sensor) => (
        <SensorRow key={sensor.sensor} held={held} sensor={sensor} />
      ))}
      <div>
        <Button icon="add" onPress={() => setAdding(true)} testId="add-sensor">
          {say('sensor.add')}
        </Button>
      </div>
      {adding ? <AddSensor held={held} onClose={() => setAdding(false)} /> : null}
    </section>
  );
}
