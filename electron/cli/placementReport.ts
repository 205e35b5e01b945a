/** A placement in lines of text: pose, U, verdict per coordinate of each station, and the moves in words. */
import { isAngleCoordinate } from '../../core/frames.ts';
import type { Job, JobSensor } from '../../core/job/job.ts';
import { solveJob } from '../../core/job/solve.ts';
import type { CoordinateFinding, StationFinding } from '../../core/placement/finding.ts';
import type { PlacementAnswer } from '../../core/placement/placementAnswer.ts';
import { formatDeg, formatMm, formatShare, wrapRad } from '../../core/units.ts';
import { deviationInWords, say, templateOf, type WordKey } from '../../core/words/index.ts';

function quantity(finding: CoordinateFinding, value: number): string {
  return isAngleCoordinate(finding.coordinate) ? formatDeg(value, 2) : formatMm(value, 1);
}

function deviation(
  finding: CoordinateFinding,
  station: StationFinding,
  place: 'ahead' | 'behind' | 'carLeft' | 'carRight',
): string {
  const angle = isAngleCoordinate(finding.coordinate);
  const value = angle ? wrapRad(finding.deviation) : finding.deviation;
  const words = deviationInWords(finding.coordinate, value, { place, facingYawRad: station.required.yawRad });
  if (words.key === 'dir.none') return say(words.key);
  return say(words.key, { amount: quantity(finding, Math.abs(value)) });
}

function coordinateLine(
  finding: CoordinateFinding,
  station: StationFinding,
  place: 'ahead' | 'behind' | 'carLeft' | 'carRight',
): string {
  const probability = finding.probability === undefined ? '' : ` (${formatShare(finding.probability, 1)})`;
  return [
    `    ${say(`coordinate.${finding.coordinate}`).padEnd(24)}`,
    quantity(finding, Math.abs(finding.found)).padStart(11),
    `U ${quantity(finding, finding.U)}`.padStart(13),
    `  ${say(`certificate.verdict.${finding.verdict}`)}${probability}`,
    `  ${deviation(finding, station, place)}`,
  ].join('');
}

/** The wording of a move or next action that the solver gave as key and values. */
export function sentence(key: string, values: Readonly<Record<string, string>>): string {
  return templateOf(key) === undefined ? key : say(key as WordKey, values);
}

/** While the readings contradict each other nobody knows where the fixture stands: its moves are no orders then. */
function movesHead({ globalTest }: PlacementAnswer): string {
  return globalTest?.passed === false ? '  Moves, a hint only while the readings disagree:' : '  Moves:';
}

function answerLines(sensor: JobSensor, answer: PlacementAnswer): readonly string[] {
  const stations = answer.stations.flatMap((station) => {
    const procedure = sensor.procedure?.stations.find((each) => each.id === station.station);
    const name = procedure?.name ?? station.station;
    const basis = station.basis === 'found' ? 'found' : 'expected, not read yet';
    return [
      `  ${name} (${basis})`,
      ...station.coordinates.map((each) => coordinateLine(each, station, procedure?.place ?? 'ahead')),
    ];
  });
  const moves = answer.moves.map((move, i) => `    ${i + 1}. ${sentence(move.wordKey, move.values)}`);
  return [
    ...stations,
    moves.length === 0 ? '  No move is asked for.' : movesHead(answer),
    ...moves,
    `  Next: ${sentence(answer.nextAction.wordKey, answer.nextAction.values)}`,
  ];
}

/** Lines on one sensor's placement as the record stands. */
export function placementReport(job: Job, sensor: JobSensor): readonly string[] {
  const answer = solveJob(job, sensor);
  const { car, fixture } = job.setUps;
  const head = `${sensor.name}: car set-up ${car}, fixture set-up ${fixture}`;
  if (!answer.ok) return [head, `  cannot be solved: ${answer.error.code}`];
  return [head, ...answerLines(sensor, answer.value)];
}
