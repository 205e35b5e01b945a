/** Space: the bay with everything the work needs in plan, what lacks room by how much, and where to park instead. */
import { type ReactNode, useCallback, useState } from 'react';
import { placed, spaceFit } from '../../../core/bay/space/fit.ts';
import { type BestParking, bestParking } from '../../../core/bay/space/parking.ts';
import { fitSentences, parkingSentence, type SpaceSentence } from '../../../core/bay/space/spaceWords.ts';
import type { PlacedPart } from '../../../core/drawing/spacePlan.ts';
import { spacePlanScene } from '../../../core/drawing/spacePlan.ts';
import { wholeJob } from '../../../core/job/fieldKey.ts';
import type { JobSensor } from '../../../core/job/job.ts';
import { CAR_SIZE_FIELDS, PARKED_FIELDS, parkedOf } from '../../../core/job/parking.ts';
import { bayOf, parkingLimits } from '../../../core/job/spaceParts.ts';
import { formatFixed, formatLength } from '../../../core/units.ts';
import { say } from '../../../core/words/index.ts';
import { fieldFact } from '../../state/fieldText.ts';
import type { HeldJob } from '../../state/heldJob.ts';
import { useActions } from '../../state/windowContext.tsx';
import { sayKey } from '../../text/sayKey.ts';
import { Button } from '../../ui/Button.tsx';
import { BayPart } from './BayPart.tsx';
import { FieldsOf } from './FieldsOf.tsx';
import { RoomForm } from './RoomForm.tsx';
import { SceneSheet } from './SceneSheet.tsx';
import { partsOf } from './spaceWork.ts';
import { TroubleNotice } from './TroubleNotice.tsx';
import { useBayRoom } from './useBayRoom.ts';

/** A part's name is a key of ours or a name of the shop's; walls are ours too. */
const nameWords = (name: string): string => sayKey(name === 'walls' ? 'space.walls' : name);

function sentenceWords({ key, values }: SpaceSentence): string {
  const named = Object.entries(values).map(([slot, value]) => [
    slot,
    slot === 'part' || slot === 'against' ? nameWords(String(value)) : value,
  ]);
  return say(key, Object.fromEntries(named));
}

function ParkingAnswer({ held, best }: { readonly held: HeldJob; readonly best: BestParking }): ReactNode {
  const actions = useActions();
  const nose = Math.cos(best.place.headingRad) > 0 ? 'alongX' : 'againstX';
  const [along, across] = [formatFixed(best.place.xMm, 0), formatFixed(best.place.yMm, 0)];
  const park = (): void => {
    void actions.record(held.job.id, [
      fieldFact('bay.parkedAlong', wholeJob, Number(along), along),
      fieldFact('bay.parkedAcross', wholeJob, Number(across), across),
      fieldFact('bay.parkedNose', wholeJob, nose, nose),
    ]);
  };
  return (
    <div data-testid="parking-answer">
      <p className="strong">{sentenceWords(parkingSentence(best))}</p>
      <p>
        {say('bay.space.bestAt', {
          along: formatLength(best.place.xMm, 0, 'mm'),
          across: formatLength(best.place.yMm, 0, 'mm'),
          nose: say(`field.bay.parkedNose.${nose}`),
        })}
      </p>
      {best.fitsSomewhere ? <p className="quiet">{say('bay.space.slack')}</p> : null}
      <Button onPress={park} testId="park-there">
        {say('bay.space.takePlace')}
      </Button>
    </div>
  );
}

export function SpacePart({
  held,
  sensor,
  tabs,
}: {
  readonly held: HeldJob;
  readonly sensor: JobSensor;
  readonly tabs: ReactNode;
}): ReactNode {
  const room = useBayRoom(held);
  const [best, setBest] = useState<BestParking | undefined>(undefined);
  const bay = bayOf(room);
  const parts = partsOf(held.job, sensor);
  const parked = parkedOf(held.job);
  const fit =
    bay === undefined || parts === undefined || parked === undefined
      ? undefined
      : spaceFit(bay, parts, parked);
  const placedParts: readonly PlacedPart[] =
    parts === undefined || parked === undefined
      ? []
      : parts.map((part) => ({
          name: nameWords(part.name),
          kind: part.kind,
          outline: placed(part.outline, parked),
          lacksRoom:
            fit?.ok === true &&
            [...fit.value.findings.filter((each) => each.spareMm < 0), ...fit.value.inTheCar].some(
              (each) => each.part === part.name,
            ),
        }));
  const drawn = JSON.stringify(placedParts);
  const make = useCallback(
    (sheet: { readonly widthPt: number; readonly heightPt: number }) =>
      spacePlanScene({
        sheet,
        textPt: 14,
        walls: room.outline,
        obstacles: room.obstacles,
        parts: JSON.parse(drawn) as readonly PlacedPart[],
      }),
    [room, drawn],
  );
  const findPlace = (): void => {
    if (bay === undefined || parts === undefined) return;
    const found = bestParking(bay, parts, parkingLimits(bay));
    setBest(found.ok ? found.value : undefined);
  };
  const main =
    bay === undefined ? (
      <section className="sheet empty" data-testid="space-empty">
        <h2>{say('bay.space.purpose')}</h2>
        <p>{say('bay.space.notDrawn')}</p>
      </section>
    ) : (
      <SceneSheet testId="space-plan" make={make} />
    );
  return (
    <BayPart tabs={tabs} main={main}>
      {fit === undefined ? (
        bay === undefined ? null : (
          <p>{say('bay.space.needsCar')}</p>
        )
      ) : fit.ok ? (
        <section className="sheet" data-testid="space-answer" data-fits={fit.value.fits}>
          {fitSentences(fit.value).map((sentence) => (
            <p key={`${sentence.key} ${JSON.stringify(sentence.values)}`} className="strong">
              {sentenceWords(sentence)}
            </p>
          ))}
        </section>
      ) : (
        <TroubleNotice error={fit.error} />
      )}
      {bay === undefined || parts === undefined ? null : (
        <section className="sheet">
          <Button icon="search" onPress={findPlace} testId="find-place">
            {say('bay.space.findPlace')}
          </Button>
          {best === undefined ? null : <ParkingAnswer held={held} best={best} />}
        </section>
      )}
      <section className="sheet">
        <h2 className="overline">{say('bay.floor.parked')}</h2>
        <FieldsOf held={held} names={PARKED_FIELDS} />
      </section>
      <section className="sheet">
        <h2 className="overline">{say('bay.floor.car')}</h2>
        <FieldsOf held={held} names={[...CAR_SIZE_FIELDS, 'bay.rolling']} />
      </section>
      <RoomForm bay={held.job.bay} room={room} />
    </BayPart>
  );
}
