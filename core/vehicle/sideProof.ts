/**
 * Whether a datum line can prove a side position ahead of it, said before the work: the U there against the tolerance, and
 * what would do better. It is the rule of the verdict: with 2 u above the tolerance nothing can be judged, whatever the
 * position is. The classical case: the rear axle alone, 1.5 m wide, carried 5 m ahead.
 */

import { coverageFactor } from '../uncertainty/coverage.ts';
import { formatLength, type LengthUnit } from '../units.ts';
import type { SlotValues } from '../words/say.ts';
import { type DatumLine, type DatumSource, type SideKnowledge, sideKnowledge } from './datumLine.ts';

/** A side position to be proven. mm. */
export interface SideDemand {
  /** Distance of the target ahead of the line's origin. */
  readonly aheadMm: number;
  /** Permitted deviation either way. */
  readonly toleranceMm: number;
  /** u of everything else there: the target's own position against the car. */
  readonly otherUMm: number;
}

/** What the workshop could do instead, with what it would know then. */
export interface SideMeans {
  /** u of the rear axle's midpoint across the car, mm, from its two drops. */
  readonly rearMidpointUMm: number;
  /** Front hub drops: u of the front axle's midpoint across, and the wheelbase, mm. */
  readonly frontHubs?: { readonly frontMidpointUMm: number; readonly wheelbaseMm: number };
  /** Rear wheel headings, run-out removed: u of their mean, rad. */
  readonly headings?: { readonly uRad: number };
  /** An alignment report's thrust angle on top of front hub drops: u of the angle, rad. */
  readonly alignmentReport?: { readonly uRad: number };
}

/** One way and what it would give. */
export interface SidePrediction {
  readonly way: 'asFound' | 'frontHubs' | 'headings' | 'alignmentReport';
  readonly uMm: number;
  readonly UMm: number;
  /** 2 u is within the tolerance. */
  readonly canProve: boolean;
}

/** The answer for the line as it is and for every way offered, best first. */
export interface SideProof {
  readonly source: DatumSource;
  readonly demand: SideDemand;
  readonly asFound: SidePrediction;
  readonly knowledge: SideKnowledge;
  readonly others: readonly SidePrediction[];
}

function prediction(
  way: SidePrediction['way'],
  lineU: number,
  k: number,
  { otherUMm, toleranceMm }: SideDemand,
): SidePrediction {
  const uMm = Math.hypot(lineU, otherUMm);
  return { way, uMm, UMm: k * uMm, canProve: 2 * uMm <= toleranceMm };
}

/** u across of a line through two axles' midpoints, carried ahead: the rear one counts (1 - a / L), the front a / L. */
function throughAxlesU(rearU: number, frontU: number, wheelbaseMm: number, aheadMm: number): number {
  const share = aheadMm / wheelbaseMm;
  return Math.hypot((1 - share) * rearU, share * frontU);
}

/** Judges a line against a demand and predicts the means at hand. */
export function sideProof(line: DatumLine, demand: SideDemand, means: SideMeans): SideProof {
  const knowledge = sideKnowledge(line, demand.aheadMm);
  const known = coverageFactor(Number.POSITIVE_INFINITY);
  const { rearMidpointUMm: rear, frontHubs, headings, alignmentReport } = means;
  const others: SidePrediction[] = [];
  if (frontHubs !== undefined) {
    const hubs = throughAxlesU(rear, frontHubs.frontMidpointUMm, frontHubs.wheelbaseMm, demand.aheadMm);
    others.push(prediction('frontHubs', hubs, known, demand));
    if (alignmentReport !== undefined) {
      const u = Math.hypot(hubs, demand.aheadMm * alignmentReport.uRad);
      others.push(prediction('alignmentReport', u, known, demand));
    }
  }
  if (headings !== undefined) {
    others.push(prediction('headings', Math.hypot(rear, demand.aheadMm * headings.uRad), known, demand));
  }
  return {
    source: line.source,
    demand,
    asFound: prediction('asFound', knowledge.u, knowledge.k, demand),
    knowledge,
    others: others.sort((a, b) => a.uMm - b.uMm),
  };
}

/** Word key and slot values of one sentence. */
export interface SideSentence {
  readonly key:
    | `datum.cannotProve.${DatumSource}`
    | 'datum.canProve'
    | 'datum.wouldProve.frontHubs'
    | 'datum.wouldProve.headings'
    | 'datum.wouldProve.alignmentReport'
    | 'datum.nothingProves';
  readonly values: SlotValues;
}

/**
 * The answer in sentences: first what the line as it is can or cannot prove, then, where it cannot, each way that would,
 * or that none of those at hand does.
 */
export function sideSentences(proof: SideProof, unit: LengthUnit = 'mm'): readonly SideSentence[] {
  const length = (value: number): string => formatLength(value, 1, unit);
  const { demand, asFound } = proof;
  const numbers = (found: SidePrediction): SlotValues => ({
    distance: formatLength(demand.aheadMm, 0, unit),
    expanded: length(found.UMm),
    tolerance: length(demand.toleranceMm),
  });
  if (asFound.canProve) return [{ key: 'datum.canProve', values: numbers(asFound) }];
  const first: SideSentence = { key: `datum.cannotProve.${proof.source}`, values: numbers(asFound) };
  const ways = proof.others.flatMap((other): SideSentence[] =>
    other.canProve && other.way !== 'asFound'
      ? [{ key: `datum.wouldProve.${other.way}`, values: { expanded: length(other.UMm) } }]
      : [],
  );
  return ways.length > 0 ? [first, ...ways] : [first, { key: 'datum.nothingProves', values: {} }];
}
