/**
 * Headings and cambers with the rim's run-out removed. A bent rim or a clamp set askew adds an angle that turns with
 * the wheel; read in two positions half a turn apart it comes in once with either sign, so the mean is free of it and
 * half the difference is the run-out (in the direction read). The car rolls between the two: they are set-ups of their
 * own, read before it settles for the placement.
 */

/** An angle read twice, half a turn apart, rad. */
export interface HalfTurnPair {
  readonly firstRad: number;
  readonly secondRad: number;
}

/** The angle without run-out, and the run-out, rad. */
export interface Compensated {
  readonly angleRad: number;
  readonly runOutRad: number;
  /** u of both, rad: that of one reading over sqrt 2. What the two readings share (a line, a zero) is not in it. */
  readonly uRad: number;
}

/** Removes the run-out from a pair; `readingURad` is the u of one of the two. */
export function withoutRunOut({ firstRad, secondRad }: HalfTurnPair, readingURad: number): Compensated {
  return {
    angleRad: (firstRad + secondRad) / 2,
    runOutRad: (firstRad - secondRad) / 2,
    uRad: readingURad * Math.SQRT1_2,
  };
}

/**
 * The same when the wheel was not turned by exactly half a turn but `overRad` more or less: the largest part of the
 * run-out that stays in the mean, rad. 10 degrees leave 8.7 % at most.
 */
export function runOutLeftRad(runOutRad: number, overRad: number): number {
  // Run-out is a vector turning with the wheel: its mean over two places pi + over apart has this length.
  return Math.abs(runOutRad * Math.sin(overRad / 2));
}

/** A rear axle's headings, run-out removed, as one: the thrust direction against the line read from, rad, with its u. */
export interface RearHeading {
  /** Positive to the car's left. */
  readonly headingRad: number;
  readonly uRad: number;
  /** Total toe, rad, positive toe-in. */
  readonly totalToeRad: number;
  /** u of the total toe, rad. */
  readonly totalToeURad: number;
}

/** Thrust direction of a rear axle from the compensated toes of its wheels. The two wheels are read independently. */
export function rearHeading(left: Compensated, right: Compensated): RearHeading {
  const both = Math.hypot(left.uRad, right.uRad);
  return {
    headingRad: (right.angleRad - left.angleRad) / 2,
    uRad: both / 2,
    totalToeRad: left.angleRad + right.angleRad,
    totalToeURad: both,
  };
}
