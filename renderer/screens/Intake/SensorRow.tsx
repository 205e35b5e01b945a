/** One sensor of a job: what becomes of it, by which procedure, measured with what. */
import type { ReactNode } from 'react';
import type { Disposition } from '../../../core/job/events.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import { say, type WordKey } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { typedKey } from '../../state/typedEntry.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { procedureLine } from '../../text/procedureLine.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { EntryMark } from '../../ui/EntryMark.tsx';
import { SelectList } from '../../ui/SelectList.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { EquipmentChoice } from './EquipmentChoice.tsx';
import { ToShop } from './ToShop.tsx';

const DISPOSITIONS: readonly Disposition[] = [
  'staticHere',
  'dynamicRoad',
  'initialiseOnly',
  'notNeeded',
  'doneElsewhere',
  'refused',
];

/** Asked for at each disposition: on whose word or by which document it was decided. */
const SOURCE_WORDS = {
  staticHere: 'source.askedFor',
  dynamicRoad: 'source.askedFor',
  initialiseOnly: 'source.askedFor',
  notNeeded: 'source.notNeeded',
  doneElsewhere: 'source.doneElsewhere',
  refused: 'source.refused',
} as const satisfies Readonly<Record<Disposition, WordKey>>;

interface SensorProps {
  readonly held: HeldJob;
  readonly sensor: JobSensor;
}

function DispositionSource({ held, sensor }: SensorProps): ReactNode {
  const actions = useActions();
  const { disposition } = sensor;
  const key = `intake.dispositionSource@${sensor.sensor}`;
  const typed = useWindow((state) => state.typed[typedKey(held.job.id, key)]);
  if (disposition === null) return null;
  const text = typed?.text ?? sensor.dispositionSource;
  const send = (): void => {
    if (text === sensor.dispositionSource) {
      actions.drop(held.job.id, key);
      return;
    }
    void actions.send(held.job.id, key, [
      {
        type: 'sensorDisposed',
        v: 1,
        payload: { sensor: sensor.sensor, disposition, source: text.trim() },
      },
    ]);
  };
  return (
    <TextEntry
      label={say(SOURCE_WORDS[disposition])}
      fieldKey={key}
      value={text}
      mark={typed?.phase ?? (sensor.dispositionSource === '' ? 'none' : 'recorded')}
      onChange={(next) => actions.type(held.job.id, key, next)}
      onEnter={send}
      onBlur={() => {
        if (typed?.phase === 'typing') send();
      }}
    />
  );
}

function ProcedureChoice({ held, sensor }: SensorProps): ReactNode {
  const actions = useActions();
  const procedures = useWindow((state) => state.status?.shop?.procedures);
  const fitting = procedures?.filter((each) => each.sensor === sensor.kind) ?? [];
  if (fitting.length === 0) return <ToShop words={say('procedure.noneHere')} tab="procedures" />;
  return (
    <div className="field" data-field={`intake.procedure@${sensor.sensor}`}>
      <SelectList
        label={say('procedure.label')}
        placeholder={say('procedure.choose')}
        testId={`procedure-${sensor.sensor}`}
        chosen={sensor.procedure?.id ?? null}
        items={fitting.map((each) => ({ value: each.id, text: each.title, note: procedureLine(each) }))}
        onChoose={(id) => {
          const procedure = fitting.find((each) => each.id === id);
          if (procedure === undefined || procedure.id === sensor.procedure?.id) return;
          void actions.record(held.job.id, [
            { type: 'procedureChosen', v: 1, payload: { sensor: sensor.sensor, procedure } },
          ]);
        }}
      />
      {sensor.procedure === null ? null : <span className="quiet">{procedureLine(sensor.procedure)}</span>}
    </div>
  );
}

export function SensorRow({ held, sensor }: SensorProps): ReactNode {
  const actions = useActions();
  const key = `intake.disposition@${sensor.sensor}`;
  const pending = useWindow((state) => state.pending[typedKey(held.job.id, key)]);
  const chosen = typeof pending?.value === 'string' ? pending.value : sensor.disposition;
  const dispose = (disposition: string): void => {
    void actions.record(
      held.job.id,
      [{ type: 'sensorDisposed', v: 1, payload: { sensor: sensor.sensor, disposition, source: '' } }],
      { key, value: disposition },
    );
  };
  return (
    <article className="sensor" data-sensor={sensor.sensor}>
      <div className="field-head">
        <h2>{sensor.name}</h2>
        <EntryMark
          mark={pending !== undefined ? 'sent' : sensor.disposition === null ? 'none' : 'recorded'}
        />
      </div>
      <div className="field" data-field={key}>
        <ChoiceButtons
          label={say('disposition.label')}
          items={DISPOSITIONS.map((value) => ({
            value,
            text: say(`disposition.${value}`),
            stops: value === 'refused',
          }))}
          chosen={chosen === null ? [] : [chosen]}
          onChoose={([value]) => {
            if (value !== undefined && value !== sensor.disposition) dispose(value);
          }}
        />
      </div>
      <DispositionSource held={held} sensor={sensor} />
      {sensor.disposition === 'staticHere' ? (
        <>
          <ProcedureChoice held={held} sensor={sensor} />
          <EquipmentChoice held={held} sensor={sensor} />
        </>
      ) : null}
    </article>
  );
}
