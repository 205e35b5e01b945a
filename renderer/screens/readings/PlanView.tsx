/**
 * The plan sheet: car, fixture as it stands and as it must stand, turned to how the person stands at the fixture. The
 * points of the current reading pulse once; a touched point opens its reading.
 */
import { type ReactNode, useMemo, useState } from 'react';
import { planScene } from '../../../core/drawing/plan.ts';
import type { PlanRequest } from '../../../core/drawing/planModel.ts';
import { fixtureShape } from '../../../core/job/equipment.ts';
import type { PlacementAnswer } from '../../../core/placement/types.ts';
import { say } from '../../../core/words/index.ts';
import { SceneSvg } from '../../drawings/SceneSvg.tsx';
import type { PlacementView } from '../../state/placementView.ts';
import type { Slot } from '../../state/readings.ts';
import { shownLengthUnit } from '../../text/lengthText.ts';
import { Button } from '../../ui/Button.tsx';
import { type Size, useSize } from './useSize.ts';

interface PlanViewProps {
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
    medium: 'screen',
    ...(props.current === undefined ? {} : { next: props.current.key }),
    ...(props.station === undefined ? {} : { station: props.station }),
    ...(props.answer === undefined ? {} : { answer: props.answer }),
    ...(equipment === null ? {} : { fixture: fixtureShape(equipment) }),
    ...(arm === undefined ? {} : { sideArmMm: arm }),
  };
}

export function PlanView(props: PlanViewProps): ReactNode {
  const [ref, size] = useSize<HTMLDivElement>();
  const [turned, setTurned] = useState(false);
  const scene = useMemo(
    () =>
      size === undefined || size.width < 80 || size.height < 80
        ? undefined
        : planScene(planRequest(props, size, turned)),
    [props, size, turned],
  );
  return (
    <section className="plan" data-testid="plan" data-preview={props.preview || undefined}>
      <div className="plan-tools">
        <Button icon="turn" weight="quiet" keepsFocus onPress={() => setTurned(!turned)} testId="turn-plan">
          {turned ? say('plan.asIStand') : say('plan.carUp')}
        </Button>
        {props.tools}
        {props.preview ? <span className="plan-preview">{say('plan.preview')}</span> : null}
      </div>
      <div className="plan-sheet" ref={ref}>
        {scene === undefined ? null : <SceneSvg scene={scene} onPick={props.onPick} />}
      </div>
    </section>
  );
}
