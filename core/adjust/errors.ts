/**
 * Everything that can keep a network from being adjusted, each with the ids it concerns and the key of a cure that
 * the message catalogue words. None of these is ever repaired silently.
 */

/** What one may do about it. */
export type AdjustCure =
  | 'correctDocument'
  | 'renameDuplicate'
  | 'defineMissing'
  | 'stateUncertainty'
  | 'correctNumber'
  | 'correctCovariance'
  | 'separatePoints'
  | 'addReading'
  | 'dropConstraint'
  | 'declareSide'
  | 'checkSide'
  | 'giveStart'
  | 'checkReadings';

/** What of a thing is undetermined: its place in plan, its height, or one of a body's angles, or a shared unknown. */
export type UndeterminedPart = 'plan' | 'height' | 'yaw' | 'pitch' | 'roll' | 'value';

/** A thing whose position the readings leave open, and the kinds of reading any one of which would hold it. */
export interface Undetermined {
  readonly id: string;
  readonly part: UndeterminedPart;
  readonly readings: readonly (
    | 'distance'
    | 'offset'
    | 'along'
    | 'drop'
    | 'angle'
    | 'height'
    | 'tilt'
    | 'known'
  )[];
}

/**
 * What is wrong with a covariance: not as many rows and columns as it has readings; a number that is not finite; not the
 * same above and below its diagonal; a diagonal that is not the square of the u stated with the reading; not positive
 * definite (one reading repeats the others); a row in two groups; an exact constraint, which has no variance.
 */
export type CovarianceFault =
  | 'wrongSize'
  | 'notFinite'
  | 'notSymmetric'
  | 'otherDiagonal'
  | 'notPositive'
  | 'rowTwice'
  | 'exactRow';

interface Failure<Code extends string, Cure extends AdjustCure> {
  readonly code: Code;
  /** Points, bodies, shared unknowns or readings concerned, the most telling first. */
  readonly ids: readonly string[];
  readonly cure: Cure;
}

/** Closed union of the adjuster's expected failures. */
export type AdjustError =
  | (Failure<'adjust/invalidNetwork', 'correctDocument'> & { readonly issues: readonly string[] })
  | Failure<'adjust/duplicateId', 'renameDuplicate'>
  | Failure<
      'adjust/unknownPoint' | 'adjust/unknownBody' | 'adjust/unknownShared' | 'adjust/unknownRow',
      'defineMissing'
    >
  | Failure<'adjust/wrongUnit', 'correctDocument'>
  | Failure<'adjust/zeroUncertainty', 'stateUncertainty'>
  /** Not finite, an uncertainty below nought, or a size no bay has (a thousand kilometres). */
  | Failure<'adjust/notFinite', 'correctNumber'>
  /** The group (or pose reading) first, then the rows concerned. */
  | (Failure<'adjust/badCovariance', 'correctCovariance'> & { readonly why: CovarianceFault })
  /** A body's pose against itself. */
  | Failure<'adjust/sameBody', 'correctDocument'>
  | Failure<'adjust/coincidentPoints', 'separatePoints'>
  | (Failure<'adjust/tooFewReadings' | 'adjust/undetermined', 'addReading'> & {
      readonly undetermined: readonly Undetermined[];
    })
  | Failure<'adjust/contradictoryConstraints', 'dropConstraint'>
  | Failure<'adjust/mirrorUndeclared', 'declareSide'>
  | Failure<'adjust/sideContradicted', 'checkSide'>
  | Failure<'adjust/noStart', 'giveStart'>
  | (Failure<'adjust/notConverged', 'checkReadings'> & { readonly iterations: number });

/** Any of the codes above. */
export type AdjustErrorCode = AdjustError['code'];
