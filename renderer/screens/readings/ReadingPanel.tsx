/**
 * The current reading, large: one digit group and one large Enter. A doubtful entry is asked about here with one-tap
 * cures; what is recorded stands beside it and can be repeated or struck.
 */
import { type FocusEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import { createPortal } from 'react-dom';
import { type Cure, questionReading } from '../../../core/entry/index.ts';
import { say } from '../../../core/words/index.ts';
import { BOUNCE_MS } from '../../announcer/clicker.ts';
import { SimulatedInstrument } from '../../rehearsal/SimulatedInstrument.tsx';
import { entryContext } from '../../state/expectation.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { newId } from '../../state/ids.ts';
import { type LiveRead, signKey, signOf } from '../../state/liveReading.ts';
import type { PlacementView } from '../../state/placementView.ts';
import { instrumentsFor, readingEntryToSend, readingText, readReading } from '../../state/readingEntry.ts';
import type { Slot } from '../../state/readings.ts';
import { notTwice } from '../../state/streams.ts';
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
import { LiveReading } from './LiveReading.tsx';
import { StandingReadings } from './StandingReadings.tsx';
import type { LiveReadingFacts } from './useLiveReading.ts';

/** Held keys and bouncing buttons take once: the next reading would get the value of this one. */
const isAnotherPress = notTwice(BOUNCE_MS);

interface ReadingPanelProps {
  readonly held: HeldJob;
  readonly view: PlacementView;
  readonly slot: Slot;
  readonly slots: readonly Slot[];
  /** Where the keypad stands while it is out. */
  readonly keys: Element | null;
  /** What the reading's instrument sends, where it does. */
  readonly live: LiveReadingFacts | undefined;
  readonly onRecorded: () => void;
  /** The reading in sight stays in sight: the person is at work elsewhere. */
  readonly onStay: () => void;
}

export function ReadingPanel(props: ReadingPanelProps): ReactNode {
  const { held, view, slot, slots, keys, live, onRecorded, onStay } = props;
  const actions = useActions();
  const { job } = held;
  const typed = useWindow((state) => state.typed[typedKey(job.id, slot.draft)]);
  const wayText = useWindow((state) => state.typed[typedKey(job.id, directionKey(slot))]?.text);
  const chosenInstrument = useWindow((state) => state.typed[typedKey(job.id, instrumentKey(slot))]?.text);
  const [asked, setAsked] = useState(false);
  const [doubted, setDoubted] = useState<LiveRead | null>(null);
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => input.current?.focus(), []);

  const { spec } = slot;
  const instruments = instrumentsFor(spec, view.sensor.equipment);
  const instrument = instruments.find((each) => each.id === chosenInstrument) ?? instruments[0];
  const text = typed?.text ?? '';
  const context = entryContext(slot, slots, view);
  const read = readReading(text, spec, instrument, context);
  const way = directionOf(slot, wayText);
  const doubt = doubted === null ? undefined : questionReading(doubted.value, context);
  const needsWay = spec.directions !== undefined && way === undefined && read.ok && read.value.value !== 0;

  const finish = (): void => {
    setAsked(false);
    setDoubted(null);
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
  const recordTaken = ({ value, direction, text: line, taken }: LiveRead): void => {
    const way = spec.directions === undefined ? null : (direction ?? spec.directions[0]);
    const fact = { reading: newId(), value, text: line, direction: way, taken };
    const entry = readingEntryToSend(job, slot, { ...fact, instrument: instrument?.id ?? null });
    void actions.send(job.id, slot.draft, [entry]);
    for (const key of [directionKey(slot), signKey(slot)]) actions.drop(job.id, key);
    finish();
  };
  const take = (): void => {
    const now = live?.take;
    if (now === undefined || typed?.phase === 'sent' || !isAnotherPress(Date.now())) return;
    if (now.needsWay) setAsked(true);
    else if (questionReading(now.value, context) === undefined) recordTaken(now);
    else setDoubted(now);
  };
  const write = (next: string): void => {
    setAsked(false);
    setDoubted(null);
    actions.type(job.id, slot.draft, next);
  };
  const isPlain = read.ok && read.value.question === undefined && !needsWay;
  const enter = (): void => {
    if (typed?.phase === 'sent') return;
    if (text.trim() === '') take();
    else if (isPlain) {
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
      {live === undefined ? null : <LiveReading facts={live} spec={spec} onTake={take} />}
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
            <AriaButton
              className={`button ${live !== undefined && text === '' ? 'button-plain' : 'button-main'} enter`}
              onPress={enter}
              data-testid="enter"
            >
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
          chosen={[live?.shown?.direction ?? way ?? ''].filter(Boolean)}
          onChoose={([value]) => {
            actions.type(job.id, directionKey(slot), value ?? '');
            const newest = live?.live.newest;
            if (newest != null) actions.type(job.id, signKey(slot), signOf(newest.value.value));
          }}
        />
      )}
      {asked && (needsWay || (text === '' && live?.take?.needsWay === true)) ? (
        <p className="question" role="alert">
          {say('readings.chooseWay')}
        </p>
      ) : null}
      {asked && text !== '' && !read.ok ? (
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
      {doubted === null || doubt === undefined ? null : (
        <Question
          question={{ ...doubt, cures: doubt.cures.filter((each) => each.key === 'cure.keep') }}
          valueText={(value) => readingText(value, spec)}
          onCure={() => recordTaken(doubted)}
        />
      )}
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
