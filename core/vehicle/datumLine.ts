/**
 * The line that side positions are measured from, with its uncertainty: an origin and a heading in plan. Four ways to it:
 * four hub drops (rear-axle midpoint to front-axle midpoint), the rear axle alone (square to it through its middle), the
 * rear wheels' headings (through the rear-axle midpoint), marks on the body with known places. All headings are from the
 * x axis of the places' frame toward its y, rad: ISO 8855 yaw when x runs ahead.
 */
import { type Matrix, matrixFromRows } from '../linalg/matrix.ts';
import { err, invariant, ok, type Result } from '../result.ts';
import {
  type Budget,
  coverageFactor,
  effectiveDof,
  propagateJointly,
  quantity,
  type Values,
} from '../uncertainty/index.ts';
import { wrapRad } from '../units.ts';
import { type JointInputs, joined, type KnownPlaces, type PlanPlace, placeInputs } from './knownPlaces.ts';

/** How the line was found. */
export type DatumSource = 'hubs' | 'rearAxle' | 'headings' | 'alignmentReport' | 'bodyMarks';

/** An origin and a heading with what is known of them. */
export interface DatumLine {
  readonly source: DatumSource;
  readonly origin: PlanPlace;
  readonly headingRad: number;
  /** Of x, y (mm) and heading (rad), in that order. */
  readonly covariance: Matrix;
  /** The heading with its U, k, dof and the share of every input. rad. */
  readonly heading: Budget;
  /** The origin's position across the line, positive to its left, mm; its value is 0 by definition. */
  readonly originAcross: Budget;
}

/** What keeps readings from making a line. */
export type DatumError =
  | { readonly code: 'vehicle/axlesCoincide' }
  | { readonly code: 'vehicle/axleTooShort'; readonly lengthMm: number }
  | { readonly code: 'vehicle/marksTooClose' }
  | { readonly code: 'vehicle/marksExact' }
  | { readonly code: 'vehicle/tooFewMarks'; readonly count: number };

/** Shortest distance that still gives a direction, mm: below it the points are wrong, not the car. */
const SHORTEST_MM = 100;

type X = Values<string>;
const value = (x: X, name: string): number => {
  const found = x[name];
  invariant(found !== undefined, `no input named ${name}`);
  return found;
};
const middle = (x: X, a: string, b: string, axis: 'x' | 'y'): number =>
  (value(x, `${a}.${axis}`) + value(x, `${b}.${axis}`)) / 2;

/** A line from a model of its origin and heading. Headings are taken about the found one: no jump at half a turn. */
function lineOf(
  source: DatumSource,
  known: JointInputs,
  originX: (x: X) => number,
  originY: (x: X) => number,
  heading: (x: X) => number,
): DatumLine {
  const at = Object.fromEntries(Object.entries(known.inputs).map(([name, input]) => [name, input.value]));
  const headingRad = wrapRad(heading(at));
  const origin = { xMm: originX(at), yMm: originY(at) };
  const [c, s] = [Math.cos(headingRad), Math.sin(headingRad)];
  const joint = propagateJointly(known, {
    x: (v) => originX(v) - origin.xMm,
    y: (v) => originY(v) - origin.yMm,
    heading: (v) => wrapRad(heading(v) - headingRad),
    across: (v) => c * (originY(v) - origin.yMm) - s * (originX(v) - origin.xMm),
  });
  const names = ['x', 'y', 'heading'] as const;
  return {
    source,
    origin,
    headingRad,
    covariance: matrixFromRows(names.map((a) => names.map((b) => joint.covariance(a, b)))),
    heading: { ...joint.results.heading, value: headingRad },
    originAcross: joint.results.across,
  };
}

const apartMm = (a: PlanPlace, b: PlanPlace): number => Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm);
const between = (a: PlanPlace, b: PlanPlace): PlanPlace => ({
  xMm: (a.xMm + b.xMm) / 2,
  yMm: (a.yMm + b.yMm) / 2,
});

/** The centreline from four hub drops: through both axles' midpoints, origin in the rear one. */
export function centrelineFromHubs(
  hubs: KnownPlaces<'FL' | 'FR' | 'RL' | 'RR'>,
): Result<DatumLine, DatumError> {
  const { FL, FR, RL, RR } = hubs.places;
  if (!(apartMm(between(RL, RR), between(FL, FR)) > SHORTEST_MM))
    return err({ code: 'vehicle/axlesCoincide' });
  return ok(
    lineOf(
      'hubs',
      placeInputs(hubs),
      (x) => middle(x, 'RL', 'RR', 'x'),
      (x) => middle(x, 'RL', 'RR', 'y'),
      (x) =>
        Math.atan2(
          middle(x, 'FL', 'FR', 'y') - middle(x, 'RL', 'RR', 'y'),
          middle(x, 'FL', 'FR', 'x') - middle(x, 'RL', 'RR', 'x'),
        ),
    ),
  );
}

/**
 * The line square to the rear axle through its middle. `uSquareRad` is how far the axle itself may stand from square to
 * the car (the hubs' fore-and-aft tolerance over the track): it belongs to the car and no reading of the axle removes it.
 */
export function lineFromRearAxle(
  hubs: KnownPlaces<'RL' | 'RR'>,
  uSquareRad: number,
): Result<DatumLine, DatumError> {
  const lengthMm = apartMm(hubs.places.RL, hubs.places.RR);
  if (!(lengthMm > SHORTEST_MM)) return err({ code: 'vehicle/axleTooShort', lengthMm });
  const square: JointInputs = {
    inputs: {
      square: quantity('square', 0, uSquareRad, Number.POSITIVE_INFINITY, 'rear axle square to the car'),
    },
    correlations: [],
  };
  return ok(
    lineOf(
      'rearAxle',
      joined(placeInputs(hubs), square),
      (x) => middle(x, 'RL', 'RR', 'x'),
      (x) => middle(x, 'RL', 'RR', 'y'),
      // From right hub to left hub is to the car's left; ahead is a quarter turn to the right of that.
      (x) =>
        Math.atan2(-(value(x, 'RL.x') - value(x, 'RR.x')), value(x, 'RL.y') - value(x, 'RR.y')) +
        value(x, 'square'),
    ),
  );
}

/** Mean heading of the rear wheels in the places' frame, rad, with its u and dof (see `wheelGeometry.ts`). */
export interface KnownHeading {
  readonly headingRad: number;
  readonly uRad: number;
  readonly dof: number;
}

/** The thrust line: through the rear-axle midpoint along the rear wheels' mean heading, which was read independently. */
export function thrustLineFromHeadings(
  hubs: KnownPlaces<'RL' | 'RR'>,
  { headingRad, uRad, dof }: KnownHeading,
): Result<DatumLine, DatumError> {
  const lengthMm = apartMm(hubs.places.RL, hubs.places.RR);
  if (!(lengthMm > SHORTEST_MM)) return err({ code: 'vehicle/axleTooShort', lengthMm });
  const wheels: JointInputs = {
    inputs: { wheels: quantity('wheels', headingRad, uRad, dof, "rear wheels' mean heading") },
    correlations: [],
  };
  return ok(
    lineOf(
      'headings',
      joined(placeInputs(hubs), wheels),
      (x) => middle(x, 'RL', 'RR', 'x'),
      (x) => middle(x, 'RL', 'RR', 'y'),
      (x) => value(x, 'wheels'),
    ),
  );
}

/** What is known of the side position of the line at a distance ahead of its origin. mm. */
export interface SideKnowledge {
  readonly u: number;
  readonly dof: number;
  readonly k: number;
  readonly U: number;
  /** The two parts: the origin's own, and heading times distance. They meet in quadrature plus twice their covariance. */
  readonly fromOriginMm: number;
  readonly fromHeadingMm: number;
}

/**
 * Uncertainty of the line's side position `aheadMm` from its origin (behind is negative): the origin across, and the
 * heading times the distance, with the covariance of the two. 0.1 deg is 8.7 mm at 5 m.
 */
export function sideKnowledge(line: DatumLine, aheadMm: number): SideKnowledge {
  const [c, s] = [Math.cos(line.headingRad), Math.sin(line.headingRad)];
  const slopes = [-s, c, aheadMm];
  let variance = 0;
  slopes.forEach((a, i) => {
    slopes.forEach((b, j) => {
      variance += a * b * (line.covariance.data[3 * i + j] ?? 0);
    });
  });
  const u = Math.sqrt(Math.max(0, variance));
  const fromOriginMm = line.originAcross.u;
  const fromHeadingMm = Math.abs(aheadMm) * line.heading.u;
  const dof = effectiveDof([
    { u: fromOriginMm, dof: line.originAcross.dof },
    { u: fromHeadingMm, dof: line.heading.dof },
  ]);
  const k = coverageFactor(dof);
  return { u, dof, k, U: k * u, fromOriginMm, fromHeadingMm };
}
