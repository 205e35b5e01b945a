/** Small look-ups that the placement tests share. */
import type { Coordinate } from '../../../core/frames.ts';
import type { CoordinateFinding, StationFinding } from '../../../core/placement/finding.ts';
import type { PlacementAnswer } from '../../../core/placement/placementAnswer.ts';
import type { PlacementInput } from '../../../core/placement/placementInput.ts';
import { solvePlacement } from '../../../core/placement/solvePlacement.ts';

/** The answer of an input that must have one. */
export function answerOf(input: PlacementInput): PlacementAnswer {
  const answer = solvePlacement(input);
  if (!answer.ok) throw new Error(`no answer: ${JSON.stringify(answer.error)}`);
  return answer.value;
}

/** One station's finding. */
export function stationOf(answer: PlacementAnswer, id = 'centre'): StationFinding {
  const found = answer.stations.find((each) => each.station === id);
  if (found === undefined) throw new Error(`no station ${id} in ${JSON.stringify(answer.problems)}`);
  return found;
}

/** One coordinate of one station. */
export function coordinateOf(
  answer: PlacementAnswer,
  coordinate: Coordinate,
  station = 'centre',
): CoordinateFinding {
  const found = stationOf(answer, station).coordinates.find((each) => each.coordinate === coordinate);
  if (found === undefined) throw new Error(`no ${coordinate} at ${station}`);
  return found;
}

/** The six deviations of a station, mm and radians. */
export function deviationsOf(answer: PlacementAnswer, station = 'centre'): Record<Coordinate, number> {
  const six = { ahead: 0, left: 0, up: 0, yaw: 0, pitch: 0, roll: 0 };
  for (const each of stationOf(answer, station).coordinates) six[each.coordinate] = each.deviation;
  return six;
}
