/** One coordinate of a station in the words of a card: the deviation as seen, the verdict, the picture of the rule. */
import { verdictShape } from '../../core/certificate/coordinateText.ts';
import type { ToleranceBar, VerdictKind } from '../../core/certificate/document.ts';
import { isAngleCoordinate, type TargetPlace } from '../../core/frames.ts';
import type { Job } from '../../core/job/job.ts';
import type { CoordinateFinding, RadialFinding, StationFinding } from '../../core/placement/finding.ts';
import { formatDeg, formatFixed, formatShare, wrapRad } from '../../core/units.ts';
import { deviationInWords, say } from '../../core/words/index.ts';
import { lengthText } from './lengthText.ts';

export interface CoordinateWords {
  readonly title: string;
  /** The deviation with its direction; never a signed number. */
  readonly words: string;
  /** "U 1.8 mm, tolerance 5 mm". */
  readonly uncertainty: string;
  readonly verdict: VerdictKind;
  readonly verdictWords: string;
  readonly probability: string;
  readonly consequence: string;
  readonly bar: ToleranceBar | undefined;
}

/** Half-width that the decision rule adds to a deviation, in standard uncertainties. */
const GUARD: Readonly<Record<Job['decisionRule'], number>> = { guarded: 1.645, simple: 0, fullU: 2 };

/** Lengths to 0.1 mm and angles to 0.01 degrees: what a person can still act on. */
function amount(finding: CoordinateFinding, value: number): string {
  const size = Math.abs(value);
  return isAngleCoordinate(finding.coordinate) ? formatDeg(size, 2) : lengthText(size, 1);
}

/** The deviation, an angle brought into half a turn. */
export function deviationOf(finding: CoordinateFinding): number {
  return isAngleCoordinate(finding.coordinate) ? wrapRad(finding.deviation) : finding.deviation;
}

function deviationWords(finding: CoordinateFinding, station: StationFinding, place: TargetPlace): string {
  const deviation = deviationOf(finding);
  const text = amount(finding, deviation);
  if (!/[1-9]/.test(text)) return say('dir.none');
  const words = deviationInWords(finding.coordinate, deviation, {
    place,
    facingYawRad: station.required.yawRad,
  });
  return say(words.key, words.key === 'dir.none' ? {} : { amount: text });
}

/** Never a certainty that was not computed: what would round to 100 % says that it is more than 99.9 %. */
export function probabilityText(probability: number | undefined): string {
  if (probability === undefined) return '';
  const share = probability >= 0.9995 ? say('card.almostCertain') : formatShare(probability, 1);
  return say('card.probability', { share });
}

function limitText(finding: CoordinateFinding): string {
  const { permitted } = finding;
  if (permitted === undefined) return say('card.noTolerance');
  const { lower, upper } = permitted;
  const limits = [lower, upper].flatMap((limit) => (limit === undefined ? [] : [amount(finding, limit)]));
  return say('card.tolerance', { limit: [...new Set(limits)].join(' / ') });
}

function barOf(finding: CoordinateFinding, rule: Job['decisionRule']): ToleranceBar | undefined {
  const { permitted } = finding;
  if (permitted === undefined) return undefined;
  return {
    ...(permitted.lower === undefined ? {} : { lower: permitted.lower }),
    ...(permitted.upper === undefined ? {} : { upper: permitted.upper }),
    found: deviationOf(finding),
    boxHalfWidth: GUARD[rule] * finding.u,
    whiskerHalfWidth: finding.U,
  };
}

/** What a deviation means down the road; nothing where it rounds to nothing. */
function consequenceWords(consequence: CoordinateFinding['consequence']): string {
  if (consequence === undefined) return '';
  const aim = formatDeg(consequence.aimRad, 2);
  const metres = formatFixed(consequence.metresAt50, 2);
  return /[1-9]/.test(aim + metres) ? say('card.consequence', { aim, metres }) : '';
}

/** The card of one coordinate at a station that stands at `place` as seen from the car. */
export function coordinateWords(
  finding: CoordinateFinding,
  station: StationFinding,
  place: TargetPlace,
  rule: Job['decisionRule'],
): CoordinateWords {
  const { consequence } = finding;
  return {
    title: say(`card.${finding.coordinate}`),
    words: deviationWords(finding, station, place),
    uncertainty: say('card.uncertainty', { U: amount(finding, finding.U), tolerance: limitText(finding) }),
    verdict: verdictShape(finding.verdict),
    verdictWords: say(`verdict.short.${finding.verdict}`),
    probability: probabilityText(finding.probability),
    consequence: consequenceWords(consequence),
    bar: barOf(finding, rule),
  };
}

/** The distance from the required point within a circle, as a row beside the coordinates. */
export function radialWords(radial: RadialFinding, rule: Job['decisionRule']): CoordinateWords {
  const { distanceMm, radiusMm, u, U, verdict, probability, plane } = radial;
  return {
    title: say(`card.radial.${plane}`),
    words: say('card.radial.off', { amount: lengthText(distanceMm, 1), limit: lengthText(radiusMm, 1) }),
    uncertainty: say('card.uncertainty', {
      U: lengthText(U, 1),
      tolerance: say('card.tolerance', { limit: lengthText(radiusMm, 1) }),
    }),
    verdict: verdictShape(verdict),
    verdictWords: say(`verdict.short.${verdict}`),
    probability: probabilityText(probability),
    consequence: '',
    bar: { upper: radiusMm, found: distanceMm, boxHalfWidth: GUARD[rule] * u, whiskerHalfWidth: U },
  };
}
