/** What a procedure says, in words: coordinates with the way they count, tolerances with the way they reach. No signs. */
import { type Coordinate, isAngleCoordinate, type TargetPlace } from '../../core/frames.ts';
import type { ProcedureStation, ProcedureTolerance } from '../../core/procedure/index.ts';
import { deviationInWords, say } from '../../core/words/index.ts';
import { joinSign, type SignedText, splitSign, turnOf } from '../state/signedText.ts';
import { sayKey } from './sayKey.ts';

/** Where a face looks that is square to the car, for the words of its turns. */
const FACING: Readonly<Record<TargetPlace, number>> = {
  ahead: Math.PI,
  behind: 0,
  carLeft: -Math.PI / 2,
  carRight: Math.PI / 2,
};

/** The words of one way of a coordinate's deviation: "toward the car", "car's-left end away from the car". */
export function wayWords(coordinate: Coordinate, against: boolean, place: TargetPlace): string {
  const { key } = deviationInWords(coordinate, against ? -1 : 1, { place, facingYawRad: FACING[place] });
  return sayKey(key.replace(/^dir\./, 'way.'));
}

/** The words of one way a required value is counted from its datum: "behind it", "to the car's right". */
export function countedWords(coordinate: Coordinate, against: boolean, place: TargetPlace): string {
  if (coordinate === 'ahead') return say(against ? 'counted.behind' : 'counted.ahead');
  if (coordinate === 'left') return say(against ? 'counted.carRight' : 'counted.carLeft');
  if (coordinate === 'up') return say('counted.up');
  return wayWords(coordinate, against, place);
}

/** Size and way of a coordinate's value; undefined for a heading that is written in its own way. */
export function signedValue(station: ProcedureStation, coordinate: Coordinate): SignedText | undefined {
  const { value } = station[coordinate];
  return coordinate === 'yaw' ? turnOf(value, station.place) : splitSign(value);
}

/** Size and way as a person says them; nothing has no way. */
function sizeText({ size, against }: SignedText, way: (against: boolean) => string): string {
  return size === '' || size.trim() === '0' ? size : `${size} ${way(against)}`;
}

/** The required value of a coordinate with its datum. */
export function coordinateValueText(station: ProcedureStation, coordinate: Coordinate): string {
  const { place } = station;
  const written = station[coordinate];
  const datum = say(`countedFrom.${written.from}`);
  const signed = signedValue(station, coordinate);
  if (signed === undefined) return say('counted.heading', { text: written.value, datum });
  const zero = signed.size.trim() === '0';
  if (isAngleCoordinate(coordinate)) {
    if (zero) return coordinate === 'yaw' ? say('counted.square', { datum }) : say('counted.upright');
    return `${sizeText(signed, (against) => countedWords(coordinate, against, place))}; ${datum}`;
  }
  const size = sizeText(signed, (against) => countedWords(coordinate, against, place));
  return say('counted.from', { size, datum });
}

function limitText(text: string, coordinate: Coordinate, place: TargetPlace): string {
  return sizeText(splitSign(text), (against) => wayWords(coordinate, against, place));
}

/** What a coordinate's tolerance permits. */
export function toleranceText(
  tolerance: ProcedureTolerance,
  coordinate: Coordinate,
  place: TargetPlace,
): string {
  switch (tolerance.kind) {
    case 'twoSided':
      return say('toleranceText.twoSided', { limit: tolerance.limit });
    case 'unequal':
      return say('toleranceText.unequal', {
        one: limitText(tolerance.lower, coordinate, place),
        other: limitText(tolerance.upper, coordinate, place),
      });
    case 'lowerOnly':
      return say('toleranceText.oneSided', { limit: limitText(tolerance.lower, coordinate, place) });
    case 'upperOnly':
      return say('toleranceText.oneSided', { limit: limitText(tolerance.upper, coordinate, place) });
    case 'range': {
      const end = (text: string): string =>
        sizeText(splitSign(text), (against) => countedWords(coordinate, against, place));
      return say('toleranceText.range', { least: end(tolerance.least), most: end(tolerance.most) });
    }
    case 'notStated':
      return tolerance.workingLimit === null
        ? say('toleranceText.notStated')
        : say('toleranceText.working', { limit: tolerance.workingLimit });
  }
}

/** The kind of a tolerance as the form offers it: the two one-sided ones are one with a way, "free" is a kind too. */
export const TOLERANCE_KINDS = ['notStated', 'twoSided', 'unequal', 'oneSided', 'range', 'free'] as const;
export type ToleranceKind = (typeof TOLERANCE_KINDS)[number];

/** Which kind stands at a coordinate. */
export function toleranceKind(station: ProcedureStation, coordinate: Coordinate): ToleranceKind {
  if (station.free.includes(coordinate)) return 'free';
  const { kind } = station[coordinate].tolerance;
  return kind === 'lowerOnly' || kind === 'upperOnly' ? 'oneSided' : kind;
}

/** The first limit already written, kept when another kind is chosen. */
function someLimit(tolerance: ProcedureTolerance): string {
  switch (tolerance.kind) {
    case 'twoSided':
      return tolerance.limit;
    case 'unequal':
    case 'upperOnly':
      return splitSign(tolerance.upper).size;
    case 'lowerOnly':
      return splitSign(tolerance.lower).size;
    case 'range':
      return '';
    case 'notStated':
      return tolerance.workingLimit ?? '';
  }
}

/** A station with another kind of tolerance at a coordinate; a limit already typed goes along. */
export function withToleranceKind(
  station: ProcedureStation,
  coordinate: Coordinate,
  kind: ToleranceKind,
): ProcedureStation {
  const free = station.free.filter((each) => each !== coordinate);
  const limit = someLimit(station[coordinate].tolerance);
  const tolerance = ((): ProcedureTolerance => {
    switch (kind) {
      case 'twoSided':
        return { kind, limit };
      case 'unequal':
        return { kind, lower: joinSign({ size: limit, against: true }), upper: limit };
      case 'oneSided':
        return { kind: 'upperOnly', upper: limit };
      case 'range':
        return { kind, least: '', most: '' };
      case 'notStated':
      case 'free':
        return { kind: 'notStated', workingLimit: null };
    }
  })();
  return {
    ...station,
    [coordinate]: { ...station[coordinate], tolerance },
    free: kind === 'free' ? [...free, coordinate] : free,
  };
}
