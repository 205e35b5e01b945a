/** The stations of a procedure: where the target stands at each, in the order they are worked. */
import type { ReactNode } from 'react';
import { COORDINATES } from '../../../core/frames.ts';
import type { ProcedureStation } from '../../../core/procedure/index.ts';
import { say } from '../../../core/words/index.ts';
import { slidesFollow, withOneMoreStation, withStation } from '../../state/procedureDraft.ts';
import { headingOf, turnOf } from '../../state/signedText.ts';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { CoordinateFields } from './CoordinateFields.tsx';
import { type DraftForm, DraftText, FaultLines } from './draftForm.tsx';
import { RadialFields } from './RadialFields.tsx';

const PLACES = ['ahead', 'behind', 'carLeft', 'carRight'] as const;

/** The station at another place: the turn from square goes along, square is another heading there. */
function atPlace(station: ProcedureStation, place: ProcedureStation['place']): ProcedureStation {
  const turn = turnOf(station.yaw.value, station.place);
  const value = turn === undefined ? station.yaw.value : headingOf(turn, place);
  return { ...station, place, yaw: { ...station.yaw, value } };
}

function PlaceChoice({ form, index, station }: StationProps): ReactNode {
  return (
    <ChoiceButtons
      label={say('procedurePart.place')}
      testId={`place-${station.id}`}
      items={PLACES.map((value) => ({ value, text: say(`stationPlace.${value}`) }))}
      chosen={[station.place]}
      onChoose={([chosen]) => {
        const place = PLACES.find((each) => each === chosen);
        if (place === undefined) return;
        const changed = withStation(form.draft, index, atPlace(station, place));
        form.change({ ...changed, stations: slidesFollow(changed.stations) });
      }}
    />
  );
}

interface StationProps {
  readonly form: DraftForm;
  readonly index: number;
  readonly station: ProcedureStation;
}

function StationFields({ form, index, station }: StationProps): ReactNode {
  const where = `stations.${station.id}`;
  const put = (next: ProcedureStation): void => form.change(withStation(form.draft, index, next));
  return (
    <div className="station-fields" data-station={station.id}>
      {form.quick ? null : (
        <div className="part-line">
          <DraftText
            form={form}
            where={`${where}.name`}
            label={`${say('procedureForm.stationName')} (${say(`stationKind.${station.kind}`)})`}
            value={station.name}
            onChange={(name) => put({ ...station, name })}
          />
          {form.draft.stations.length < 2 ? null : (
            <Button
              icon="strike"
              label={`${say('procedureForm.remove')}: ${station.name}`}
              onPress={() =>
                form.change({ ...form.draft, stations: form.draft.stations.toSpliced(index, 1) })
              }
            >
              {say('procedureForm.remove')}
            </Button>
          )}
        </div>
      )}
      {station.kind === 'slide' ? null : <PlaceChoice form={form} index={index} station={station} />}
      <FaultLines form={form} where={where} />
      {COORDINATES.map((coordinate) => (
        <CoordinateFields
          key={coordinate}
          form={form}
          index={index}
          station={station}
          coordinate={coordinate}
        />
      ))}
      {form.quick ? null : (
        <>
          <RadialFields form={form} index={index} station={station} />
          <DraftText
            form={form}
            where={`${where}.capturePrompt`}
            label={say('procedureForm.prompt')}
            value={station.capturePrompt}
            onChange={(capturePrompt) => put({ ...station, capturePrompt })}
          />
        </>
      )}
    </div>
  );
}

export function StationPart({ form }: { readonly form: DraftForm }): ReactNode {
  const { draft, change } = form;
  const name = say('procedureForm.station', { number: String(draft.stations.length + 1) });
  return (
    <section className="sheet" data-part="stations">
      <h2 className="overline">{say('procedureForm.stations')}</h2>
      <p className="quiet">{say('procedureForm.unitsHint')}</p>
      {draft.stations.map((station, index) => (
        <StationFields key={station.id} form={form} index={index} station={station} />
      ))}
      {form.quick ? null : (
        <div className="part-buttons">
          <Button
            icon="add"
            testId="add-stand"
            onPress={() => change(withOneMoreStation(draft, 'reposition', name))}
          >
            {say('procedureForm.addStand')}
          </Button>
          <Button
            icon="add"
            testId="add-slide"
            onPress={() => change(withOneMoreStation(draft, 'slide', name))}
          >
            {say('procedureForm.addSlide')}
          </Button>
        </div>
      )}
    </section>
  );
}
