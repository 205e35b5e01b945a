/**
 * The geometry of the detail. Ten millimetres cannot be seen on a car six metres long, so a circle shows the target's
 * centre many times enlarged. Deviations, tolerance and ellipse share that scale; the bar alone is drawn shorter, its
 * ends carrying their own deviations, as a beam's bending is drawn: a turn too small to see becomes a slope.
 */
import { invariant } from '../result.ts';
import { wrapRad } from '../units.ts';
import { type EllipseAxes, errorEllipse } from './errorEllipse.ts';
import { FINE_STEPS, niceBelow } from './niceScale.ts';
import { movedAlong, scenePoint } from './pieces.ts';
import type { PlanLayout } from './planLayout.ts';
import type { FixtureStand, PlanModel } from './planModel.ts';
import type { ScenePoint } from './scene.ts';

/** Limits of one coordinate about the required value, mm; a side without limit is absent. */
export interface DetailLimits {
  readonly lower?: number;
  readonly upper?: number;
}

/** A displacement at one place, mm: ahead and to the car's left. */
export type Shift = ScenePoint;

/** What the detail shows, in true millimetres about the required centre. */
export interface DetailModel {
  /** Enlargement over the plan. */
  readonly factor: number;
  /** Extra enlargement of the ellipse where it would be too small to see; 1 otherwise. */
  readonly ellipseFactor: number;
  /** Side of a square of the grid, mm. */
  readonly squareMm: number;
  /** From the required centre to the drawn ends of the bar, in the scene's world. */
  readonly reachMm: number;
  readonly barRad: number;
  /** Half the bar's true length, mm. */
  readonly halfBarMm: number;
  /** Heading of the required face's outward normal, toward the car. */
  readonly facingRad: number;
  readonly ahead?: DetailLimits;
  readonly left?: DetailLimits;
  /** How far the ends may stand off a parallel, mm along the face's normal. */
  readonly endPlayMm?: number;
  readonly centre?: Shift;
  readonly endCarLeft?: Shift;
  readonly endCarRight?: Shift;
  readonly ellipse?: EllipseAxes;
  readonly guard?: Shift;
}

/** Where the bar's ends stand in the circle, as a share of its radius. */
const END_SHARE = 0.56;
/** How much of the radius the deviations at the centre may take, and how far out an end may come. */
const CENTRE_SHARE = 0.68;
const END_ROOM = 0.93;
/** A deviation that is drawn although nothing is known, so that the scale stays finite, mm. */
const LEAST_REACH_MM = 4;
/** An ellipse with a half axis under this many points cannot be seen. */
const LEAST_ELLIPSE_PT = 5;
/** Squares of the grid across the circle, at least. */
const LEAST_SQUARES = 8;

/** Limits of ahead or left of the station that is shown. */
function limitsOf(model: PlanModel, coordinate: 'ahead' | 'left'): DetailLimits | undefined {
  const judged = model.finding?.coordinates.find((each) => each.coordinate === coordinate);
  const permitted = judged?.permitted ?? model.requirement?.[coordinate].permitted;
  if (permitted === undefined) return undefined;
  const { lower, upper } = permitted;
  return { ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
}

function yawPlayMm(model: PlanModel): number | undefined {
  const permitted = model.requirement?.yaw.permitted;
  if (permitted === undefined) return undefined;
  const { lower, upper } = permitted;
  const widest = Math.max(Math.abs(lower ?? 0), Math.abs(upper ?? 0));
  return widest === 0 ? undefined : (Math.tan(widest) * model.fixture.barLengthMm) / 2;
}

const difference = (a: ScenePoint, b: ScenePoint): Shift => scenePoint(a.xMm - b.xMm, a.yMm - b.yMm);
const size = (shift: Shift): number => Math.hypot(shift.xMm, shift.yMm);

/** Displacements of the centre and of the two ends, all seen from a bar through the face's centre. */
function shifts(
  required: FixtureStand,
  found: FixtureStand,
  barLengthMm: number,
  barRad: number,
): Pick<DetailModel, 'centre' | 'endCarLeft' | 'endCarRight'> {
  const centre = difference(found.face, required.face);
  const turn = wrapRad(found.facingRad - required.facingRad);
  const half = barLengthMm / 2;
  const end = (reach: number): Shift => {
    const before = movedAlong(scenePoint(0, 0), reach, barRad);
    const after = movedAlong(scenePoint(0, 0), reach, barRad + turn);
    const move = difference(after, before);
    return scenePoint(centre.xMm + move.xMm, centre.yMm + move.yMm);
  };
  return { centre, endCarLeft: end(half), endCarRight: end(-half) };
}

/** A shift under this is none, mm: far below any reading, far above what squares to nothing. */
const NO_SHIFT_MM = 1e-6;

/**
 * The largest enlargement for which an end that stands `alongMm` along the bar and is shifted by `shift` stays within
 * `limitMm` of the centre: the positive root of |along + f shift| = limit.
 */
function roomFor(alongMm: number, barRad: number, shift: Shift | undefined, limitMm: number): number {
  const v = shift === undefined ? 0 : size(shift);
  if (shift === undefined || v < NO_SHIFT_MM) return Number.POSITIVE_INFINITY;
  const b = alongMm * (Math.cos(barRad) * shift.xMm + Math.sin(barRad) * shift.yMm);
  const c = alongMm * alongMm - limitMm * limitMm;
  return (-b + Math.sqrt(b * b - v * v * c)) / (v * v);
}

function widest(limits: DetailLimits | undefined): number {
  return Math.max(Math.abs(limits?.lower ?? 0), Math.abs(limits?.upper ?? 0));
}

/** Resolves the detail; undefined without a required pose. */
export function detailModel(
  model: PlanModel,
  layout: PlanLayout,
  guardFactor: number,
): DetailModel | undefined {
  const { required, found } = model;
  if (required === undefined) return undefined;
  const barRad = Math.atan2(
    required.endCarLeft.yMm - required.endCarRight.yMm,
    required.endCarLeft.xMm - required.endCarRight.xMm,
  );
  const moved = found === undefined ? {} : shifts(required, found, model.fixture.barLengthMm, barRad);
  const ellipse = model.covariance === undefined ? undefined : errorEllipse(model.covariance);
  const ahead = limitsOf(model, 'ahead');
  const left = limitsOf(model, 'left');
  const endPlayMm = yawPlayMm(model);
  const centreReach = Math.max(
    LEAST_REACH_MM,
    Math.hypot(widest(ahead), widest(left)),
    (moved.centre === undefined ? 0 : size(moved.centre)) + (ellipse?.semiMajorMm ?? 0),
  );
  const radius = layout.detail.radiusMm;
  const reachMm = END_SHARE * radius;
  const endShifts = [
    { side: 1, shift: moved.endCarLeft },
    { side: -1, shift: moved.endCarRight },
  ].flatMap(({ side, shift }) => {
    const bracket = movedAlong(moved.centre ?? scenePoint(0, 0), endPlayMm ?? 0, required.facingRad);
    const other = movedAlong(moved.centre ?? scenePoint(0, 0), -(endPlayMm ?? 0), required.facingRad);
    return [shift, bracket, other].map((each) => roomFor(side * reachMm, barRad, each, END_ROOM * radius));
  });
  const factor = niceBelow(Math.min((CENTRE_SHARE * radius) / centreReach, ...endShifts), FINE_STEPS);
  invariant(Number.isFinite(factor), 'the detail needs a finite scale');
  const ptPerDeviation = factor * layout.transform.ptPerMm;
  return {
    factor,
    ellipseFactor: ellipse === undefined ? 1 : ellipseFactor(ellipse.semiMajorMm * ptPerDeviation),
    squareMm: niceBelow((2 * radius) / factor / LEAST_SQUARES),
    reachMm,
    barRad,
    halfBarMm: model.fixture.barLengthMm / 2,
    facingRad: required.facingRad,
    ...(ahead === undefined ? {} : { ahead }),
    ...(left === undefined ? {} : { left }),
    ...(endPlayMm === undefined ? {} : { endPlayMm }),
    ...moved,
    ...(ellipse === undefined ? {} : { ellipse }),
    ...(model.covariance === undefined
      ? {}
      : {
          guard: scenePoint(
            guardFactor * Math.sqrt(model.covariance.xx),
            guardFactor * Math.sqrt(model.covariance.yy),
          ),
        }),
  };
}

function ellipseFactor(semiMajorPt: number): number {
  if (semiMajorPt >= LEAST_ELLIPSE_PT || semiMajorPt <= 0) return 1;
  return niceBelow((2 * LEAST_ELLIPSE_PT) / semiMajorPt);
}
