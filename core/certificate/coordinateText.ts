/** One coordinate of a station in printed words: what it is measured from, required, found, deviation, tolerance. */
import type { TargetPlace } from '../frames.ts';
import { isAngleCoordinate } from '../frames.ts';
import type { CoordinateFinding, RadialFinding, StationFinding, VerdictName } from '../placement/finding.ts';
import { wrapRad } from '../units.ts';
import { deviationInWords, say } from '../words/index.ts';
import type { VerdictKind, VerdictRow } from './document.ts';
import { amountText, type CertificateInput, numberText, sayKey } from './input.ts';
import { probabilityLimits } from './numbers.ts';

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
  if (finding.coordinate !== 'left') return amountText(input, id);
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

/** What the deviation means; nothing where it turns the aim by less than can be printed. */
function consequenceText(
  input: CertificateInput,
  finding: CoordinateFinding,
  id: string,
): string | undefined {
  if (finding.consequence === undefined) return undefined;
  const aim = numberText(input, `${id}.aim`);
  if (Number.parseFloat(aim) === 0) return undefined;
  return say('certificate.consequence', { aim, metres: numberText(input, `${id}.at50`) });
}

function probabilityText(
  input: CertificateInput,
  finding: Pick<CoordinateFinding, 'probability'>,
  id: string,
): string {
  if (finding.probability === undefined) return '';
  const share = numberText(input, `${id}.probability`);
  const percent = finding.probability * 100;
  if (percent > probabilityLimits.most) return say('certificate.probability.atLeast', { share });
  if (percent < probabilityLimits.least) return say('certificate.probability.atMost', { share });
  return say('certificate.probability', { share });
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
    probability: probabilityText(input, finding, id),
    ...(consequence === undefined ? {} : { consequence }),
    ...(bar === undefined ? {} : { bar }),
  };
}

/** The printed row of the distance from a station's required point within the plane its circle lies in. */
export function radialRow(
  input: CertificateInput,
  sensor: string,
  station: StationFinding,
  finding: RadialFinding,
): VerdictRow {
  const id = `${sensor}.${station.station}.radial`;
  const limit = say('certificate.tolerance.upperOnly', { upper: numberText(input, `${id}.upper`) });
  return {
    label: say(`certificate.coordinate.radial.${finding.plane}`),
    required: numberText(input, `${id}.required`),
    found: numberText(input, `${id}.found`),
    deviation: numberText(input, `${id}.deviation`),
    expandedUncertainty: numberText(input, `${id}.U`),
    coverageFactor: numberText(input, `${id}.k`),
    tolerance: finding.stated ? limit : say('certificate.tolerance.shop', { limit }),
    verdict: verdictShape(finding.verdict),
    verdictText: say(`certificate.verdict.${finding.verdict}`),
    probability: probabilityText(input, finding, id),
    bar: {
      upper: finding.radiusMm,
      upperText: numberText(input, `${id}.upper`),
      found: finding.distanceMm,
      boxHalfWidth: GUARD[input.job.decisionRule] * finding.u,
      whiskerHalfWidth: finding.U,
    },
  };
}
