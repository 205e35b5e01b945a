/** One coordinate of a station in printed words: what it is measured from, required, found, deviation, tolerance. */
import type { TargetPlace } from '../frames.ts';
import { isAngleCoordinate } from '../frames.ts';
import type { CoordinateFinding, StationFinding, VerdictName } from '../placement/types.ts';
import { wrapRad } from '../units.ts';
import { deviationInWords, say } from '../words/index.ts';
import type { VerdictKind, VerdictRow } from './document.ts';
import { amountText, type CertificateInput, numberText, sayKey } from './input.ts';

/** Half-widths the decision rules add to a deviation, in standard uncertainties. */
export const GUARD = { guarded: 1.645, simple: 0, fullU: 2 } as const;

/** The shape beside a verdict's words. */
export function verdictShape(verdict: VerdictName): VerdictKind {
  if (verdict === 'proven') return 'proven';
  return verdict === 'outside' ? 'outside' : 'notProven';
}

function labelOf(finding: CoordinateFinding): string {
  switch (finding.coordinate) {
    case 'ahead':
    case 'left':
    case 'yaw':
      return sayKey(`certificate.coordinate.${finding.coordinate}.${finding.datum}`);
    default:
      return say(`certificate.coordinate.${finding.coordinate}`);
  }
}

function placeText(input: CertificateInput, finding: CoordinateFinding, id: string, value: number): string {
  if (finding.coordinate !== 'left') return numberText(input, id);
  const amount = amountText(input, id);
  if (Number.parseFloat(amount) === 0) return amount;
  return say(value > 0 ? 'certificate.side.left' : 'certificate.side.right', { amount });
}

function deviationText(
  input: CertificateInput,
  station: StationFinding,
  place: TargetPlace,
  finding: CoordinateFinding,
  id: string,
): string {
  const amount = amountText(input, `${id}.deviation`);
  if (Number.parseFloat(amount) === 0) return amount;
  const facingYawRad = station.required.yawRad;
  const words = deviationInWords(finding.coordinate, wrapDeviation(finding), { place, facingYawRad });
  return say(words.key, words.key === 'dir.none' ? {} : { amount });
}

function wrapDeviation(finding: CoordinateFinding): number {
  return isAngleCoordinate(finding.coordinate) ? wrapRad(finding.deviation) : finding.deviation;
}

function toleranceText(input: CertificateInput, finding: CoordinateFinding, id: string): string {
  const permitted = finding.permitted;
  if (permitted === undefined) return say('certificate.tolerance.none');
  const { lower, upper } = permitted;
  let limit: string;
  if (lower !== undefined && upper !== undefined) {
    limit =
      lower === -upper
        ? say('certificate.tolerance.twoSided', { amount: numberText(input, `${id}.upper`) })
        : say('certificate.tolerance.unequal', {
            lower: numberText(input, `${id}.lower`),
            upper: numberText(input, `${id}.upper`),
          });
  } else if (lower !== undefined) {
    limit = say('certificate.tolerance.lowerOnly', { lower: numberText(input, `${id}.lower`) });
  } else {
    limit = say('certificate.tolerance.upperOnly', { upper: numberText(input, `${id}.upper`) });
  }
  return permitted.stated ? limit : say('certificate.tolerance.shop', { limit });
}

function barOf(input: CertificateInput, finding: CoordinateFinding, id: string): VerdictRow['bar'] {
  const permitted = finding.permitted;
  if (permitted === undefined) return undefined;
  return {
    ...(permitted.lower === undefined
      ? {}
      : { lower: permitted.lower, lowerText: amountText(input, `${id}.lower`) }),
    ...(permitted.upper === undefined
      ? {}
      : { upper: permitted.upper, upperText: amountText(input, `${id}.upper`) }),
    found: wrapDeviation(finding),
    boxHalfWidth: GUARD[input.job.decisionRule] * finding.u,
    whiskerHalfWidth: finding.U,
  };
}

function consequenceText(
  input: CertificateInput,
  finding: CoordinateFinding,
  id: string,
): string | undefined {
  if (finding.consequence === undefined) return undefined;
  return say('certificate.consequence', {
    aim: numberText(input, `${id}.aim`),
    metres: numberText(input, `${id}.at50`),
  });
}

/** The printed row of one coordinate of a station that stands at `place` as seen from the car. */
export function coordinateRow(
  input: CertificateInput,
  sensor: string,
  station: StationFinding,
  place: TargetPlace,
  finding: CoordinateFinding,
): VerdictRow {
  const id = `${sensor}.${station.station}.${finding.coordinate}`;
  const consequence = consequenceText(input, finding, id);
  const bar = barOf(input, finding, id);
  return {
    label: labelOf(finding),
    required: placeText(input, finding, `${id}.required`, finding.required),
    found: placeText(input, finding, `${id}.found`, finding.found),
    deviation: deviationText(input, station, place, finding, id),
    expandedUncertainty: numberText(input, `${id}.U`),
    coverageFactor: numberText(input, `${id}.k`),
    tolerance: toleranceText(input, finding, id),
    verdict: verdictShape(finding.verdict),
    verdictText: say(`certificate.verdict.${finding.verdict}`),
    probability:
      finding.probability === undefined
        ? ''
        : say('certificate.probability', { share: numberText(input, `${id}.probability`) }),
    ...(consequence === undefined ? {} : { consequence }),
    ...(bar === undefined ? {} : { bar }),
  };
}
