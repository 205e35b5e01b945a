/**
 * The moves that were asked for and how far they are done. The first *done* opens a new set-up, and with it the fixture's
 * place is no longer known: the list is then what was asked for before, less what the record says is done. It ends with the
 * next reading of the fixture, or with any other movement.
 */
import type { BodyMove, Job, JobSensor } from '../../core/job/job.ts';
import { reduce } from '../../core/job/reduce.ts';
import type { StationFinding } from '../../core/placement/finding.ts';
import type { Move } from '../../core/placement/instruction.ts';
import type { PlacementAnswer } from '../../core/placement/placementAnswer.ts';
import type { StationRequirement } from '../../core/placement/requirement.ts';
import { moveSentence } from '../text/moveWords.ts';
import type { HeldJob } from './heldJob.ts';
import { BETWEEN } from './moves.ts';
import { placementView } from './placementView.ts';

/** One move with whether it is done. */
export interface ListedMove {
  readonly move: Move;
  readonly done: boolean;
}

/** The list, and the station whose finding asked for it. */
export interface MovesUnderWay {
  readonly moves: readonly ListedMove[];
  readonly station: StationFinding;
  readonly requirement: StationRequirement | undefined;
}

/** Moves of the fixture that were said to be done since it was last read. */
export function movesSinceRead(job: Job, sensor: string): readonly BodyMove[] {
  const read = job.readings.filter((each) => each.sensor === sensor && each.purpose === 'proof');
  const lastRead = Math.max(0, ...read.map((each) => each.stamp.seq));
  const isMove = (each: BodyMove): boolean => each.body === 'fixture' && each.cause === 'moveDone';
  const otherwise = job.moves.filter((each) => !isMove(each) || each.stand !== undefined);
  const since = Math.max(lastRead, ...otherwise.map((each) => each.stamp.seq));
  return job.moves.filter((each) => isMove(each) && each.stamp.seq > since);
}

/** The station the fixture stands at now, in an answer of all stands. */
export function stationNow(
  answer: PlacementAnswer | undefined,
  stations: readonly StationRequirement[],
): StationFinding | undefined {
  const [first] = stations;
  return first === undefined ? undefined : answer?.stations.find((each) => each.station === first.id);
}

function listOf(job: Job, sensor: JobSensor, done: readonly BodyMove[]): MovesUnderWay | undefined {
  const view = placementView(job, sensor);
  const answer = view.answer.ok ? view.answer.value : undefined;
  const station = stationNow(answer, view.stations);
  const asked = answer?.moves.filter((move) => move.kind !== 'setSlide') ?? [];
  if (answer === undefined || station === undefined || asked.length === 0) return undefined;
  if (done.length === 0 && !answer.nextAction.wordKey.startsWith('move.')) return undefined;
  const said = new Set(done.flatMap((each) => each.words.split(BETWEEN)));
  const moves = asked.map((move) => ({ move, done: said.has(moveSentence(move)) }));
  // Said in another language, or another list: nothing can be told of what is left.
  if (done.length > 0 && !moves.some((each) => each.done)) return undefined;
  return {
    moves,
    station,
    requirement: view.stations[0],
  };
}

const known = new WeakMap<Job, Map<string, MovesUnderWay | undefined>>();

function find(held: HeldJob, sensor: JobSensor): MovesUnderWay | undefined {
  const { job } = held;
  const done = movesSinceRead(job, sensor.sensor);
  const [first] = done;
  if (first === undefined) return listOf(job, sensor, []);
  const before = reduce(held.events.filter((event) => event.seq < first.stamp.seq));
  const then = before?.sensors.find((each) => each.sensor === sensor.sensor);
  const list = before === undefined || then === undefined ? undefined : listOf(before, then, done);
  return list?.moves.some((each) => !each.done) === true ? list : undefined;
}

/** The moves asked for now or half done; undefined when nothing is to be moved. */
export function movesUnderWay(held: HeldJob, sensor: JobSensor): MovesUnderWay | undefined {
  const lists = known.get(held.job) ?? new Map<string, MovesUnderWay | undefined>();
  known.set(held.job, lists);
  if (!lists.has(sensor.sensor)) lists.set(sensor.sensor, find(held, sensor));
  return lists.get(sensor.sensor);
}

/** What is still to be moved, in order. */
export function openMoves(list: MovesUnderWay | undefined): readonly Move[] {
  return list?.moves.filter((each) => !each.done).map((each) => each.move) ?? [];
}
