/** The floor survey of a bay: started, read place by place, and what it says of the floor when it is whole. */
import { type ReactNode, useCallback, useMemo, useState } from 'react';
import { surveyedFloor } from '../../../core/bay/floorSurvey.ts';
import { surveyStanding } from '../../../core/bay/surveyValidity.ts';
import { floorMapScene, placeKey } from '../../../core/drawing/floorMap.ts';
import type { Sheet } from '../../../core/drawing/scene.ts';
import {
  floorSurveyOf,
  nextPlace,
  type Room,
  type RoomSurvey,
  type SurveyedPlace,
  surveyTerm,
  walkingOrder,
  withPlace,
} from '../../../core/job/room.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import type { CallError } from '../../state/ports.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { HoldButton } from '../../ui/HoldButton.tsx';
import { ErrorNotice } from '../../ui/Notice.tsx';
import { DeskTools } from '../readings/DeskTools.tsx';
import { BayPart } from './BayPart.tsx';
import { Facts } from './Facts.tsx';
import { PlaceEntry } from './PlaceEntry.tsx';
import { SceneSheet } from './SceneSheet.tsx';
import { SurveyStart } from './SurveyStart.tsx';
import { floorFacts } from './surveyWords.ts';
import { TroubleNotice } from './TroubleNotice.tsx';
import { today, useBayRoom } from './useBayRoom.ts';

function SurveyResults({ survey, room }: { readonly survey: RoomSurvey; readonly room: Room }): ReactNode {
  const floor = useMemo(() => surveyedFloor(floorSurveyOf(survey)), [survey]);
  const standing = surveyStanding(surveyTerm(survey, room), today());
  if (!floor.ok) return <TroubleNotice error={floor.error} />;
  const { person, madeOn, instrument, validUntil } = survey;
  return (
    <>
      {standing.ok ? null : <TroubleNotice error={standing.error} />}
      <section className="sheet" data-testid="survey-results">
        <h2 className="overline">{say('bay.survey.results')}</h2>
        <Facts facts={floorFacts(floor.value)} />
        <p className="quiet">{say('bay.survey.by', { person, madeOn, instrument })}</p>
        {standing.ok ? <p className="quiet">{say('bay.floor.good', { madeOn, validUntil })}</p> : null}
        <p className="quiet">{say('bay.survey.finished')}</p>
      </section>
    </>
  );
}

function GroundWorks({ room, onWorks }: { readonly room: Room; readonly onWorks: () => void }): ReactNode {
  return (
    <section className="sheet">
      {room.groundWorks.length === 0 ? null : (
        <p>{say('bay.survey.worksOn', { days: room.groundWorks.join(', ') })}</p>
      )}
      <p className="quiet">{say('bay.survey.worksHint')}</p>
      <HoldButton onHeld={onWorks} disabled={room.groundWorks.includes(today())} testId="ground-works">
        {say('bay.survey.works')}
      </HoldButton>
    </section>
  );
}

export function SurveyPart({ held, tabs }: { readonly held: HeldJob; readonly tabs: ReactNode }): ReactNode {
  const actions = useActions();
  const room = useBayRoom(held);
  const [anew, setAnew] = useState(false);
  const [picked, setPicked] = useState<string | undefined>(undefined);
  const [sending, setSending] = useState(false);
  const [error, setError] = useState<CallError | null>(null);
  const { survey } = room;
  const record = async (next: Room): Promise<void> => {
    setSending(true);
    const failure = await actions.recordBay(held.job.bay, next);
    setSending(false);
    setError(failure);
    if (failure === null) setAnew(false);
  };
  const place =
    survey === null
      ? undefined
      : (walkingOrder(survey).find((each) => placeKey(each) === picked) ?? nextPlace(survey));
  const read = (one: SurveyedPlace): void => {
    if (survey === null) return;
    setPicked(undefined);
    void record({ ...room, survey: withPlace(survey, one) });
  };
  const make = useCallback(
    (sheet: Sheet) => {
      const grid = survey === null ? undefined : floorSurveyOf(survey);
      const givenUp = (survey?.places ?? []).filter((each) => each.staffMm === null).map(placeKey);
      return floorMapScene({
        sheet,
        textPt: 14,
        decimalSign: '.',
        grid: grid ?? { xsMm: [0, 1], ysMm: [0, 1], heightsMm: [] },
        givenUp: new Set(givenUp),
        touchable: true,
        ...(place === undefined ? {} : { next: place }),
      });
    },
    [survey, place],
  );
  if (survey === null || anew) {
    return (
      <BayPart
        tabs={tabs}
        main={
          <section className="sheet empty" data-testid="survey-empty">
            <h2>{say('bay.survey.purpose')}</h2>
          </section>
        }
      >
        <SurveyStart replaced={survey} onStart={(next) => void record({ ...room, survey: next })} />
        {error === null ? null : <ErrorNotice error={error} />}
      </BayPart>
    );
  }
  return (
    <BayPart
      tabs={tabs}
      main={
        <SceneSheet
          testId="floor-map"
          make={make}
          tools={<DeskTools stage="bay" keys={place !== undefined} />}
          onPick={setPicked}
        />
      }
    >
      {error === null ? null : <ErrorNotice error={error} />}
      {place === undefined ? null : (
        <PlaceEntry survey={survey} place={place} sending={sending} onRead={read} />
      )}
      {nextPlace(survey) === undefined ? <SurveyResults survey={survey} room={room} /> : null}
      <Button weight="quiet" onPress={() => setAnew(true)} testId="survey-again">
        {say('bay.survey.startAgain')}
      </Button>
      {nextPlace(survey) === undefined ? (
        <GroundWorks
          room={room}
          onWorks={() => void record({ ...room, groundWorks: [...room.groundWorks, today()] })}
        />
      ) : null}
    </BayPart>
  );
}
