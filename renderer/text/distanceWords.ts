/** The three coordinates a fixture is moved by, as a person across the bay reads them: how far and which way to move it. */
import type { TargetPlace } from '../../core/frames.ts';
import type { Job } from '../../core/job/job.ts';
import type { StationFinding } from '../../core/placement/finding.ts';
import { formatDeg } from '../../core/units.ts';
import { type DirectionKey, moveInWords, say } from '../../core/words/index.ts';
import type { Arrow, DistanceRow } from '../ui/DistanceView.tsx';
import { coordinateWords, deviationOf } from './coordinateWords.ts';
import { lengthText } from './lengthText.ts';

const SHOWN = ['ahead', 'left', 'yaw'] as const;

/** From here on the tenth of a millimetre is noise to somebody three metres away. */
const WHOLE_FROM_MM = 100;

/** Which hand the car's left and the car's front end are at, for a person who faces the car from `place`. */
const LEFT_AT: Readonly<Record<TargetPlace, 'handLeft' | 'handRight'>> = {
  ahead: 'handRight',
  behind: 'handLeft',
  carLeft: 'handLeft',
  carRight: 'handRight',
};

const other = (hand: 'handLeft' | 'handRight'): 'handLeft' | 'handRight' =>
  hand === 'handLeft' ? 'handRight' : 'handLeft';

/** An end at the right hand that comes nearer to a person facing the car turns the fixture clockwise, seen from above. */
function turnArrow(end: 'handLeft' | 'handRight', goesAway: boolean): Arrow {
  return (end === 'handRight') === goesAway ? 'clockwise' : 'counter';
}

/** The arrow of a move, with the car at the top of what the person sees. */
export function arrowOf(key: DirectionKey, place: TargetPlace): Arrow {
  const side = LEFT_AT[place];
  switch (key) {
    case 'dir.towardCar':
      return 'toward';
    case 'dir.awayFromCar':
      return 'away';
    case 'dir.toCarLeft':
    case 'dir.towardCarFront':
      return side;
    case 'dir.toCarRight':
    case 'dir.towardCarRear':
      return other(side);
    case 'dir.turn.carLeftEndAway':
    case 'dir.turn.carFrontEndAway':
      return turnArrow(side, true);
    case 'dir.turn.carLeftEndToward':
    case 'dir.turn.carFrontEndToward':
      return turnArrow(side, false);
    default:
      return 'stay';
  }
}

/** The move's own words, without its amount. */
function directionText(key: DirectionKey): string {
  switch (key) {
    case 'dir.towardCar':
    case 'dir.awayFromCar':
    case 'dir.toCarLeft':
    case 'dir.toCarRight':
    case 'dir.towardCarFront':
    case 'dir.towardCarRear':
    case 'dir.turn.carLeftEndAway':
    case 'dir.turn.carLeftEndToward':
    case 'dir.turn.carFrontEndAway':
    case 'dir.turn.carFrontEndToward':
      return say(`distance.${key}`);
    default:
      return say('distance.dir.none');
  }
}

function amountText(coordinate: (typeof SHOWN)[number], size: number): string {
  if (coordinate === 'yaw') return formatDeg(size, 2);
  return lengthText(size, size >= WHOLE_FROM_MM ? 0 : 1);
}

/** The rows of a station; a coordinate it does not ask for has none. */
export function distanceRows(
  station: StationFinding,
  place: TargetPlace,
  rule: Job['decisionRule'],
): readonly DistanceRow[] {
  return SHOWN.flatMap((coordinate) => {
    const finding = station.coordinates.find((each) => each.coordinate === coordinate);
    if (finding === undefined) return [];
    const deviation = deviationOf(finding);
    const text = amountText(coordinate, Math.abs(deviation));
    const [, amount = text, unit = ''] = /^([\d.]+)\s*(.*)$/.exec(text) ?? [];
    const view = { place, facingYawRad: station.required.yawRad };
    const key = /[1-9]/.test(amount) ? moveInWords(coordinate, deviation, view).key : 'dir.none';
    const card = coordinateWords(finding, station, place, rule);
    return [
      {
        key: coordinate,
        title: card.title,
        amount,
        unit,
        words: directionText(key),
        arrow: arrowOf(key, place),
        verdict: card.verdict,
        verdictWords: card.verdictWords,
      },
    ];
  });
}
