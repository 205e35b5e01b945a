/**
 * `npm run bench -- --only placementSimulation`: how many full proof sets it takes to place a target, by tolerance, decision
 * rule and way of working, beside the classical way. The technician is tests/simulation/technician.ts, the classical way
 * tests/simulation/classicalWay.ts; both start from the same quick first placement, which is counted apart (two readings).
 * Before any of it planning says which cells cannot be proven.
 */
import { planDesign } from '../../core/planning/predict.ts';
import { whatItProves } from '../../core/planning/proves.ts';
import { planOnce, recipeById } from '../../core/planning/recipes.ts';
import type { PlanSetUp } from '../../core/planning/types.ts';
import { EQUIPMENT, SQUARE } from '../core/placement/trueLayout.ts';
import { MOST_PASSES, placeClassically } from '../simulation/classicalWay.ts';
import { drawsFrom } from '../simulation/draws.ts';
import {
  BY_EYE,
  bayFor,
  type Cell,
  CLUMSINESS,
  DROPS,
  MOST_ROUNDS,
  type Outcome,
  placeByMoves,
  quickPlacement,
  START,
  startPose,
  stationFor,
} from '../simulation/technician.ts';
import { type Aim, quantile, type Study, table } from './study.ts';

/** Placements of each cell, and the first seed. */
export const SIMULATION = { runs: 300, seed: 40_000 } as const;

const TOLERANCES = [10, 5, 3] as const;
const RULES = ['guarded', 'simple', 'fullU'] as const;
const WORKS = ['typical', 'careful', 'best'] as const;

/** One way of placing in one cell. */
export interface Tally {
  /** Median and 95th percentile of rounds; null where more than that share never ended. */
  readonly median: number | null;
  readonly p95: number | null;
  readonly never: number;
  /** Share of the ended ones whose target truly stood within all its limits. */
  readonly trulyWithin: number;
}

/** A cell with what planning said of it beforehand. */
export interface CellResult extends Cell {
  /** False: planning said that no position can be proven with this work; with the coordinates that stand in the way. */
  readonly provable: boolean;
  readonly hindered: readonly string[];
  /** How far the length that has least room may be off and still be proven, mm; negative where none can. */
  readonly roomMm: number;
  readonly product: Tally;
  readonly classical: Tally;
}

function tallyOf(outcomes: readonly Outcome[]): Tally {
  const rounds = outcomes.map(({ rounds: r }) => r ?? Number.POSITIVE_INFINITY);
  const finite = (share: number): number | null => {
    const value = quantile(rounds, share);
    return Number.isFinite(value) ? value : null;
  };
  const ended = outcomes.filter(({ rounds: r }) => r !== undefined);
  return {
    median: finite(0.5),
    p95: finite(0.95),
    never: 1 - ended.length / outcomes.length,
    trulyWithin: ended.filter(({ within }) => within).length / Math.max(1, ended.length),
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

/** Simulates one cell. */
export function simulateCell(cell: Cell, seed: number, runs: number): CellResult {
  const product: Outcome[] = [];
  const classical: Outcome[] = [];
  for (let i = 0; i < runs; i++) {
    const draws = drawsFrom(seed + i);
    const bay = bayFor(cell.work, draws);
    const quick = quickPlacement(bay, startPose(draws), draws);
    product.push(placeByMoves(bay, cell, quick, draws));
    // A stream of its own: what one way draws does not change the other.
    classical.push(placeClassically(bay, cell, quick, drawsFrom(seed + i + 1_000_000)));
  }
  return { ...cell, ...plannedFor(cell), product: tallyOf(product), classical: tallyOf(classical) };
}

const shown = (rounds: number | null, most: number): string =>
  rounds === null ? `> ${most}` : String(rounds);
const percent = (share: number): string => `${Math.round(100 * share)} %`;

function rowOf(cell: CellResult): readonly string[] {
  const { product, classical } = cell;
  return [
    `${cell.toleranceMm} mm`,
    cell.rule,
    cell.work,
    cell.provable ? `room ${cell.roomMm.toFixed(1)} mm` : `cannot: ${cell.hindered.join(', ')}`,
    shown(product.median, MOST_ROUNDS),
    shown(product.p95, MOST_ROUNDS),
    percent(product.never),
    percent(product.trulyWithin),
    shown(classical.median, MOST_PASSES),
    shown(classical.p95, MOST_PASSES),
    percent(classical.never),
    percent(classical.trulyWithin),
  ];
}

function aimsOf(cells: readonly CellResult[]): readonly Aim[] {
  const aimed = cells.find((c) => c.toleranceMm === 10 && c.work === 'careful' && c.rule === 'guarded');
  const product = aimed?.product;
  const ratio = (aimed?.classical.median ?? Number.NaN) / (product?.median ?? Number.NaN);
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

/** Runs all 27 cells. */
export async function studyPlacement(): Promise<Study> {
  const { runs, seed } = SIMULATION;
  const cells = TOLERANCES.flatMap((toleranceMm) =>
    RULES.flatMap((rule) => WORKS.map((work) => simulateCell({ toleranceMm, rule, work }, seed, runs))),
  );
  const deg = (rad: number): string => ((rad * 180) / Math.PI).toFixed(1);
  return {
    lines: [
      `${runs} placements a cell, seeds ${seed} to ${seed + runs - 1}; turns within 0.5 degrees throughout.`,
      `Start within ${START.mm} mm and ${deg(START.rad)} degrees; quick first placement from two readings not counted ` +
        `(by eye: sideways ${BY_EYE.leftMm} mm, height ${BY_EYE.upMm} mm, bubbles ${deg(BY_EYE.tiltRad)} degrees).`,
      `Moves off by ${100 * CLUMSINESS.share} % and ${CLUMSINESS.mm} mm. A round is a full proof set; ` +
        `given up after ${MOST_ROUNDS}, the classical way after ${MOST_PASSES} passes.`,
      'within: share of the ended ones that truly stood within all limits.',
      ...table([
        [
          'T',
          'rule',
          'work',
          'planning',
          'median',
          '95 %',
          'never',
          'within',
          'classical',
          '95 %',
          'never',
          'within',
        ],
        ...cells.map(rowOf),
      ]),
    ],
    results: [
      {
        runs,
        seed,
        start: START,
        byEye: BY_EYE,
        clumsiness: CLUMSINESS,
        mostRounds: MOST_ROUNDS,
        mostPasses: MOST_PASSES,
        cells,
      },
    ],
    aims: aimsOf(cells),
  };
}
