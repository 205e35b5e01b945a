/**
 * Several stands of the fixture. A procedure with several reposition stations puts the fixture up once for each: a set-up
 * of its own with the full readings, and the slides that follow it belong to it. Each stand is solved by itself against
 * the same car; here the answers become one. What is told to the person is told of the stand the fixture is at now.
 */

import type { NextAction } from './instruction.ts';
import { worstVerdict } from './judge.ts';
import type { PlacementAnswer } from './placementAnswer.ts';
import type { ReadingSlot } from './placementReading.ts';
import type { ReadingSpec } from './recipe.ts';
import { slotKey } from './recipe.ts';
import type { StationRequirement } from './requirement.ts';

/** Stations by stand: each reposition with the slides after it. A slide before any reposition makes a stand of its own. */
export function stationsByStand(
  stations: readonly StationRequirement[],
): readonly (readonly StationRequirement[])[] {
  const stands: StationRequirement[][] = [];
  for (const station of stations) {
    const last = stands[stands.length - 1];
    if (station.kind === 'reposition' || last === undefined) stands.push([station]);
    else last.push(station);
  }
  return stands;
}

/** One stand and its answer. */
export interface StandAnswer {
  /** Id of its reposition station. */
  readonly id: string;
  /** What a person calls that station. */
  readonly name: string;
  readonly recipe: readonly ReadingSpec[];
  readonly answer: PlacementAnswer;
  /** True where the fixture is now. */
  readonly isNow: boolean;
}

const ENDS: readonly NextAction['wordKey'][] = ['next.proven', 'next.moveOnce'];

const isDone = ({ answer }: StandAnswer): boolean =>
  answer.stage === 'fixture' && answer.missing.length === 0 && ENDS.includes(answer.nextAction.wordKey);

/** Readings of the fixture and of the floor under it: each stand needs its own. */
function ofTheStand(recipe: readonly ReadingSpec[], slot: ReadingSlot): boolean {
  const spec = recipe.find((each) => slotKey(each) === slotKey(slot));
  return (
    spec !== undefined && (spec.dependsOn.includes('fixture') || /^floor\.(fixture|stand)/.test(spec.id))
  );
}

function missingElsewhere(stand: StandAnswer): readonly ReadingSlot[] {
  return stand.answer.missing
    .filter((slot) => ofTheStand(stand.recipe, slot))
    .map((slot) => ({ ...slot, station: slot.station ?? stand.id }));
}

/** At most this many words in the one line; a longer name of a station is left out. */
const MOST_NAME_WORDS = 4;

function nextStand(stand: StandAnswer): NextAction {
  const { id, name } = stand;
  return name.split(/\s+/).length <= MOST_NAME_WORDS
    ? { wordKey: 'next.nextStand', values: { station: name }, stand: id }
    : { wordKey: 'next.anotherStand', values: {}, stand: id };
}

function actionOf(now: StandAnswer, stands: readonly StandAnswer[]): NextAction {
  const { nextAction } = now.answer;
  if (now.isNow && !ENDS.includes(nextAction.wordKey)) return nextAction;
  const open = stands.find((each) => !(each === now && now.isNow) && !isDone(each));
  if (open !== undefined) return nextStand(open);
  const allProven = stands.every((each) => each.answer.nextAction.wordKey === 'next.proven');
  return { wordKey: allProven ? 'next.proven' : 'next.moveOnce', values: {} };
}

/** Entries without repeats: what two stands say of the same car is told once. */
function distinct<T>(entries: readonly T[]): readonly T[] {
  const seen = new Set<string>();
  return entries.filter((entry) => {
    const key = JSON.stringify(entry);
    return !seen.has(key) && seen.add(key);
  });
}

/**
 * The answers of several stands as one: every station in the procedure's order, the moves and the next reading of the stand
 * the fixture is at. Without one that it is at, the first stands for the car.
 */
export function joinStands(stands: readonly [StandAnswer, ...StandAnswer[]]): PlacementAnswer {
  const [first] = stands;
  if (stands.length === 1 && first.isNow) return first.answer;
  const now = stands.find((each) => each.isNow) ?? first;
  const others = stands.filter((each) => each !== now);
  const { nextReading, moves, worst: _worst, globalTest: _test, ...answer } = now.answer;
  const all = [now, ...others].map((each) => each.answer);
  const stations = stands.flatMap((each) => each.answer.stations);
  const globalTest =
    all.find((each) => each.globalTest?.passed === false)?.globalTest ?? now.answer.globalTest;
  const elsewhere = others.flatMap(missingElsewhere);
  return {
    ...answer,
    stations,
    ...(stations.length === 0 ? {} : { worst: worstVerdict(stations.map((each) => each.worst)) }),
    moves: now.isNow ? moves : [],
    ...(now.isNow && nextReading !== undefined ? { nextReading } : {}),
    nextAction: actionOf(now, stands),
    missing: [...(now.isNow ? now.answer.missing : missingOf(now)), ...elsewhere],
    problems: distinct(all.flatMap((each) => each.problems)),
    controls: distinct(all.flatMap((each) => each.controls)),
    spreads: distinct(all.flatMap((each) => each.spreads)),
    suspects: distinct(all.flatMap((each) => each.suspects)),
    ...(globalTest === undefined ? {} : { globalTest }),
  };
}

/** What a stand lacks that the fixture is not at: the car's readings as they are, its own under its name. */
function missingOf(stand: StandAnswer): readonly ReadingSlot[] {
  const ofCar = stand.answer.missing.filter((slot) => !ofTheStand(stand.recipe, slot));
  return [...ofCar, ...missingElsewhere(stand)];
}
