/**
 * Floor mats of a sensor, from what is recorded to the same kind of answer as a fixture's: every station is a mat, its ahead,
 * left and turn are judged, and the rest of the job (assessment, certificate) need not know that nothing stood upright.
 */
import { poseInVehicle } from '../frames.ts';
import {
  heightKey,
  type Mat,
  type MatFound,
  type MatsAnswer,
  matRecipe,
  roughWheels,
  solveMats,
  tieKey,
} from '../placement/bodies/mats.ts';
import { workUncertainties } from '../placement/defaults.ts';
import type { CoordinateFinding, StationFinding } from '../placement/finding.ts';
import type { NextAction } from '../placement/instruction.ts';
import { worstVerdict } from '../placement/judge.ts';
import { readingName } from '../placement/nextAction.ts';
import type { PlacementAnswer } from '../placement/placementAnswer.ts';
import type { PlacementError } from '../placement/placementError.ts';
import type { PlacementInput } from '../placement/placementInput.ts';
import type { PlacementReading, ReadingSlot } from '../placement/placementReading.ts';
import type { SuspectFinding } from '../placement/readingFinding.ts';
import { type SlotValue, type SlotValues, slotValues, spreadFindings } from '../placement/readings.ts';
import { defaultRecipe, type ReadingSpec, slotKey } from '../placement/recipe.ts';
import type { StationRequirement } from '../placement/requirement.ts';
import { heldReadings, missingSlots } from '../placement/setups.ts';
import type { Procedure } from '../procedure/schema.ts';
import { err, ok, type Result } from '../result.ts';
import { say } from '../words/index.ts';
import { matReadingKey, pointOfSlot, slotOfHeight, slotOfTie, tieOfSlot } from './matReadings.ts';

/** Whether a procedure's targets are mats on the floor. */
export function laysMats(procedure: Procedure): boolean {
  return procedure.stations.every((station) => station.mat !== undefined);
}

/** The mats a procedure asks for. Mats lie by the rear axle and the centreline: another datum is refused, not approximated. */
function matsOf(
  procedure: Procedure,
  stations: readonly StationRequirement[],
): Result<readonly Mat[], PlacementError> {
  const other = stations.find(
    ({ ahead, left, yaw }) =>
      ahead.from !== 'rearAxle' || left.from !== 'centreline' || yaw.from !== 'centreline',
  );
  if (other !== undefined) {
    const cause = `mats are laid from the rear axle and the centreline, ${other.id} is not`;
    return err({ code: 'placement/unsolvable', cause });
  }
  return ok(
    stations.map((station): Mat => {
      const mat = procedure.stations.find((each) => each.id === station.id)?.mat;
      const judged = (['ahead', 'left', 'yaw'] as const).flatMap((coordinate) => {
        const { permitted } = station[coordinate];
        return permitted === undefined || station.free?.includes(coordinate) ? [] : [[coordinate, permitted]];
      });
      return {
        id: station.id,
        points: mat?.points ?? [],
        required: {
          aheadMm: station.ahead.value,
          leftMm: station.left.value,
          yawRad: station.yaw.value,
        },
        permitted: Object.fromEntries(judged),
        ...(mat?.flatWithinMm === undefined ? {} : { flatWithinMm: mat.flatWithinMm }),
      };
    }),
  );
}

/** The car's own readings of the recipe: nothing of a fixture belongs to mats. */
const ofTheCar = (spec: ReadingSpec): boolean =>
  !spec.dependsOn.includes('fixture') && !spec.id.startsWith('floor.fixture');

interface Read {
  readonly input: PlacementInput;
  readonly recipe: readonly ReadingSpec[];
  readonly held: readonly PlacementReading[];
  readonly carValues: SlotValues;
  readonly ties: readonly { readonly slot: ReadingSlot; readonly key: string; readonly value: SlotValue }[];
  readonly mats: readonly Mat[];
  readonly matValues: SlotValues;
}

function readOf(input: PlacementInput, mats: readonly Mat[]): Read {
  const recipe = defaultRecipe({ stations: [] }).filter(ofTheCar);
  const held = heldReadings(recipe, input);
  const { car, fixture } = input.setUps;
  const ofMats = input.readings.filter(
    (each) =>
      each.purpose === 'proof' &&
      matReadingKey(each.id) !== undefined &&
      each.carSetUp === car &&
      each.fixtureSetUp === fixture,
  );
  const matValues = slotValues(ofMats, input);
  const ties = [...matValues.values()].flatMap((value) => {
    const tie = tieOfSlot(mats, value.slot);
    return tie === undefined ? [] : [{ slot: value.slot, key: tieKey(tie), value }];
  });
  return { input, recipe, held, carValues: slotValues(held, input), ties, mats, matValues };
}

/** What the mats still want: tapes once the car is known, and the staff on every point. */
function missingOfMats({ carValues, mats, matValues }: Read): readonly ReadingSlot[] {
  const wheels = roughWheels(carValues);
  const ties = wheels.ok ? matRecipe(mats, wheels.value).map(slotOfTie) : [];
  const heights = mats.flatMap(({ id, points }) => points.map((point) => slotOfHeight(id, point.id)));
  return [...ties, ...heights].filter((slot) => !matValues.has(slotKey(slot)));
}

function solved(read: Read): ReturnType<typeof solveMats> {
  const { mats, matValues } = read;
  return solveMats({
    car: read.input,
    carValues: read.carValues,
    mats,
    ties: read.ties.flatMap(({ slot, value }) => {
      const tie = tieOfSlot(mats, slot);
      return tie === undefined ? [] : [{ ...tie, value }];
    }),
    heights: [...matValues.values()].flatMap((value) => {
      const point = pointOfSlot(value.slot.id);
      const mat = value.slot.station;
      return point === undefined || mat === undefined ? [] : [{ mat, point, value }];
    }),
  });
}

/** A mat as a station's finding. It lies on the floor: up, pitch and roll are the floor's and are not judged. */
function findingOf(mat: MatFound, station: StationRequirement): StationFinding {
  const pose = (aheadMm: number, leftMm: number, yawRad: number) =>
    poseInVehicle({ aheadMm, leftMm, upMm: 0, yawRad, pitchRad: 0, rollRad: 0 });
  const at: readonly number[] = [0, 1, 3];
  const covariance = Array.from({ length: 6 }, (_, i) =>
    Array.from({ length: 6 }, (__, j) => {
      const [row, column] = [at.indexOf(i), at.indexOf(j)];
      return mat.covariance[row]?.[column] ?? 0;
    }),
  );
  const coordinates = mat.coordinates.map((each): CoordinateFinding => {
    const { value, from, permitted } = station[each.coordinate];
    const limits = each.verdict === 'notJudged' || permitted === undefined ? {} : { permitted };
    return { ...each, datum: from, required: value, found: value + each.deviation, ...limits };
  });
  return {
    station: mat.id,
    kind: 'reposition',
    basis: 'found',
    required: pose(station.ahead.value, station.left.value, station.yaw.value),
    target: pose(mat.aheadMm, mat.leftMm, mat.yawRad),
    covariance,
    coordinates,
    worst: mat.flat === false ? worstVerdict([mat.worst, 'outside']) : mat.worst,
  };
}

/** A slot's name in words. */
function nameOf(recipe: readonly ReadingSpec[], slot: Pick<ReadingSlot, 'id'>, key: string): string {
  const matKey = matReadingKey(slot.id);
  return matKey === undefined ? readingName(recipe, key) : say(matKey);
}

function nextOf(
  read: Read,
  procedure: Procedure,
  missing: readonly ReadingSlot[],
  suspects: readonly SuspectFinding[],
  stations: readonly StationFinding[],
): NextAction {
  const [first] = missing;
  const reading = (slot: Pick<ReadingSlot, 'id'>, key: string) => ({
    reading: nameOf(read.recipe, slot, key),
  });
  if (first !== undefined) return { wordKey: 'next.read', values: reading(first, slotKey(first)) };
  const suspect = suspects[0]?.separatedBy ?? suspects[0]?.readingIds[0];
  if (suspect !== undefined) {
    const [id = suspect] = suspect.split('@');
    return { wordKey: 'next.readAgain', values: reading({ id }, suspect) };
  }
  const off = stations.find(({ worst }) => worst === 'outside' || worst === 'beyond');
  if (off !== undefined) {
    const mat = procedure.stations.find((each) => each.id === off.station)?.name ?? off.station;
    return { wordKey: 'next.layAgain', values: { mat } };
  }
  const proven = stations.every(({ worst }) => worst === 'proven' || worst === 'notJudged');
  return { wordKey: proven ? 'next.proven' : 'next.moveOnce', values: {} };
}

/** Suspects by the slots they were recorded under. */
function recorded(answer: MatsAnswer, { ties, mats }: Read): readonly SuspectFinding[] {
  const slots = new Map([
    ...ties.map(({ key, slot }) => [key, slotKey(slot)] as const),
    ...mats.flatMap(({ id, points }) =>
      points.map((point) => [heightKey(id, point.id), slotKey(slotOfHeight(id, point.id))] as const),
    ),
  ]);
  const named = (id: string): string => slots.get(id) ?? id;
  return answer.suspects.map(({ separatedBy, ...suspect }) => ({
    ...suspect,
    readingIds: suspect.readingIds.map(named),
    ...(separatedBy === undefined ? {} : { separatedBy: named(separatedBy) }),
  }));
}

/**
 * The answer to the readings of mats. As with a fixture: what is open is in `missing` and `problems`; an error is only what
 * no reading could cure.
 */
export function solveMatStations(
  procedure: Procedure,
  input: PlacementInput,
): Result<PlacementAnswer, PlacementError> {
  const mats = matsOf(procedure, input.stations);
  if (!mats.ok) return mats;
  const read = readOf({ ...input, stations: [] }, mats.value);
  const missing = [...missingSlots(read.recipe, read.held), ...missingOfMats(read)];
  const answer = solved(read);
  if (!answer.ok && answer.error.code === 'placement/unsolvable') return err(answer.error);
  const found = answer.ok ? answer.value : undefined;
  const stations = input.stations.flatMap((station) => {
    const mat = found?.mats.find((each) => each.id === station.id);
    return mat === undefined ? [] : [findingOf(mat, station)];
  });
  const suspects = found === undefined ? [] : recorded(found, read);
  const [nextReading] = missing;
  const work = workUncertainties(input.equipment);
  const readingIds = missing.map(slotKey);
  return ok({
    stage: found === undefined ? (roughWheels(read.carValues).ok ? 'datum' : 'nothing') : 'fixture',
    stations,
    ...(stations.length === 0 ? {} : { worst: worstVerdict(stations.map((each) => each.worst)) }),
    moves: [],
    nextAction: nextOf(read, procedure, missing, suspects, stations),
    problems:
      found === undefined ? [{ code: 'placement/undetermined', quantity: 'fixture', readingIds }] : [],
    ...(nextReading === undefined ? {} : { nextReading }),
    missing,
    controls: [],
    spreads: spreadFindings(read.recipe, read.held, work),
    suspects,
    ...(found?.globalTest === undefined ? {} : { globalTest: found.globalTest }),
    diagnostics: {
      iterations: found?.iterations ?? 0,
      redundancy: found?.globalTest?.dof ?? 0,
      residuals: [],
    },
  });
}
