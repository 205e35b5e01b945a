/** One coordinate of a station: its value with its way, its own datum, what it gives on the tried car, its tolerance. */
import { memo, type ReactNode, useState } from 'react';
import { type Coordinate, isAngleCoordinate } from '../../../core/frames.ts';
import type { ProcedureStation } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { slidesFollow, withStation } from '../../state/procedureDraft.ts';
import { liveResult } from '../../state/procedureTrial.ts';
import { headingOf, joinSign, type SignedText } from '../../state/signedText.ts';
import { countedWords, signedValue } from '../../text/procedureWords.ts';
import { SelectList } from '../../ui/SelectList.tsx';
import { type DraftForm, DraftText } from './draftForm.tsx';
import { ToleranceFields } from './ToleranceFields.tsx';
import { WayChoice } from './WayChoice.tsx';

const DATUMS = {
  ahead: ['bodyFace', 'frontAxle', 'rearAxle'],
  left: ['centreline', 'thrustLine'],
  yaw: ['centreline', 'thrustLine'],
  up: ['contactPlane'],
  pitch: ['contactPlane'],
  roll: ['contactPlane'],
} as const satisfies Readonly<Record<Coordinate, readonly string[]>>;

interface CoordinateProps {
  readonly form: DraftForm;
  readonly index: number;
  readonly station: ProcedureStation;
  readonly coordinate: Coordinate;
}

function ValueFields({ form, index, station, coordinate }: CoordinateProps): ReactNode {
  const signed = signedValue(station, coordinate);
  // A way chosen before anything is typed has no text to stand in yet.
  const [against, setAgainst] = useState(signed?.against ?? false);
  const write = (value: string): void => {
    const changed = { ...station, [coordinate]: { ...station[coordinate], value } };
    const draft = form.now();
    form.change({ ...draft, stations: slidesFollow(withStation(draft, index, changed).stations) });
  };
  const put = (next: SignedText): void =>
    write(coordinate === 'yaw' ? headingOf(next, station.place) : joinSign(next));
  const where = `stations.${station.id}.${coordinate}`;
  const result = liveResult(station, coordinate, form.draft.inputs, form.trial);
  const below =
    result === '' ? null : (
      <span className="quiet" data-result={where}>
        {result}
      </span>
    );
  const label = say(`poseName.${coordinate}`);
  if (signed === undefined) {
    const text = station[coordinate].value;
    return (
      <DraftText
        form={form}
        where={where}
        label={say('procedureForm.heading')}
        value={text}
        below={below}
        onChange={write}
      />
    );
  }
  return (
    <>
      <DraftText
        form={form}
        where={where}
        label={label}
        value={signed.size}
        below={below}
        onChange={(size) => put({ size, against })}
      />
      {coordinate === 'up' ? (
        <span className="pose-word">{say('counted.up')}</span>
      ) : (
        <WayChoice
          label={`${label}, ${say('procedureForm.way')}`}
          along={countedWords(coordinate, false, station.place)}
          against={countedWords(coordinate, true, station.place)}
          isAgainst={against}
          testId={`way-${where}`}
          onChoose={(next) => {
            setAgainst(next);
            put({ size: signed.size, against: next });
          }}
        />
      )}
    </>
  );
}

function DatumChoice({ form, index, station, coordinate }: CoordinateProps): ReactNode {
  const label = `${say(`poseName.${coordinate}`)}, ${say('procedureForm.datum')}`;
  const datums = DATUMS[coordinate];
  const { from } = station[coordinate];
  if (datums.length === 1) return <span className="pose-word">{say(`countedFrom.${from}`)}</span>;
  return (
    <SelectList
      label={label}
      hideLabel
      placeholder={say('procedureForm.datum')}
      testId={`datum-stations.${station.id}.${coordinate}`}
      chosen={from}
      items={datums.map((value) => ({ value, text: say(`countedFrom.${value}`) }))}
      onChoose={(value) => {
        const changed = { ...station, [coordinate]: { ...station[coordinate], from: value } };
        form.change({
          ...form.now(),
          stations: slidesFollow(withStation(form.now(), index, changed).stations),
        });
      }}
    />
  );
}

/** What is wrong with this coordinate, in one text. */
function faultsOf({ form, station, coordinate }: CoordinateProps): string {
  const where = `stations.${station.id}.${coordinate}`;
  return form.faults
    .filter((each) => each.where === where || each.where === `${where}.tolerance`)
    .map((each) => each.where + each.words)
    .join();
}

/** A key in one field leaves the other coordinates as they are drawn: a long form must follow the typing. */
function looksAlike(before: CoordinateProps, after: CoordinateProps): boolean {
  return (
    before.station === after.station &&
    before.index === after.index &&
    before.form.draft.inputs === after.form.draft.inputs &&
    before.form.trial === after.form.trial &&
    faultsOf(before) === faultsOf(after)
  );
}

export const CoordinateFields = memo(OneCoordinate, looksAlike);

function OneCoordinate(props: CoordinateProps): ReactNode {
  const { station, coordinate } = props;
  const inherited = station.kind === 'slide' && coordinate !== 'left';
  return (
    <fieldset className="pose-line" data-kind={isAngleCoordinate(coordinate) ? 'angle' : 'length'}>
      <legend className="visually-hidden">{say(`poseName.${coordinate}`)}</legend>
      {inherited ? (
        <p className="pose-inherited">
          <span className="field-label">{say(`poseName.${coordinate}`)}</span>
          <span className="quiet">{say('procedureForm.asStand')}</span>
        </p>
      ) : (
        <>
          <ValueFields key={station.place} {...props} />
          <DatumChoice {...props} />
        </>
      )}
      <ToleranceFields {...props} />
    </fieldset>
  );
}
