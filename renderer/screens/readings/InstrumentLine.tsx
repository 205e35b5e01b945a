/** Which instrument a reading is taken with, and what the program does with its numbers. */
import type { ReactNode } from 'react';
import type { Instrument } from '../../../core/job/equipment.ts';
import type { ReadingSpec } from '../../../core/placement/recipe.ts';
import { say } from '../../../core/words/index.ts';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';

/** "tape T-04, numbers in mm, starts at its hook". */
export function instrumentWords(instrument: Instrument): string {
  const start = instrument.kind === 'tape' ? `, ${say(`instrument.start.${instrument.startsAt}`)}` : '';
  const unit =
    instrument.kind === 'inclinometer'
      ? ''
      : `, ${say('instrument.numbersIn', { unit: instrument.numbersIn })}`;
  return `${instrument.name}${unit}${start}`;
}

export function InstrumentLine({
  spec,
  instruments,
  instrument,
  repeats,
  onChoose,
}: {
  readonly spec: ReadingSpec;
  readonly instruments: readonly Instrument[];
  readonly instrument: Instrument | undefined;
  /** True when a reading stands already. */
  readonly repeats: boolean;
  readonly onChoose: (id: string) => void;
}): ReactNode {
  if (instrument === undefined) {
    return <p className="quiet">{say(`instrument.none.${spec.instrument}`)}</p>;
  }
  return (
    <div className="instrument-line">
      <span className="quiet">
        {instrumentWords(instrument)}
        {repeats ? `. ${say('readings.repeat')}` : null}
      </span>
      {instruments.length < 2 ? null : (
        <ChoiceButtons
          label={say('readings.instrument')}
          items={instruments.map((each) => ({ value: each.id, text: each.name }))}
          chosen={[instrument.id]}
          onChoose={([id]) => {
            if (id !== undefined) onChoose(id);
          }}
        />
      )}
    </div>
  );
}
