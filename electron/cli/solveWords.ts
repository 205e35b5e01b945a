/** The adjuster's failures in words, for whoever wrote the file: what is wrong, with which things, and what cures it. */
import type { AdjustCure, AdjustError, AdjustErrorCode, CovarianceFault } from '../../core/adjust/index.ts';

const SENTENCES: Readonly<Record<AdjustErrorCode, string>> = {
  'adjust/invalidNetwork': 'The document is not a network of readings (assets/schemas/network.schema.json).',
  'adjust/duplicateId': 'Two things have the same id.',
  'adjust/unknownPoint': 'A reading or a side names a point that is not defined.',
  'adjust/unknownBody': 'A reading names a body that is not defined.',
  'adjust/unknownShared': 'A reading names a shared unknown that is not defined.',
  'adjust/unknownRow': 'A group of correlated readings names a row that is not there.',
  'adjust/wrongUnit': 'A shared unknown or a term of a constraint has another unit than its place wants.',
  'adjust/zeroUncertainty': 'An uncertainty is zero, or too small to be one.',
  'adjust/notFinite': 'A number is not finite or beyond reason, or an uncertainty is negative.',
  'adjust/badCovariance': 'A covariance cannot be one.',
  'adjust/sameBody': 'The pose of a body is given in the body itself.',
  'adjust/coincidentPoints': 'Two points coincide where a distance or a direction between them is wanted.',
  'adjust/tooFewReadings': 'There are fewer readings than unknowns.',
  'adjust/undetermined': 'The readings do not hold everything.',
  'adjust/contradictoryConstraints': 'Exact constraints contradict each other, or what is fixed.',
  'adjust/mirrorUndeclared': 'Two mirrored positions fit the first, seen from the others.',
  'adjust/sideContradicted': 'The solution lies on the other side of the line than declared.',
  'adjust/noStart': 'No starting position could be constructed.',
  'adjust/notConverged': 'The solution does not settle.',
};

const CURES: Readonly<Record<AdjustCure, string>> = {
  correctDocument: 'Correct the document there.',
  renameDuplicate: 'Rename one of the two.',
  defineMissing: 'Define it, or correct the name.',
  stateUncertainty: 'State an uncertainty, or fix the coordinate, or use an exact constraint.',
  correctNumber: 'Correct the number.',
  correctCovariance: 'Correct the covariance.',
  separatePoints: 'Separate the two points, or take the reading between them out.',
  addReading: 'Add a reading that holds what is open.',
  dropConstraint: 'Drop or correct one of the constraints.',
  declareSide: 'Declare the side on which the point lies, or add a reading that tells the two apart.',
  checkSide: 'Check the declared side, and the readings that place the point.',
  giveStart: 'Give a starting position.',
  checkReadings: 'Check the readings named; one is probably far off.',
};

const FAULTS: Readonly<Record<CovarianceFault, string>> = {
  wrongSize: 'it needs one row and one column for each reading',
  notFinite: 'it holds a number that is not finite',
  notSymmetric: 'it is not the same above and below its diagonal',
  otherDiagonal: 'its diagonal is not the square of the uncertainty stated with the reading',
  notPositive: 'it is not positive definite: the first row named follows from the others',
  rowTwice: 'a row belongs to two groups, or to one twice',
  exactRow: 'an exact constraint has no variance to share',
};

/** One failure as lines of text: the sentence with its code, what it concerns, details, and the cure. */
export function failureLines(error: AdjustError): string[] {
  const lines = [`${SENTENCES[error.code]} (${error.code})`];
  if (error.ids.length > 0) lines.push(`  concerns: ${error.ids.join(', ')}`);
  if ('why' in error) lines.push(`  ${FAULTS[error.why]}`);
  if ('issues' in error) lines.push(...error.issues.map((issue) => `  ${issue}`));
  if ('undetermined' in error) {
    for (const { id, part, readings } of error.undetermined) {
      lines.push(`  ${id}: ${part} is open; one of these would hold it: ${readings.join(', ')}`);
    }
  }
  lines.push(`  cure: ${CURES[error.cure]}`);
  return lines;
}
