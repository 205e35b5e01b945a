/** One coordinate of a station: its value with its way, its own datum, what it gives on the tried car, its tolerance. */
import { type ReactNode, useState } from 'react';
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
    const { draft } = form;
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
  const label = say(`coordinate.${coordinate}`);
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
  const label = `${say(`coordinate.${coordinate}`)}, ${say('procedureForm.datum')}`;
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
          ...form.draft,
          stations: slidesFollow(withStation(form.draft, index, changed).stations),
        });
      }}
    />
  );
}

export function CoordinateFields(props: CoordinateProps): ReactNode {
  const { station, coordinate } = props;
  const inherited = station.kind === 'slide' && coordinate !== 'left';
  return (
    <fieldset className="pose-line" data-kind={isAngleCoordinate(coordinate) ? 'angle' : 'length'}>
      <legend className="visually-hidden">{say(`coordinate.${coordinate}`)}</legend>
      {inherited ? (
        <p className="pose-inherited">
          <span className="field-label">{say(`coordinate.${coordinate}`)}</span>
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
