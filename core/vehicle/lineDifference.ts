/**
 * Whether two lines differ: the angle between them, its U, and the test of it. A significant angle between centreline and
 * thrust line means alignment first, placement after. Where the lines share readings (the same hub drops) their
 * covariance belongs in: leaving a positive one out hides a difference, leaving a negative one out invents one.
 */

import { matrixFromRows } from '../linalg/matrix.ts';
import { err, invariant, ok, type Result } from '../result.ts';
import { coverageFactor } from '../uncertainty/coverage.ts';
import { tProbability } from '../uncertainty/fDistribution.ts';
import { propagate } from '../uncertainty/propagate.ts';
import { quantity } from '../uncertainty/quantity.ts';
import { effectiveDof } from '../uncertainty/welchSatterthwaite.ts';
import { wrapRad } from '../units.ts';
import { linesDiffer, separationMm } from './datum.ts';
import type { DatumLine, KnownHeading } from './datumLine.ts';
import type { ThrustConvention } from './toe.ts';

/** The angle from the first line to the second, positive to the left, rad, and what it is worth. */
export interface LineDifference {
  readonly angleRad: number;
  readonly uRad: number;
  readonly dof: number;
  readonly k: number;
  readonly expandedRad: number;
  /** True when |angle| > U: the difference is there with about 95 % confidence. */
  readonly differs: boolean;
  /** Probability of an angle this large or larger between lines that do not differ (two-sided Student's t). */
  readonly probability: number;
}

/** The heading of a line with its u and dof. */
export function headingOf({ heading, headingRad }: DatumLine): KnownHeading {
  return { headingRad, uRad: heading.u, dof: heading.dof };
}

/** Compares two headings of one frame; `covarianceRad2` is that of the two. */
export function lineDifference(
  first: KnownHeading,
  second: KnownHeading,
  covarianceRad2 = 0,
): LineDifference {
  const bound = first.uRad * second.uRad;
  invariant(Math.abs(covarianceRad2) <= bound * (1 + 1e-9), `covariance ${covarianceRad2} beyond ${bound}`);
  const angleRad = wrapRad(second.headingRad - first.headingRad);
  const variance = first.uRad * first.uRad + second.uRad * second.uRad - 2 * covarianceRad2;
  const uRad = Math.sqrt(Math.max(0, variance));
  const dof = effectiveDof([
    { u: first.uRad, dof: first.dof },
    { u: second.uRad, dof: second.dof },
  ]);
  const k = coverageFactor(dof);
  const expandedRad = k * uRad;
  const t = uRad === 0 ? Number.POSITIVE_INFINITY : Math.abs(angleRad) / uRad;
  const probability = angleRad === 0 ? 1 : t === Number.POSITIVE_INFINITY ? 0 : 2 * tProbability(-t, dof);
  return { angleRad, uRad, dof, k, expandedRad, differs: linesDiffer(angleRad, expandedRad), probability };
}

/** How far the two lines are apart at a distance from where they meet, mm. */
export function differenceAtMm(difference: LineDifference, distanceMm: number): number {
  return separationMm(difference.angleRad, distanceMm);
}

/** u of a line's origin across a heading, mm. */
function acrossU({ covariance }: DatumLine, headingRad: number): number {
  const [c, s] = [Math.cos(headingRad), Math.sin(headingRad)];
  const e = (i: number): number => covariance.data[i] ?? 0;
  return Math.sqrt(Math.max(0, s * s * e(0) - c * s * (e(1) + e(3)) + c * c * e(4)));
}

/** The thrust angle of an alignment report: value and U as printed, with the sign its maker uses. */
export interface AlignmentReport {
  /** The day it was made, `2026-11-25`, and the document's name or number. */
  readonly madeOn: string;
  readonly document: string;
  readonly thrustAngleRad: number;
  readonly convention: ThrustConvention;
  /** Expanded uncertainty of the angle, rad, and its coverage factor (2 when the report is silent). */
  readonly expandedRad: number;
  readonly k: number;
}

/** A report that cannot be used: without an uncertainty an angle proves nothing. */
export interface ReportError {
  readonly code: 'vehicle/reportWithoutUncertainty';
  readonly document: string;
}

/**
 * The thrust line from a centreline and a report's thrust angle, and the difference of the two lines, which is that angle
 * itself: the centreline's own u turns both and has no part in it.
 */
export function thrustLineFromReport(
  centreline: DatumLine,
  report: AlignmentReport,
): Result<{ readonly line: DatumLine; readonly difference: LineDifference }, ReportError> {
  if (!(report.expandedRad > 0 && report.k > 0)) {
    return err({ code: 'vehicle/reportWithoutUncertainty', document: report.document });
  }
  const uRad = report.expandedRad / report.k;
  const angleRad = report.convention === 'positiveLeft' ? report.thrustAngleRad : -report.thrustAngleRad;
  const headingRad = wrapRad(centreline.headingRad + angleRad);
  const heading = propagate({
    inputs: {
      centreline: quantity('centreline', 0, centreline.heading.u, centreline.heading.dof),
      report: quantity('report', angleRad, uRad, Number.POSITIVE_INFINITY, report.document),
    },
    formula: (x) => x.centreline + x.report,
    sensitivities: { centreline: 1, report: 1 },
  });
  const c = (i: number): number => centreline.covariance.data[i] ?? 0;
  const across = acrossU(centreline, headingRad);
  return ok({
    line: {
      source: 'alignmentReport',
      origin: centreline.origin,
      headingRad,
      covariance: matrixFromRows([
        [c(0), c(1), c(2)],
        [c(3), c(4), c(5)],
        [c(6), c(7), c(8) + uRad * uRad],
      ]),
      heading: { ...heading, value: headingRad },
      originAcross: { ...centreline.originAcross, u: across, U: centreline.originAcross.k * across },
    },
    difference: lineDifference(
      { headingRad: 0, uRad: 0, dof: Number.POSITIVE_INFINITY },
      { headingRad: angleRad, uRad, dof: Number.POSITIVE_INFINITY },
    ),
  });
}
