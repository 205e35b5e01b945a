/**
 * How an instrument sends, tried before it is kept: where it is, its last lines as they come, the pattern, and which value
 * each line gives by it.
 */
import { type ReactNode, useEffect, useState } from 'react';
import type { Output } from '../../../core/contract/index.ts';
import type { LineStream } from '../../../core/instruments/index.ts';
import { formatDeg } from '../../../core/units.ts';
import { say } from '../../../core/words/index.ts';
import type { ThingTexts } from '../../state/shopForms.ts';
import {
  COMMON_BAUD,
  formatOfTexts,
  sourceOfTexts,
  streamOfTexts,
  streamText,
} from '../../state/streamForm.ts';
import { SAMPLE } from '../../state/streaming.ts';
import type { NOTHING_HEARD } from '../../state/streams.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { lengthText } from '../../text/lengthText.ts';
import { Button } from '../../ui/Button.tsx';
import { SelectList } from '../../ui/SelectList.tsx';
import { ConnectionMark, connectionWords } from '../readings/LiveReading.tsx';
import { ThingFieldRow } from './ThingFieldRow.tsx';

type Trial = Output<'instrument.test'>;

interface StreamFormProps {
  readonly texts: ThingTexts;
  readonly before: LineStream | undefined;
  readonly wrong: readonly string[];
  readonly onChange: (texts: ThingTexts) => void;
  /** This way of sending read every line of a live sample. */
  readonly onTried: (stream: string) => void;
}

function usePorts(): readonly [readonly string[], () => void] {
  const actions = useActions();
  const [ports, setPorts] = useState<readonly string[]>([]);
  const look = (): void => void actions.instrumentPorts().then(setPorts);
  useEffect(() => void actions.instrumentPorts().then(setPorts), [actions]);
  return [ports, look];
}

function SerialPlace({ texts, onChange }: Pick<StreamFormProps, 'texts' | 'onChange'>): ReactNode {
  const [ports, look] = usePorts();
  const kept = texts['stream.serialPort'] ?? '';
  const all = kept === '' || ports.includes(kept) ? ports : [kept, ...ports];
  return (
    <>
      {all.length === 0 ? <p className="question">{say('stream.noPorts')}</p> : null}
      {all.length === 0 ? null : (
        <SelectList
          label={say('stream.serialPort')}
          placeholder={say('stream.choosePort')}
          items={all.map((value) => ({ value, text: value }))}
          chosen={kept === '' ? null : kept}
          onChoose={(value) => onChange({ 'stream.serialPort': value })}
          testId="serial-port"
        />
      )}
      <div>
        <Button icon="search" onPress={look}>
          {say('stream.findPorts')}
        </Button>
      </div>
      <SelectList
        label={say('stream.baud')}
        placeholder={say('stream.baud')}
        items={COMMON_BAUD.map((value) => ({ value, text: value }))}
        chosen={texts['stream.baud'] ?? null}
        onChoose={(value) => onChange({ 'stream.baud': value })}
        testId="baud"
      />
    </>
  );
}

function valueText({ value, unit }: { readonly value: number; readonly unit: string }): string {
  return unit === 'rad' ? formatDeg(value, 2) : lengthText(value, 2);
}

/** Each line with what it gives. */
function Lines({ lines }: { readonly lines: Trial['lines'] }): ReactNode {
  return (
    <ol className="stream-lines" data-testid="tried-lines">
      {lines.map(({ line, value, fault }, index) => (
        <li key={`${String(index)} ${line}`}>
          <code>{line}</code>
          <span className={fault === null ? 'strong' : 'question'}>
            {fault !== null
              ? say(fault.key, fault.values)
              : value === null
                ? say('stream.otherChannel')
                : valueText(value)}
          </span>
        </li>
      ))}
    </ol>
  );
}

function Sample({ texts, before, onTried }: Omit<StreamFormProps, 'wrong' | 'onChange'>): ReactNode {
  const actions = useActions();
  const live = useWindow((state) => state.live[SAMPLE]);
  const [trial, setTrial] = useState<Trial | null>(null);
  const [unplaced, setUnplaced] = useState(false);
  const listen = async (): Promise<void> => {
    const source = sourceOfTexts(texts, before);
    setUnplaced(!source.ok);
    setTrial(null);
    if (source.ok && source.value !== undefined) await actions.listenTo(source.value);
  };
  const attempt = async (): Promise<void> => {
    const format = formatOfTexts(texts);
    const stream = streamOfTexts(texts, before);
    if (!format.ok || live === undefined) return;
    const answer = await actions.tryFormat({ format: format.value, lines: [...live.sample] });
    if (!answer.ok) return;
    setTrial(answer.value);
    if (answer.value.fits && stream.ok) onTried(streamText(stream.value));
  };
  return (
    <>
      <div className="stream-acts">
        <Button onPress={() => void listen()} testId="listen">
          {say('stream.listen')}
        </Button>
        {live === undefined ? null : <ConnectionMark live={live} />}
        {live === undefined ? null : (
          <Button weight="quiet" onPress={actions.stopListening}>
            {say('stream.stop')}
          </Button>
        )}
      </div>
      {unplaced ? <p className="question">{say('stream.wrongPlace')}</p> : null}
      {live === undefined ? null : <SampleLines live={live} />}
      {live === undefined || live.sample.length === 0 ? null : (
        <div>
          <Button icon="check" onPress={() => void attempt()} testId="try-format">
            {say('stream.try')}
          </Button>
        </div>
      )}
      {trial === null ? null : (
        <div className="stream-trial" data-testid="trial" data-fits={trial.fits}>
          <p className={trial.fits ? 'strong' : 'question'}>
            {trial.problem === null
              ? say(trial.fits ? 'stream.fits' : 'stream.doesNotFit')
              : say(trial.problem.key, trial.problem.values)}
          </p>
          <Lines lines={trial.lines} />
        </div>
      )}
    </>
  );
}

function SampleLines({ live }: { readonly live: typeof NOTHING_HEARD }): ReactNode {
  const words = connectionWords(live);
  return (
    <>
      {words === '' ? null : <p className="question">{words}</p>}
      <span className="field-label">{say('stream.lines')}</span>
      {live.sample.length === 0 ? (
        <p className="quiet">{say('stream.noLines')}</p>
      ) : (
        <pre className="stream-sample" data-testid="sample">
          {live.sample.slice(-6).join('\n')}
        </pre>
      )}
    </>
  );
}

export function StreamForm(props: StreamFormProps): ReactNode {
  const { texts, wrong, onChange } = props;
  const kind = texts['stream.kind'] ?? 'none';
  const row = (id: string, fieldKind: 'text' | 'choice', values?: readonly string[]): ReactNode => (
    <ThingFieldRow
      field={{ id, kind: fieldKind, ...(values === undefined ? {} : { values }) }}
      label={id}
      text={texts[id] ?? ''}
      wrong={wrong.includes(id)}
      onChange={(text) => onChange({ [id]: text })}
    />
  );
  return (
    <section className="stream-form" aria-label={say('stream.title')}>
      {row('stream.kind', 'choice', ['none', 'serial', 'tcp'])}
      {kind === 'none' ? <p className="quiet">{say('stream.wedge')}</p> : null}
      {kind === 'tcp' ? row('stream.host', 'text') : null}
      {kind === 'tcp' ? row('stream.port', 'text') : null}
      {kind === 'serial' ? <SerialPlace texts={texts} onChange={onChange} /> : null}
      {kind === 'none' ? null : (
        <>
          {row('stream.pattern', 'text')}
          <p className="quiet">{say('stream.patternHint')}</p>
          {row('stream.measures', 'choice', ['length', 'angle'])}
          {row('stream.unit', 'text')}
          {row('stream.channel', 'text')}
          {row('stream.good', 'text')}
          <Sample {...props} />
          {wrong.includes('stream.tryFirst') ? (
            <p className="question" role="alert">
              {say('stream.tryFirst')}
            </p>
          ) : null}
          {wrong.includes('stream.serialPort') ? (
            <p className="question">{say('stream.wrongPlace')}</p>
          ) : null}
        </>
      )}
    </section>
  );
}
