/**
 * `npm run bench -- --only placementSimulation`: how many full proof sets it takes to place a target, by tolerance, decision
 * rule and way of working: guided by looks (tests/simulation/guidedLooks.ts), by proof sets alone (proofSetsOnly.ts), and the
 * classical way (classicalWay.ts). Looks and readings are counted apart. Before any of it planning says which cells cannot be
 * proven.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { quickDefaults } from '../../core/placement/quick/defaults.ts';
import { planDesign } from '../../core/planning/predict.ts';
import { whatItProves } from '../../core/planning/proves.ts';
import { planOnce, recipeById } from '../../core/planning/recipes.ts';
import type { PlanSetUp } from '../../core/planning/types.ts';
import type { Pose6 } from '../../core/rehearsal/trueBay.ts';
import { EQUIPMENT, SQUARE } from '../core/placement/trueLayout.ts';
import { HABITS, MOST_PASSES, placeClassically } from '../simulation/classicalWay.ts';
import { drawsFrom } from '../simulation/draws.ts';
import { placeGuided } from '../simulation/guidedLooks.ts';
import { placeByProofSets } from '../simulation/proofSetsOnly.ts';
import {
  type Bay,
  BY_EYE,
  bayFor,
  type Cell,
  CLUMSINESS,
  DROPS,
  MOST_ROUNDS,
  type Outcome,
  quickPlacement,
  START,
  startPose,
  stationFor,
} from '../simulation/technician.ts';
import { type Aim, quantile, type Study, table } from './study.ts';

/** Placements of each cell that are wanted, and the first seed. */
export const SIMULATION = { runs: 300, seed: 40_000 } as const;

const TOLERANCES = [10, 5, 3] as const;
const RULES = ['guarded', 'simple', 'fullU'] as const;
const WORKS = ['typical', 'careful', 'best'] as const;

/** Median and 95th percentile; null where more than that share never ended. */
export interface Middle {
  readonly median: number | null;
  readonly p95: number | null;
}

/** One way of placing in one cell. */
export interface Tally extends Middle {
  readonly never: number;
  /** Share of the ended ones whose target truly stood within all its limits. */
  readonly trulyWithin: number;
  /** The same of all, also those that were given up. */
  readonly allTrulyWithin: number;
  /** Of all, ended or not: looks of two readings, single readings of the fixture, moves. */
  readonly looks: Middle;
  readonly readings: Middle;
  readonly moves: Middle;
}

type HabitName = keyof typeof HABITS;

/** A cell with what planning said of it beforehand. */
export interface CellResult extends Cell {
  /** Placements that were simulated. */
  readonly runs: number;
  /** False: planning said that no position can be proven with this work; with the coordinates that stand in the way. */
  readonly provable: boolean;
  readonly hindered: readonly string[];
  /** How far the length that has least room may be off and still be proven, mm; negative where none can. */
  readonly roomMm: number;
  /** Guided by looks before each proof set. */
  readonly product: Tally;
  /** The product without looks: proof sets and the moves between them. */
  readonly proofSetsOnly: Tally;
  readonly classical: Readonly<Record<HabitName, Tally>>;
}

function middleOf(values: readonly number[]): Middle {
  const finite = (share: number): number | null => {
    const value = quantile(values, share);
    return Number.isFinite(value) ? value : null;
  };
  return { median: finite(0.5), p95: finite(0.95) };
}

function tallyOf(outcomes: readonly Outcome[]): Tally {
  const ended = outcomes.filter(({ rounds }) => rounds !== undefined);
  const share = (of: readonly Outcome[]): number =>
    of.filter(({ within }) => within).length / Math.max(1, of.length);
  return {
    ...middleOf(outcomes.map(({ rounds }) => rounds ?? Number.POSITIVE_INFINITY)),
    never: 1 - ended.length / outcomes.length,
    trulyWithin: share(ended),
    allTrulyWithin: share(outcomes),
    looks: middleOf(outcomes.map(({ looks }) => looks)),
    readings: middleOf(outcomes.map(({ readings }) => readings)),
    moves: middleOf(outcomes.map(({ moves }) => moves)),
  };
}

/** What planning says of a cell before any reading. */
export function plannedFor({
  toleranceMm,
  rule,
  work,
}: Cell): Pick<CellResult, 'provable' | 'hindered' | 'roomMm'> {
  const { hubs, face } = SQUARE;
  const setUp: PlanSetUp = {
    car: {
      wheelbaseMm: hubs.FL[0] - hubs.RL[0],
      trackFrontMm: hubs.FL[1] - hubs.FR[1],
      trackRearMm: hubs.RL[1] - hubs.RR[1],
      hubHeightMm: hubs.FL[2],
      bodyFaceAheadMm: face[0],
    },
    equipment: { ...EQUIPMENT, work },
    stations: [stationFor(toleranceMm)],
    decisionRule: rule,
  };
  const design = planDesign(setUp, recipeById('default'));
  if (!design.ok) throw new Error(design.error.code);
  const once = planOnce(design.value.laid.slots);
  const plan = new Map([...once].map(([key, n]) => [key, key.startsWith('drop.') ? DROPS[work] : n]));
  const proofs = whatItProves(design.value, plan);
  if (proofs === undefined) throw new Error('the default recipe holds everything');
  const hindered = proofs.filter(({ outcome }) => outcome !== 'proves').map(({ coordinate }) => coordinate);
  const lengths = proofs.filter(({ coordinate }) => ['ahead', 'left', 'up'].includes(coordinate));
  return {
    provable: hindered.length === 0,
    hindered,
    roomMm: Math.min(...lengths.map(({ room }) => room)),
  };
}

/** A stream of its own for each way and placement: what one way draws does not change another. */
const STREAMS = { product: 2_000_000, proofSetsOnly: 3_000_000, classical: 1_000_000 } as const;

/** Simulates one cell: every way places the same fixtures before the same cars. */
export function simulateCell(cell: Cell, seed: number, runs: number): CellResult {
  const numbers = Array.from({ length: runs }, (_, i) => seed + i);
  const place = (n: number, way: (bay: Bay, start: Pose6, quick: Pose6) => Outcome): Outcome => {
    const draws = drawsFrom(n);
    const bay = bayFor(cell.work, draws);
    const start = startPose(draws);
    return way(bay, start, quickPlacement(bay, start, draws));
  };
  const product = numbers.map((n) =>
    place(n, (bay, start) => placeGuided(bay, cell, start, drawsFrom(n + STREAMS.product))),
  );
  const proofSetsOnly = numbers.map((n) =>
    place(n, (bay, _start, quick) =>
      placeByProofSets(bay, cell, quick, drawsFrom(n + STREAMS.proofSetsOnly)),
    ),
  );
  const classically = (habit: HabitName): Tally =>
    tallyOf(
      numbers.map((n) =>
        place(n, (bay, _start, quick) =>
          placeClassically(bay, cell, quick, drawsFrom(n + STREAMS.classical), HABITS[habit]),
        ),
      ),
    );
  return {
    ...cell,
    runs,
    ...plannedFor(cell),
    product: tallyOf(product),
    proofSetsOnly: tallyOf(proofSetsOnly),
    classical: {
      byEye: classically('byEye'),
      held: classically('held'),
      byEyeWide: classically('byEyeWide'),
      heldWide: classically('heldWide'),
    },
  };
}

const percent = (share: number): string => `${Math.round(100 * share)} %`;

/** `1 / 2`: median and 95th percentile; `never` where that share never ended. */
const both = ({ median, p95 }: Middle): string => `${median ?? 'never'} / ${p95 ?? 'never'}`;

function rowOf(cell: CellResult): readonly string[] {
  const { product, proofSetsOnly, classical } = cell;
  const told = (tally: Tally): readonly string[] => [
    both(tally),
    percent(tally.never),
    percent(tally.trulyWithin),
    both(tally.looks),
    both(tally.readings),
  ];
  return [
    `${cell.toleranceMm} mm`,
    cell.rule,
    cell.work,
    String(cell.runs),
    cell.provable ? `room ${cell.roomMm.toFixed(1)} mm` : `cannot: ${cell.hindered.join(', ')}`,
    ...told(product),
    both(proofSetsOnly),
    percent(proofSetsOnly.never),
    percent(proofSetsOnly.trulyWithin),
    ...told(classical.byEye),
    both(classical.held),
  ];
}

function aimsOf(cells: readonly CellResult[]): readonly Aim[] {
  const aimed = cells.find((c) => c.toleranceMm === 10 && c.work === 'careful' && c.rule === 'guarded');
  const product = aimed?.product;
  // The quicker of the two men who work to half the tolerance.
  const classical = Math.min(
    aimed?.classical.byEye.median ?? Number.NaN,
    aimed?.classical.held.median ?? Number.NaN,
  );
  const ratio = classical / (product?.median ?? Number.NaN);
  const missed = cells.filter((c) => !c.provable && c.product.never < 0.5);
  // Room that is less than what a hand can set is no promise.
  const unforeseen = cells.filter((c) => c.provable && c.roomMm > CLUMSINESS.mm && c.product.never > 0.05);
  return [
    { what: 'careful work at 10 mm: median one round', met: product?.median === 1 },
    { what: 'careful work at 10 mm: 95 % within two rounds', met: (product?.p95 ?? Infinity) <= 2 },
    { what: 'the classical way takes at least three times as many', met: ratio >= 3 },
    {
      what: 'where planning left more room than a hand needs, 95 % are proven',
      met: unforeseen.length === 0,
    },
    { what: 'no cell that planning called unprovable is proven in most runs', met: missed.length === 0 },
  ];
}

/** What the people of the study are like, in words that stand beside the numbers. */
const ERROR_MODEL = [
  'car measured once: hub marks, lines and tapes with their errors stay for all rounds, as do the scale of the tape and the floor readings',
  'each reading wrong by the stated default of the way of working (core/placement/defaults.ts), bar ends dropped anew for every look, taped move and proof set, tapes read to 1 mm',
  'a told amount is made with 5 % and 2 mm of error, one standard deviation each',
  'a move with the tape held ends off by one tape reading with its drop, by half a step of the tape, and by 2 mm of settling',
  'put up by eye: ahead and turn as rolled in, sideways, height and bubbles as in byEye',
  'a round is a full proof set; a look is two readings that guide the hands; readings counts each reading of the fixture, also a tape held while moving',
  'classical: a round is a pass of eight readings, four looks; its quick first placement is one look more; it ends when all read in a pass lies within half the tolerance (wide: within the tolerance)',
  'a proof set that does not prove and after which nothing is asked ends the work as never: it is not repeated until it proves',
] as const;

/**
 * Runs all 27 cells, each with `runs` placements; those already done with at least as many from the same sources are taken
 * from the cache, so that a run may be broken off, and a first answer with few placements be made better later.
 */
export async function studyPlacement(runs: number = SIMULATION.runs): Promise<Study> {
  const { seed } = SIMULATION;
  const done = cellsDone(runs);
  const cells = TOLERANCES.flatMap((toleranceMm) =>
    RULES.flatMap((rule) =>
      WORKS.map((work) =>
        done.once(`${toleranceMm}-${rule}-${work}`, () =>
          simulateCell({ toleranceMm, rule, work }, seed, runs),
        ),
      ),
    ),
  );
  const deg = (rad: number): string => ((rad * 180) / Math.PI).toFixed(1);
  return {
    lines: [
      `${Math.min(...cells.map((cell) => cell.runs))} placements a cell at least, seeds from ${seed}; turns within 0.5 degrees.`,
      `Start within ${START.mm} mm and ${deg(START.rad)} degrees; by eye: sideways ${BY_EYE.leftMm} mm, ` +
        `height ${BY_EYE.upMm} mm, bubbles ${deg(BY_EYE.tiltRad)} degrees.`,
      `Given up after ${MOST_ROUNDS} proof sets, the classical way after ${MOST_PASSES} passes. Pairs are median / 95 %.`,
      ...ERROR_MODEL,
      ...table([
        [
          'T',
          'rule',
          'work',
          'runs',
          'planning',
          'rounds',
          'never',
          'within',
          'looks',
          'readings',
          'no looks',
          'never',
          'within',
          'classical',
          'never',
          'within',
          'looks',
          'readings',
          'tape held',
        ],
        ...cells.map(rowOf),
      ]),
    ],
    results: [
      {
        leastRuns: Math.min(...cells.map((cell) => cell.runs)),
        seed,
        errorModel: ERROR_MODEL,
        start: START,
        byEye: BY_EYE,
        clumsiness: CLUMSINESS,
        habits: HABITS,
        quick: quickDefaults,
        mostRounds: MOST_ROUNDS,
        mostPasses: MOST_PASSES,
        cells,
      },
    ],
    aims: aimsOf(cells),
  };
}

/** Where the numbers of a cell come from: they stay while none of these has changed. */
const SOURCES = ['adjust', 'linalg', 'geometry', 'uncertainty', 'vehicle', 'placement', 'planning'].map(
  (folder) => `core/${folder}`,
);

const PEOPLE = ['technician', 'guidedLooks', 'proofSetsOnly', 'classicalWay', 'bayErrors', 'draws'] as const;

/** Finished cells by name, kept under the committed sources they were simulated with. */
function cellsDone(runs: number) {
  const people = PEOPLE.map((name) => `tests/simulation/${name}.ts`);
  const trees = [...SOURCES, ...people].map((path) => `HEAD:${path}`);
  const root = join(import.meta.dirname, '..', '..');
  const ids = execFileSync('git', ['rev-parse', ...trees], { cwd: root, encoding: 'utf8' });
  const sources = createHash('sha256').update(ids).digest('hex').slice(0, 16);
  const folder = join(root, '.cache', 'placementSimulation', sources);
  mkdirSync(folder, { recursive: true });
  return {
    once(name: string, simulate: () => CellResult): CellResult {
      const file = join(folder, `${name}.json`);
      // Written below in an earlier run from the same sources.
      const kept: CellResult | undefined = existsSync(file)
        ? JSON.parse(readFileSync(file, 'utf8'))
        : undefined;
      if (kept !== undefined && kept.runs >= runs) return kept;
      const cell = simulate();
      writeFileSync(`${file}.part`, JSON.stringify(cell));
      renameSync(`${file}.part`, file);
      return cell;
    },
  };
}
