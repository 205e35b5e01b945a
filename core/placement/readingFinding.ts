/** What is found about the readings themselves: whether they agree with each other, and which do not. */

/** A control against the reading it repeats. */
export interface ControlFinding {
  readonly id: string;
  readonly differenceMm: number;
  /** The largest difference that repeatability explains, mm. */
  readonly limitMm: number;
  readonly agrees: boolean;
}

/** Repeats of one reading that spread more than pooled repeatability explains (limit 2.8 s). */
export interface SpreadFinding {
  readonly id: string;
  readonly spread: number;
  readonly limit: number;
}

/** A reading that does not fit the others; several ids mean "one of these". */
export interface SuspectFinding {
  readonly readingIds: readonly string[];
  /** How far it is off if it is the only one, mm or radians, never negative. */
  readonly estimatedBlunder: number;
  /** The standardised residual, in units of its own standard deviation. */
  readonly standardisedResidual: number;
  /** The one more reading that would tell them apart. */
  readonly separatedBy?: string;
}

/** Do the readings agree with each other as well as their uncertainties say? */
export interface GlobalTestFinding {
  readonly chiSquare: number;
  readonly dof: number;
  readonly limit: number;
  readonly passed: boolean;
}

/** Observed minus computed of one reading, with its standardised value and redundancy number (0 to 1). */
export interface ResidualFinding {
  readonly readingId: string;
  readonly residual: number;
  readonly standardised: number;
  readonly redundancy: number;
}
