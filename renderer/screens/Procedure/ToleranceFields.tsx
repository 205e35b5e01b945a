/** What a coordinate may deviate: one of six kinds, its limits without signs, each with the way it permits. */
import type { ReactNode } from 'react';
import type { Coordinate } from '../../../core/frames.ts';
import type { ProcedureStation, ProcedureTolerance } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { withStation } from '../../state/procedureDraft.ts';
import { joinSign, splitSign } from '../../state/signedText.ts';
import { TOLERANCE_KINDS, toleranceKind, wayWords, withToleranceKind } from '../../text/procedureWords.ts';
import { SelectList } from '../../ui/SelectList.tsx';
import { TextEntry } from '../../ui/TextEntry.tsx';
import { focusNext } from '../fields/focusNext.ts';
import { type DraftForm, FaultLines } from './draftForm.tsx';
import { WayChoice } from './WayChoice.tsx';

interface ToleranceProps {
  readonly form: DraftForm;
  readonly index: number;
  readonly station: ProcedureStation;
  readonly coordinate: Coordinate;
}

function Limit({
  label,
  fieldKey,
  value,
  onChange,
}: {
  readonly label: string;
  readonly fieldKey: string;
  readonly value: string;
  readonly onChange: (text: string) => void;
}): ReactNode {
  return (
    <TextEntry
      label={label}
      fieldKey={fieldKey}
      value={value}
      mark="none"
      onChange={onChange}
      onEnter={() => focusNext(document.activeElement)}
    />
  );
}

/** The texts of a tolerance, one box each. */
function Limits({ form, index, station, coordinate }: ToleranceProps): ReactNode {
  const { tolerance } = station[coordinate];
  const key = `stations.${station.id}.${coordinate}.tolerance`;
  const put = (next: ProcedureTolerance): void =>
    form.change(
      withStation(form.now(), index, {
        ...station,
        [coordinate]: { ...station[coordinate], tolerance: next },
      }),
    );
  const way = (against: boolean): string => wayWords(coordinate, against, station.place);
  const against = (size: string): string => joinSign({ size, against: true });
  const limit = say('procedureForm.limit');
  switch (tolerance.kind) {
    case 'twoSided':
      return (
        <Limit
          label={limit}
          fieldKey={key}
          value={tolerance.limit}
          onChange={(text) => put({ ...tolerance, limit: text })}
        />
      );
    case 'unequal':
      return (
        <>
          <Limit
            label={way(true)}
            fieldKey={`${key}.lower`}
            value={splitSign(tolerance.lower).size}
            onChange={(text) => put({ ...tolerance, lower: against(text) })}
          />
          <Limit
            label={way(false)}
            fieldKey={`${key}.upper`}
            value={tolerance.upper}
            onChange={(text) => put({ ...tolerance, upper: text })}
          />
        </>
      );
    case 'lowerOnly':
    case 'upperOnly': {
      const lower = tolerance.kind === 'lowerOnly';
      const size = lower ? splitSign(tolerance.lower).size : tolerance.upper;
      const one = (text: string, isLower: boolean): ProcedureTolerance =>
        isLower ? { kind: 'lowerOnly', lower: against(text) } : { kind: 'upperOnly', upper: text };
      return (
        <>
          <Limit label={limit} fieldKey={key} value={size} onChange={(text) => put(one(text, lower))} />
          <WayChoice
            label={`${say(`poseName.${coordinate}`)}, ${say('procedureForm.limitWay')}`}
            along={way(false)}
            against={way(true)}
            isAgainst={lower}
            testId={`limit-way-${key}`}
            onChoose={(next) => put(one(size, next))}
          />
        </>
      );
    }
    case 'range':
      return (
        <>
          <Limit
            label={say('procedurePart.least')}
            fieldKey={`${key}.least`}
            value={tolerance.least}
            onChange={(text) => put({ ...tolerance, least: text })}
          />
          <Limit
            label={say('procedurePart.most')}
            fieldKey={`${key}.most`}
            value={tolerance.most}
            onChange={(text) => put({ ...tolerance, most: text })}
          />
        </>
      );
    case 'notStated':
      return (
        <Limit
          label={say('procedureForm.workingLimit')}
          fieldKey={key}
          value={tolerance.workingLimit ?? ''}
          onChange={(text) => put({ ...tolerance, workingLimit: text === '' ? null : text })}
        />
      );
  }
}

/** A range is between two values of the coordinate itself: offered where those have no sign. */
function offered(coordinate: Coordinate, present: string): readonly (typeof TOLERANCE_KINDS)[number][] {
  const unsigned = coordinate === 'ahead' || coordinate === 'up';
  return TOLERANCE_KINDS.filter((kind) => kind !== 'range' || unsigned || present === 'range');
}

export function ToleranceFields(props: ToleranceProps): ReactNode {
  const { form, index, station, coordinate } = props;
  const kind = toleranceKind(station, coordinate);
  const where = `stations.${station.id}.${coordinate}.tolerance`;
  return (
    <div className="pose-tolerance">
      <SelectList
        label={say('procedureForm.tolerance')}
        placeholder={say('procedureForm.tolerance')}
        testId={`tolerance-stations.${station.id}.${coordinate}`}
        chosen={kind}
        items={offered(coordinate, kind).map((value) => ({ value, text: say(`toleranceKind.${value}`) }))}
        onChoose={(value) => {
          const next = TOLERANCE_KINDS.find((each) => each === value);
          if (next !== undefined) {
            form.change(withStation(form.now(), index, withToleranceKind(station, coordinate, next)));
          }
        }}
      />
      {kind === 'free' ? null : <Limits {...props} />}
      <FaultLines form={form} where={where} />
    </div>
  );
}
