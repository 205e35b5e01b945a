/** Where this job's floor heights come from, and why a survey cannot serve where it cannot. */
import type { ReactNode } from 'react';
import { surveyStanding } from '../../../core/bay/surveyValidity.ts';
import { nextPlace, readAt, surveyTerm, walkingOrder } from '../../../core/job/room.ts';
import { say } from '../../../core/words/index.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { Button } from '../../ui/Button.tsx';
import { ChoiceButtons } from '../../ui/ChoiceButtons.tsx';
import { TroubleNotice } from './TroubleNotice.tsx';
import { today, useBayRoom } from './useBayRoom.ts';

const WAYS = ['readHere', 'survey', 'spot'] as const;

export function FloorWay({
  held,
  onSurvey,
}: {
  readonly held: HeldJob;
  readonly onSurvey: () => void;
}): ReactNode {
  const actions = useActions();
  const room = useBayRoom(held);
  const { survey } = room;
  const way = held.job.floor?.way ?? 'readHere';
  const standing = survey === null ? undefined : surveyStanding(surveyTerm(survey, room), today());
  const whole = survey !== null && nextPlace(survey) === undefined;
  const usable = whole && standing?.ok === true;
  const changed =
    way === 'survey' && JSON.stringify(held.job.floor?.room?.survey ?? null) !== JSON.stringify(survey);
  const choose = (next: string | undefined): void => {
    const chosen = WAYS.find((each) => each === next);
    if (chosen === undefined) return;
    if (chosen === 'survey' && !usable) {
      onSurvey();
      return;
    }
    const kept = chosen === 'survey' ? room : null;
    void actions.record(held.job.id, [
      { type: 'floorChosen', v: 1, payload: { way: chosen, bay: held.job.bay, room: kept } },
    ]);
  };
  const left =
    survey === null ? 0 : walkingOrder(survey).filter((place) => readAt(survey, place) === undefined).length;
  return (
    <section className="sheet" data-field="bay.floor" data-testid="floor-way">
      <h2 className="overline">{say('bay.floor.way')}</h2>
      <ChoiceButtons
        label={say('bay.floor.way')}
        items={WAYS.map((each) => ({ value: each, text: say(`bay.floor.${each}`) }))}
        chosen={[way]}
        onChoose={([chosen]) => choose(chosen)}
      />
      {way === 'spot' ? <p className="quiet">{say('bay.floor.spotHint')}</p> : null}
      {survey === null ? <p className="quiet">{say('bay.floor.noneYet')}</p> : null}
      {survey !== null && !whole ? <p>{say('bay.floor.notWhole', { count: String(left) })}</p> : null}
      {standing !== undefined && !standing.ok ? <TroubleNotice error={standing.error} /> : null}
      {survey !== null && usable ? (
        <p className="quiet">
          {say('bay.floor.good', { madeOn: survey.madeOn, validUntil: survey.validUntil })}
        </p>
      ) : (
        <Button onPress={onSurvey} testId="to-survey">
          {say('bay.floor.toSurvey')}
        </Button>
      )}
      {changed && usable ? (
        <>
          <p className="question">{say('bay.floor.changed')}</p>
          <Button onPress={() => choose('survey')}>{say('bay.floor.again')}</Button>
        </>
      ) : null}
    </section>
  );
}
