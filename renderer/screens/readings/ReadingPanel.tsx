/**
 * The current reading, large: one digit group and one large Enter. A doubtful entry is asked about here with one-tap
 * cures; what is recorded stands beside it and can be repeated or struck.
 */
import { type FocusEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import { createPortal } from 'react-dom';
import type { Cure } from '../../../core/entry/index.ts';
import { say } from '../../../core/words/index.ts';
import { SimulatedInstrument } from '../../rehearsal/SimulatedInstrument.tsx';
import { entryContext } from '../../state/expectation.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { newId } from '../../state/ids.ts';
import type { PlacementView } from '../../state/placementView.ts';
import { instrumentsFor, readingEntryToSend, readingText, readReading } from '../../state/readingEntry.ts';
import type { Slot } from '../../state/readings.ts';
import { typedKey } from '../../state/typedEntry.ts';
import { directionKey, directionOf, instrumentKey } from '../../state/typedPreviews.ts';
import { useActions, useWindow } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { Icon } from '../../ui/Icon.tsx';
import { Keypad } from '../../ui/Keypad.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { leftForGood } from '../fields/leftForGood.ts';
import { Question, Refusal } from '../fields/Question.tsx';
import { exchangeSides } from './exchangeSides.ts';
import { InstrumentLine } from './InstrumentLine.tsx';
import { StandingReadings } from './StandingReadings.tsx';

interface ReadingPanelProps {
  readonly held: HeldJob;
  readonly view: PlacementView;
  readonly slot: Slot;
  readonly slots: readonly Slot[];
  /** Where the keypad stands while it is out. */
  readonly keys: Element | null;
  readonly onRecorded: () => void;
  /** The reading in sight stays in sight: the person is at work elsewhere. */
  readonly onStay: () => void;
}

export function ReadingPanel(props: ReadingPanelProps): ReactNode {
  const { held, view, slot, slots, keys, onRecorded, onStay } = props;
  const actions = useActions();
  const { job } = held;
  const typed = useWindow((state) => state.typed[typedKey(job.id, slot.draft)]);
  const wayText = useWindow((state) => state.typed[typedKey(job.id, directionKey(slot))]?.text);
  const chosenInstrument = useWindow((state) => state.typed[typedKey(job.id, instrumentKey(slot))]?.text);
  const [asked, setAsked] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => input.current?.focus(), []);

  const { spec } = slot;
  const instruments = instrumentsFor(spec, view.sensor.equipment);
  const instrument = instruments.find((each) => each.id === chosenInstrument) ?? instruments[0];
  const text = typed?.text ?? '';
  const read = readReading(text, spec, instrument, entryContext(slot, slots, view));
  const way = directionOf(slot, wayText);
  const needsWay = spec.directions !== undefined && way === undefined && read.ok && read.value.value !== 0;

  const finish = (): void => {
    setAsked(false);
    onRecorded();
  };
  const record = (value: number): void => {
    const fact = readingEntryToSend(job, slot, {
      reading: newId(),
      value,
      text,
      direction: spec.directions === undefined ? null : (way ?? spec.directions[0]),
      instrument: instrument?.id ?? null,
    });
    void actions.send(job.id, slot.draft, [fact]);
    actions.drop(job.id, directionKey(slot));
  };
  const write = (next: string): void => {
    setAsked(false);
    actions.type(job.id, slot.draft, next);
  };
  const isPlain = read.ok && read.value.question === undefined && !needsWay;
  const enter = (): void => {
    if (text.trim() === '' || typed?.phase === 'sent') return;
    if (isPlain) {
      record(read.value.value);
      finish();
    } else {
      setAsked(true);
    }
  };
  /** Leaving the panel sends what is plain; the person has gone elsewhere, so no other reading is opened. */
  const leave = (event: FocusEvent<HTMLElement>): void => {
    if (event.currentTarget.contains(event.relatedTarget)) return;
    if (isPlain && typed?.phase === 'typing' && leftForGood()) {
      onStay();
      record(read.value.value);
    } else {
      actions.leave(job.id, slot.draft);
    }
  };
  const cure = (taken: Cure): void => {
    if (needsWay) return;
    const swap = exchangeSides(job, slot, slots, taken, text, instrument?.id ?? null);
    if (swap === undefined) record(taken.value);
    else void actions.send(job.id, slot.draft, swap);
    finish();
  };
  return (
    <fieldset
      className="reading"
      data-form="reading"
      data-testid="reading"
      data-slot={slot.key}
      aria-label={sayKey(spec.label)}
      onBlur={leave}
    >
      <TextEntry
        large
        numeric
        label={sayKey(spec.label)}
        fieldKey={slot.draft}
        value={text}
        mark={typed?.phase ?? (slot.standing.length > 0 ? 'recorded' : 'none')}
        unit={spec.unit === 'deg' ? '°' : (instrument?.numbersIn ?? 'mm')}
        inputRef={input}
        onChange={write}
        onEnter={enter}
        beside={
          <>
            <AriaButton className="button button-main enter" onPress={enter} data-testid="enter">
              <Icon name="enter" />
              {say('act.enter')}
            </AriaButton>
            <StandingReadings held={held} slot={slot} />
          </>
        }
      />
      <SimulatedInstrument
        held={held}
        view={view}
        slot={slot}
        instrument={instrument}
        onTake={(shown, direction) => {
          write(shown);
          if (direction !== undefined) actions.type(job.id, directionKey(slot), direction);
          input.current?.focus();
        }}
      />
      {spec.directions === undefined ? null : (
        <ChoiceButtons
          label={say('readings.way')}
          items={spec.directions.map((value) => ({ value, text: say(`tilt.${value}`) }))}
          chosen={way === undefined ? [] : [way]}
          onChoose={([value]) => actions.type(job.id, directionKey(slot), value ?? '')}
        />
      )}
      {asked && needsWay ? (
        <p className="question" role="alert">
          {say('readings.chooseWay')}
        </p>
      ) : null}
      {asked && !read.ok ? (
        <Refusal
          refusal={read.error}
          onSuggestion={(suggestion) => actions.type(job.id, slot.draft, suggestion)}
        />
      ) : null}
      {asked && read.ok && read.value.question !== undefined ? (
        <Question
          question={read.value.question}
          valueText={(value) => readingText(value, spec)}
          onCure={cure}
        />
      ) : null}
      {typed?.error == null ? null : <ErrorNotice error={typed.error} />}
      <InstrumentLine
        spec={spec}
        instruments={instruments}
        instrument={instrument}
        repeats={slot.standing.length > 0}
        onChoose={(id) => actions.type(job.id, instrumentKey(slot), id)}
      />
      {keys === null
        ? null
        : createPortal(
            <Keypad
              text={text}
              fractions={instrument?.numbersIn === 'in'}
              onText={(next) => {
                input.current?.focus();
                write(next);
              }}
              onEnter={enter}
            />,
            keys,
          )}
    </fieldset>
  );
}
