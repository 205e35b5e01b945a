/**
 * `plan FILE.json`: what a recipe will prove before anything is read, what would have to be better where it cannot, the next
 * most valuable reading, the fewest readings that prove everything, and what stands in the way. Exit code 0: everything can be
 * proven as planned. 1: something cannot. 2: the file cannot be read, or makes no plan.
 */
import { readFileSync } from 'node:fs';
import {
  alternativeSentence,
  amountText,
  type Blocked,
  beyondThatPasses,
  blockedReadings,
  blockedSentence,
  type Design,
  type Fewest,
  fewest,
  fewestSentences,
  nextSentence,
  type Plan,
  type PredictedStation,
  type Proof,
  planDesign,
  planningErrorSentence,
  planOnce,
  planReadingName,
  predict,
  proofSentence,
  type Ranking,
  rankNext,
  recipeById,
  toleranceText,
  whatItProves,
  whatWouldProve,
} from '../../core/planning/index.ts';
import { formatFixed } from '../../core/units.ts';
import { say } from '../../core/words/index.ts';
import type { CommandIo } from './commandIo.ts';
import { type PlanRequest, parsePlanFile } from './planInput.ts';

const USAGE = 'plan FILE.json [--json]';

/** Everything the command says, before it is put into words or JSON. */
interface PlanReport {
  readonly title: string | undefined;
  readonly design: Design;
  readonly plan: Plan;
  readonly predicted: readonly PredictedStation[];
  readonly proofs: readonly Proof[];
  readonly blocked: readonly Blocked[];
  readonly ranking: Ranking;
  readonly fewest: Fewest;
}

/** Plans what a file asks for; see the exit codes above. */
export function runPlan(args: readonly string[], io: CommandIo): number {
  const json = args.includes('--json');
  const [file, ...more] = args.filter((arg) => arg !== '--json');
  if (file === undefined || more.length > 0 || file.startsWith('--')) {
    io.error(USAGE);
    return 2;
  }
  const request = readRequest(file, io);
  if (request === undefined) return 2;
  const report = reportOf(request, io);
  if (report === undefined) return 2;
  io.print(json ? JSON.stringify(jsonOf(report)) : textOf(report, request).join('\n'));
  const proven = report.proofs.every(({ outcome }) => outcome === 'proves');
  return proven && report.blocked.length === 0 ? 0 : 1;
}

function readRequest(file: string, io: CommandIo): PlanRequest | undefined {
  let document: unknown;
  try {
    document = JSON.parse(readFileSync(file, 'utf8'));
  } catch (fault) {
    io.error(`${file} cannot be read as JSON: ${fault instanceof Error ? fault.message : String(fault)}`);
    return undefined;
  }
  const parsed = parsePlanFile(document);
  if (parsed.ok) return parsed.value;
  io.error(`${file} is no plan (an example is assets/demo/plan.json)`);
  for (const line of parsed.error) io.error(`  ${line}`);
  return undefined;
}

/** Lines not told are set out as far as it takes for every tape to pass. */
function extended({ setUp, recipe }: PlanRequest): PlanRequest['setUp'] {
  if (setUp.beyondAheadMm !== undefined || setUp.beyondBehindMm !== undefined) return setUp;
  const mm = beyondThatPasses(setUp, recipeById(recipe));
  return mm === undefined ? setUp : { ...setUp, beyondAheadMm: mm, beyondBehindMm: mm };
}

function reportOf(request: PlanRequest, io: CommandIo): PlanReport | undefined {
  const built = planDesign(extended(request), recipeById(request.recipe));
  if (!built.ok) {
    io.error(`${planningErrorSentence(built.error)} (${built.error.code})`);
    return undefined;
  }
  const design = built.value;
  const known = new Set(design.laid.slots.map(({ key }) => key));
  const unknown = [...request.times.keys()].filter((key) => !known.has(key));
  if (unknown.length > 0) {
    io.error(`times: the recipe has no ${unknown.join(', ')}; it has ${[...known].join(', ')}`);
    return undefined;
  }
  const plan = new Map([...planOnce(design.laid.slots), ...request.times]);
  const predicted = predict(design, plan);
  const proofs = whatItProves(design, plan);
  if (!predicted.ok || proofs === undefined) {
    if (!predicted.ok) io.error(`${planningErrorSentence(predicted.error)} (${predicted.error.code})`);
    return undefined;
  }
  return {
    title: request.title,
    design,
    plan,
    predicted: predicted.value,
    proofs,
    blocked: blockedReadings(design.laid),
    ranking: rankNext(design, plan),
    fewest: fewest(design),
  };
}

function tableOf({ predicted }: PlanReport): readonly string[] {
  return predicted.flatMap(({ station, coordinates }) => [
    station,
    ...coordinates.map(({ coordinate, u, U, k }) =>
      [
        `  ${say(`coordinate.${coordinate}`).padEnd(24)}`,
        `u ${amountText(coordinate, u)}`.padStart(14),
        `U ${amountText(coordinate, U)}`.padStart(14),
        `k ${formatFixed(k, 2)}`.padStart(10),
      ].join(''),
    ),
  ]);
}

function proofLines(report: PlanReport): readonly string[] {
  const { design, proofs } = report;
  const open = proofs.filter(({ outcome }) => outcome !== 'proves');
  const rear = design.laid.recipe.axles === 'rear' && open.some(({ coordinate }) => coordinate === 'left');
  return [
    ...proofs.map((proof) => `${proof.station}: ${proofSentence(proof)}`),
    ...(rear ? [say('planning.rearOnly')] : []),
    ...open.map((proof) =>
      alternativeSentence(
        toleranceText(proof.coordinate, proof.halfWidth),
        whatWouldProve(design.laid.setUp, proof),
        proof.coordinate,
      ),
    ),
  ];
}

/** How many of the ranked readings are printed. */
const SHOWN = 5;

function textOf(report: PlanReport, { setUp }: PlanRequest): readonly string[] {
  const { design, title, blocked, ranking } = report;
  const { laid } = design;
  const { beyondAheadMm } = laid.setUp;
  const setOut =
    setUp.beyondAheadMm === undefined && beyondAheadMm !== undefined && laid.recipe.axles === 'both'
      ? [say('planning.setOut', { amount: amountText('ahead', beyondAheadMm) })]
      : [];
  const next =
    ranking.state === 'ranked'
      ? ranking.candidates.slice(0, SHOWN).map((each) => `  ${nextSentence(laid, ranking, each)}`)
      : ranking.needed.map((key) => `  ${planReadingName(laid, key)}`);
  return [
    ...(title === undefined ? [] : [title]),
    `${say(`planning.recipe.${laid.recipe.id}`)}, ${say(`planning.work.${setUp.equipment.work}`)}`,
    ...setOut,
    '',
    ...tableOf(report),
    '',
    ...proofLines(report),
    '',
    ...blocked.map(({ key, by }) => blockedSentence(laid, key, by)),
    ...fewestSentences(laid, report.fewest),
    '',
    say('planning.nextHead'),
    ...next,
  ];
}

/** For scripts: mm and radians, slot keys, no wording. */
function jsonOf({ title, design, plan, predicted, proofs, blocked, ranking, fewest: least }: PlanReport) {
  return {
    format: 'datumline-planned-1',
    title: title ?? null,
    recipe: design.laid.recipe.id,
    plan: Object.fromEntries(plan),
    stations: predicted,
    proofs: proofs.map((proof) => ({ ...proof, sentence: proofSentence(proof) })),
    blocked,
    ranking,
    fewest: least.outcome === 'found' ? { ...least, plan: Object.fromEntries(least.plan) } : least,
  };
}
