/**
 * The drawing sheet, plan or side view. The plan: car, fixture as it stands and as it must stand, turned to how the person stands at the fixture. The
 * points of the current reading pulse once; a touched point opens its reading.
 */
import { type ReactNode, useMemo, useState } from 'react';
import { elevationScene } from '../../../core/drawing/elevation.ts';
import { floorFromStaff } from '../../../core/drawing/elevationModel.ts';
import { planScene } from '../../../core/drawing/plan.ts';
import type { PlanRequest } from '../../../core/drawing/planModel.ts';
import { fixtureShape } from '../../../core/job/equipment.ts';
import { fixtureScale, staffReadings } from '../../../core/job/fixtureScale.ts';
import type { Job } from '../../../core/job/job.ts';
import type { StationFinding } from '../../../core/placement/finding.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import { settingSentences } from '../../../core/vehicle/lineWords.ts';
import { say } from '../../../core/words/index.ts';
import { SceneSvg } from '../../drawings/SceneSvg.tsx';
import type { PlacementView } from '../../state/placementView.ts';
import type { Slot } from '../../state/readings.ts';
import { shownLengthUnit } from '../../text/lengthText.ts';
import { Button } from '../../ui/Button.tsx';
import { type Size, useSize } from './useSize.ts';

interface PlanViewProps {
  readonly job: Job;
  readonly view: PlacementView;
  readonly answer: PlacementAnswer | undefined;
  readonly preview: boolean;
  readonly slots: readonly Slot[];
  readonly current: Slot | undefined;
  readonly station?: string;
  readonly onPick: (key: string) => void;
  /** More tools beside the turning of the plan. */
  readonly tools?: ReactNode;
}

/** Size of ordinary labels on the sheet, CSS pixels. */
const TEXT_PT = 14;

function planRequest(props: PlanViewProps, size: Size, turned: boolean): PlanRequest {
  const { equipment } = props.view.sensor;
  const arm = equipment?.sideArms[0]?.lengthMm;
  return {
    sheet: { widthPt: size.width, heightPt: size.height },
    textPt: TEXT_PT,
    view: turned ? 'carUp' : 'asIStand',
    decimalSign: '.',
    unit: shownLengthUnit(),
    stations: props.view.stations,
    recipe: props.view.recipe.filter((spec) => props.slots.some((slot) => slot.spec === spec)),
    taken: props.slots.filter((slot) => slot.state === 'recorded').map((slot) => slot.key),
    suspects: props.answer?.suspects.flatMap((each) => each.readingIds) ?? [],
    medium: 'screen',
    ...(props.current === undefined ? {} : { next: props.current.key }),
    ...(props.station === undefined ? {} : { station: props.station }),
    ...(props.answer === undefined ? {} : { answer: props.answer }),
    ...(equipment === null ? {} : { fixture: fixtureShape(equipment) }),
    ...(arm === undefined ? {} : { sideArmMm: arm }),
  };
}

/** The same sheet seen from the car's right, on the floor as it was levelled. */
function sideScene(props: PlanViewProps, request: PlanRequest) {
  const wheelbaseMm = props.answer?.vehicle?.wheelbase.value;
  const fixtureAheadMm = stationInSight(props)?.required.aheadMm;
  if (wheelbaseMm === undefined || fixtureAheadMm === undefined) return elevationScene(request);
  const floor = floorFromStaff(staffReadings(props.job), wheelbaseMm, fixtureAheadMm);
  return elevationScene({ ...request, floor });
}

function stationInSight({ answer, station, view }: PlanViewProps): StationFinding | undefined {
  const id = station ?? view.stations[0]?.id;
  return answer?.stations.find((each) => each.station === id);
}

/** What to set on the fixture's own scale, as the sentences beside the side view. */
function settingLines(props: PlanViewProps): readonly string[] {
  const found = stationInSight(props);
  const requirement = props.view.stations.find((each) => each.id === found?.station);
  if (found === undefined || requirement === undefined) return [];
  const setting = fixtureScale(props.job, props.answer?.vehicle, requirement, found.required);
  return setting === undefined ? [] : settingSentences(setting).map(({ key, values }) => say(key, values));
}

export function PlanView(props: PlanViewProps): ReactNode {
  const [ref, size] = useSize<HTMLDivElement>();
  const [turned, setTurned] = useState(false);
  const [side, setSide] = useState(false);
  const scene = useMemo(() => {
    if (size === undefined || size.width < 80 || size.height < 80) return undefined;
    const request = planRequest(props, size, turned);
    return side ? sideScene(props, request) : planScene(request);
  }, [props, size, turned, side]);
  const setting = useMemo(() => (side ? settingLines(props) : []), [props, side]);
  return (
    <section
      className="plan"
      data-testid="plan"
      data-view={side ? 'side' : 'plan'}
      data-preview={props.preview || undefined}
    >
      <div className="plan-tools">
        <Button icon="sideView" weight="quiet" keepsFocus onPress={() => setSide(!side)} testId="side-view">
          {side ? say('plan.fromAbove') : say('plan.side')}
        </Button>
        {side ? null : (
          <Button icon="turn" weight="quiet" keepsFocus onPress={() => setTurned(!turned)} testId="turn-plan">
            {turned ? say('plan.asIStand') : say('plan.carUp')}
          </Button>
        )}
        {props.tools}
        {props.preview ? <span className="plan-preview">{say('plan.preview')}</span> : null}
      </div>
      <div className="plan-drawn">
        {setting.length === 0 ? null : (
          <p className="plan-setting" data-testid="fixture-setting">
            {setting.map((line, at) => (
              <span key={line} className={at === 0 ? 'strong' : 'quiet'}>
                {line}
              </span>
            ))}
          </p>
        )}
        <div className="plan-sheet" ref={ref}>
          {scene === undefined ? null : <SceneSvg scene={scene} onPick={props.onPick} />}
        </div>
      </div>
    </section>
  );
}
