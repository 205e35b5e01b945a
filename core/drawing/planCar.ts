/** The car on the plan: outline, tyres, centreline, thrust line, the two car-side lines. */
import { carPlan, tyrePlan } from './carShape.ts';
import { niceBelow } from './niceScale.ts';
import { line, movedAlong, scenePoint } from './pieces.ts';
import type { PlanLayout } from './planLayout.ts';
import type { PlanModel } from './planModel.ts';
import { PLAN_WHEELS } from './planModel.ts';
import type { SceneItem, ScenePoint } from './scene.ts';

/** The slope that a thrust angle is enlarged to at most, so that the two lines part visibly. */
const VISIBLE_THRUST_RAD = 0.045;
/** How far the centreline runs past car and target, points. */
const PAST_PT = 10;

/** The thrust line as drawn: where it ends and by how much its angle is enlarged. */
export interface DrawnThrust {
  readonly from: ScenePoint;
  readonly to: ScenePoint;
  readonly factor: number;
}

function centreEnds(model: PlanModel, layout: PlanLayout): readonly [number, number] {
  const past = (PAST_PT * layout.signScale) / layout.transform.ptPerMm;
  const { car, points } = model;
  const rear = Math.min(-car.rearOverhangMm, points['behind.L'].xMm, points.target.xMm);
  const front = Math.max(car.wheelbaseMm + car.frontOverhangMm, points['ahead.L'].xMm, points.target.xMm);
  return [rear - past, front + past];
}

/** The thrust line of a measured car; undefined when its wheels' toe is not known. */
export function drawnThrust(model: PlanModel, layout: PlanLayout): DrawnThrust | undefined {
  const angleRad = model.vehicle?.thrustLine?.angle.value;
  if (angleRad === undefined) return undefined;
  const factor =
    Math.abs(angleRad) < 1e-6 ? 1 : Math.max(1, niceBelow(VISIBLE_THRUST_RAD / Math.abs(angleRad)));
  const [rear, front] = centreEnds(model, layout);
  const rearAxle = scenePoint(0, 0);
  return {
    from: movedAlong(rearAxle, rear, angleRad * factor),
    to: movedAlong(rearAxle, front, angleRad * factor),
    factor,
  };
}

/** Car, tyres and lines, bottom first. */
export function carItems(model: PlanModel, layout: PlanLayout): readonly SceneItem[] {
  const { car, points } = model;
  const role = model.datumKnown ? 'ink' : 'pencil';
  const [rear, front] = centreEnds(model, layout);
  const thrust = drawnThrust(model, layout);
  const headingRad = (model.vehicle?.thrustLine?.angle.value ?? 0) * (thrust?.factor ?? 1);
  const tyres = PLAN_WHEELS.map((wheel) =>
    tyrePlan(points[`hub.${wheel}`], wheel.startsWith('R') ? headingRad : 0, car, role),
  );
  const side = (letter: 'L' | 'R'): SceneItem =>
    line([points[`behind.${letter}`], points[`ahead.${letter}`]], {
      role: 'pencil',
      pen: 'thin',
      dash: 'longDash',
    });
  return [
    ...tyres,
    ...carPlan(car, role),
    line([scenePoint(rear, 0), scenePoint(front, 0)], { role, pen: 'thin', dash: 'dashDot' }),
    ...(thrust === undefined
      ? []
      : [line([thrust.from, thrust.to], { role: 'ink', pen: 'thin', dash: 'dashed' })]),
    side('L'),
    side('R'),
  ];
}
