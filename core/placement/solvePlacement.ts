/**
 * From readings to an answer: which of them hold, the network, its adjustment, the car, the fixture, each station, the
 * moves, and what to do next. Live while readings are typed: what is determined so far is answered, what is not is named
 * in `problems`.
 */
import type { AdjustError } from '../adjust/errors.ts';
import type { Solution } from '../adjust/solution.ts';
import { solve } from '../adjust/solve.ts';
import { err, ok, type Result } from '../result.ts';
import { controlFindings, globalTestOf, redundancyOf, residualsOf, suspectsOf } from './checks.ts';
import { workUncertainties } from './defaults.ts';
import type { StationFinding } from './finding.ts';
import { fixtureFound } from './fixtureFound.ts';
import type { Move } from './instruction.ts';
import { worstVerdict } from './judge.ts';
import { movesTo, slideIsOff, slideMove } from './moves.ts';
import { shareName } from './names.ts';
import { type PlacementNetwork, placementNetwork } from './network.ts';
import { nextAction } from './nextAction.ts';
import type { PlacementAnswer } from './placementAnswer.ts';
import type { PlacementError } from './placementError.ts';
import type { PlacementInput } from './placementInput.ts';
import type { PlacementReading } from './placementReading.ts';
import { type SlotValues, slotValues, spreadFindings } from './readings.ts';
import { defaultRecipe, fixturePartOf, type ReadingSpec } from './recipe.ts';
import type { StationRequirement } from './requirement.ts';
import { heldReadings, missingSlots } from './setups.ts';
import { stationFinding } from './stations.ts';
import { knowsBodyFace, knowsThrustLine, vehicleFound } from './vehicleFound.ts';

/** The adjuster's failures as they concern a person here; those that only a bug can cause keep their code. */
function problemOf(error: AdjustError, quantity: 'vehicle' | 'fixture'): PlacementError {
  const readingIds = [...new Set(error.ids.map(shareName))];
  switch (error.code) {
    case 'adjust/sideContradicted':
      return { code: 'placement/sideContradicted', readingIds };
    case 'adjust/undetermined':
    case 'adjust/tooFewReadings':
      return { code: 'placement/undetermined', quantity, readingIds };
    case 'adjust/notConverged':
      return { code: 'placement/notConverged', iterations: error.iterations };
    case 'adjust/coincidentPoints':
      return { code: 'placement/impossible', readingIds };
    default:
      return { code: 'placement/unsolvable', cause: `${error.code}: ${error.ids.join(', ')}` };
  }
}

/** Readings that fit settle in three or four steps and a slip of 100 mm in a few more: past this they contradict each other. */
const SOLVE = { maxIterations: 15 } as const;

/** A solved network with or without the fixture, and what kept the fixture out. */
interface Solved {
  readonly solution: Solution;
  readonly withFixture: boolean;
  readonly problem?: PlacementError;
}

/** Solves with the fixture when it is in the network; where that fails, the car alone, with the reason. */
function solveBuilt(
  built: PlacementNetwork,
  input: PlacementInput,
  values: SlotValues,
): Result<Solved, PlacementError> {
  const solved = solve(built.network, SOLVE);
  if (solved.ok) {
    const problem = built.fixtureProblem;
    return ok({
      solution: solved.value,
      withFixture: built.withFixture,
      ...(problem === undefined ? {} : { problem }),
    });
  }
  if (!built.withFixture) return err(problemOf(solved.error, 'vehicle'));
  const problem = problemOf(solved.error, 'fixture');
  const carValues = new Map([...values].filter(([key]) => fixturePartOf(key) !== 'plan'));
  const carOnly = placementNetwork(input, carValues);
  const again = carOnly.ok ? solve(carOnly.value.network, SOLVE) : undefined;
  return again?.ok === true ? ok({ solution: again.value, withFixture: false, problem }) : err(problem);
}

/** Datums a station measures from that the readings do not give yet. */
function openDatums(station: StationRequirement, values: SlotValues): readonly PlacementError[] {
  const open: PlacementError[] = [];
  const wantsThrust = station.left.from === 'thrustLine' || station.yaw.from === 'thrustLine';
  if (wantsThrust && !knowsThrustLine(values)) {
    const readingIds = ['toe.RL', 'toe.RR'].filter((id) => !values.has(id));
    open.push({ code: 'placement/undetermined', quantity: 'thrustLine', readingIds });
  }
  if (station.ahead.from === 'bodyFace' && !knowsBodyFace(values)) {
    open.push({ code: 'placement/undetermined', quantity: 'bodyFace', readingIds: ['face'] });
  }
  return open;
}

/** The moves of the station the fixture is placed for, or else the next slide to set. */
function movesFor(
  input: PlacementInput,
  recipe: readonly ReadingSpec[],
  values: SlotValues,
  stations: readonly StationFinding[],
): readonly Move[] {
  const [placed, ...slides] = stations;
  if (placed === undefined) return [];
  if (placed.worst !== 'proven') {
    const heightMm = values.get('target.height')?.value ?? placed.target.upMm;
    const moves = movesTo({
      finding: placed,
      fixture: input.equipment.fixture,
      heightMm,
      recipe,
      rule: input.decisionRule,
      ...(input.body === undefined ? {} : { body: input.body }),
    });
    if (moves.length > 0) return moves;
  }
  const next = slides.find(
    (slide) => slide.basis === 'expected' || (slide.worst !== 'proven' && slideIsOff(slide)),
  );
  const move = next === undefined ? undefined : slideMove(next, input.equipment.fixture, recipe);
  return move === undefined ? [] : [move];
}

/** Problems without repeats: two stations that need the same datum name it once. */
function distinct(problems: readonly PlacementError[]): readonly PlacementError[] {
  const seen = new Set<string>();
  return problems.filter((problem) => {
    const key = JSON.stringify(problem);
    return !seen.has(key) && seen.add(key);
  });
}

/** What an answer holds whether or not anything could be solved. */
function commonOf(
  input: PlacementInput,
  recipe: readonly ReadingSpec[],
  held: readonly PlacementReading[],
  values: SlotValues,
) {
  const work = workUncertainties(input.equipment);
  const missing = missingSlots(recipe, held);
  const [nextReading] = missing;
  return {
    ...(nextReading === undefined ? {} : { nextReading }),
    missing,
    controls: controlFindings(recipe, values, work),
    spreads: spreadFindings(recipe, held, work),
  };
}

type Common = ReturnType<typeof commonOf>;

/** The answer while not even the car is determined. */
function answerToNothing(
  recipe: readonly ReadingSpec[],
  common: Common,
  problem: PlacementError,
): PlacementAnswer {
  const nothing = { suspects: [], moves: [], stations: [] };
  const problems = [problem];
  return {
    ...common,
    ...nothing,
    stage: 'nothing',
    nextAction: nextAction({ recipe, ...common, ...nothing, problems }),
    problems,
    diagnostics: { iterations: 0, redundancy: 0, residuals: [] },
  };
}

/** The answer once the car, or the car and the fixture, is solved. */
function answerToSolved(
  input: PlacementInput,
  recipe: readonly ReadingSpec[],
  values: SlotValues,
  common: Common,
  { solution, withFixture, problem }: Solved,
): PlacementAnswer {
  const globalTest = globalTestOf(solution);
  const suspects = suspectsOf(solution, values);
  const consistent = globalTest?.passed !== false;
  const known = input.stations.filter((station) => openDatums(station, values).length === 0);
  const stations = withFixture
    ? known.map((station) => stationFinding(solution, input, values, station, consistent))
    : [];
  const placedIsKnown = known[0] === input.stations[0];
  const moves = placedIsKnown ? movesFor(input, recipe, values, stations) : [];
  const problems = distinct([
    ...(problem === undefined ? [] : [problem]),
    ...input.stations.flatMap((station) => openDatums(station, values)),
  ]);
  return {
    ...common,
    stage: withFixture ? 'fixture' : 'datum',
    vehicle: vehicleFound(solution, values),
    ...(withFixture ? { fixture: fixtureFound(solution) } : {}),
    stations,
    ...(stations.length > 0 ? { worst: worstVerdict(stations.map((each) => each.worst)) } : {}),
    moves,
    nextAction: nextAction({ recipe, ...common, problems, suspects, moves, stations }),
    problems,
    suspects,
    ...(globalTest === undefined ? {} : { globalTest }),
    diagnostics: {
      iterations: solution.iterations,
      redundancy: redundancyOf(solution),
      residuals: residualsOf(solution, values),
    },
  };
}

/**
 * The answer to the readings so far. Fails only where no reading could help: a slide without a placed station, or a network
 * the adjuster cannot take. Everything a reading causes or cures is in the answer's `problems`.
 */
export function solvePlacement(input: PlacementInput): Result<PlacementAnswer, PlacementError> {
  if (input.stations[0]?.kind === 'slide') return err({ code: 'placement/firstStationSlides' });
  const recipe = defaultRecipe(input);
  const held = heldReadings(recipe, input);
  const values = slotValues(held, input);
  const common = commonOf(input, recipe, held, values);
  const built = placementNetwork(input, values);
  const solved = built.ok ? solveBuilt(built.value, input, values) : built;
  if (solved.ok) return ok(answerToSolved(input, recipe, values, common, solved.value));
  if (solved.error.code === 'placement/unsolvable') return solved;
  return ok(answerToNothing(recipe, common, solved.error));
}
