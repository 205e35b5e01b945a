/** Turns what stopped a solution into a failure with ids and a cure. */
import { at, indexAt } from '../linalg/at.ts';
import type { Covariance } from './covariance.ts';
import type { AdjustError, Undetermined } from './errors.ts';
import type { Gauge } from './gauge.ts';
import { findGauge } from './gauge.ts';
import type { NoArrival } from './iterate.ts';
import type { Linearisation } from './linearise.ts';
import { NormalSystem } from './normal.ts';
import { findUndetermined, named } from './rank.ts';
import type { NoStart } from './start/start.ts';

/** No way to begin: a side to declare, readings missing, or a shape the construction does not know. */
export function startFailure(lin: Linearisation, failure: NoStart): AdjustError {
  const { layout } = lin.problem;
  const id = (place: number): string => layout.places[place]?.id ?? '';
  if (failure.why === 'mirror') {
    return {
      code: 'adjust/mirrorUndeclared',
      ids: [failure.place, ...failure.by].map(id),
      cure: 'declareSide',
    };
  }
  scatter(lin, failure.places);
  lin.evaluate();
  const gauge = findGauge(lin);
  const normal = new NormalSystem(lin, gauge);
  normal.assemble();
  const open = findUndetermined(normal.fullMatrix(), layout);
  return open.length > 0
    ? undeterminedFailure(lin, gauge, open)
    : { code: 'adjust/noStart', ids: failure.places.map(id), cure: 'giveStart' };
}

/**
 * Puts unplaced things anywhere, in no special relation to each other: what the readings cannot hold there they hold
 * nowhere. The golden-section sequence gives such places without chance.
 */
function scatter(lin: Linearisation, places: readonly number[]): void {
  const { layout } = lin.problem;
  const { values } = lin.state;
  const anywhere = (k: number): number => 4000 * ((((k + 1) * 0.6180339887498949) % 1) - 0.5);
  for (const place of places) {
    const where = layout.places[place];
    if (where === undefined) continue;
    const slot = where.body < 0 ? where.slot : (layout.bodies[where.body]?.slot ?? 0);
    for (const [component, k] of [
      [0, 2 * place],
      [1, 2 * place + 1],
    ] as const) {
      if (indexAt(layout.columns, slot + component) >= 0) values[slot + component] = anywhere(k * k + k);
    }
    if (where.body >= 0 && indexAt(layout.columns, slot + 3) >= 0) values[slot + 3] = anywhere(place) / 2000;
  }
}

/** Names what is open; too few readings when a count already says so. */
export function undeterminedFailure(
  lin: Linearisation,
  gauge: Gauge,
  undetermined: readonly Undetermined[],
): AdjustError {
  const unknowns = lin.problem.layout.slotOfColumn.length;
  const tooFew = lin.problem.observations.length + gauge.freedoms.length < unknowns;
  return {
    code: tooFew ? 'adjust/tooFewReadings' : 'adjust/undetermined',
    ids: [...new Set(undetermined.map(({ id }) => id))],
    cure: 'addReading',
    undetermined,
  };
}

/** The iteration did not arrive. */
export function arrivalFailure(lin: Linearisation, failure: NoArrival): AdjustError {
  const { layout } = lin.problem;
  if (failure.why === 'coincident') {
    const ids = failure.pair.map((place) => layout.places[place]?.id ?? '');
    return { code: 'adjust/coincidentPoints', ids, cure: 'separatePoints' };
  }
  const { normal, gauge } = failure;
  if (failure.why === 'notConverged') {
    // Steps that find no end usually follow something the readings hardly hold: say so rather than "not converged".
    normal.assemble();
    const weak =
      normal.factorise(0) < 0 ? beyondLinear(lin, gauge, normal.covariance().covariance) : undefined;
    return weak ?? undeterminedBy(lin, normal, gauge) ?? notConverged(lin, failure.iterations);
  }
  return undeterminedBy(lin, normal, gauge) ?? brokenDown(lin, normal, gauge);
}

function undeterminedBy(lin: Linearisation, normal: NormalSystem, gauge: Gauge): AdjustError | undefined {
  const open = findUndetermined(normal.fullMatrix(), lin.problem.layout);
  return open.length > 0 ? undeterminedFailure(lin, gauge, open) : undefined;
}

/** Not singular to the eigenvalues, yet not to be factored: names the unknown where it broke down. */
function brokenDown(lin: Linearisation, normal: NormalSystem, gauge: Gauge): AdjustError {
  const share = new Float64Array(normal.n);
  share[Math.max(0, normal.factorise(0))] = 1;
  return undeterminedFailure(lin, gauge, named(lin.problem.layout, share));
}

function notConverged(lin: Linearisation, iterations: number): AdjustError {
  const { white } = lin;
  const worst = lin.problem.observations
    .map(({ source }, i) => ({ source, size: at(white.weights, i) * at(white.residuals, i) ** 2 }))
    .sort((a, b) => b.size - a.size);
  const ids = [...new Set(worst.slice(0, 3).map(({ source }) => source))];
  return { code: 'adjust/notConverged', ids, cure: 'checkReadings', iterations };
}

/** A free coordinate known only to this share of the size of the layout, or angle (rad), is not known. */
const NOT_KNOWN = 0.1;

/**
 * The linear model holds near the solution. A free coordinate whose u is of the order of the layout itself (a height
 * read only by the slant of level tapes, say) is undetermined in all but form.
 */
export function beyondLinear(
  lin: Linearisation,
  gauge: Gauge,
  covariance: Covariance,
): AdjustError | undefined {
  const { layout } = lin.problem;
  const n = layout.slotOfColumn.length;
  // A single place has no size to be compared with, and nothing about it bends.
  const reach = lin.state.spread() || Number.POSITIVE_INFINITY;
  const share = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const slot = layout.slots[indexAt(layout.slotOfColumn, i)];
    if (slot?.prior.state !== 'free' || slot.of === 'shared') continue;
    const relative = Math.sqrt(Math.max(0, covariance.variance(i))) / (slot.unit === 'mm' ? reach : 1);
    if (relative > NOT_KNOWN) share[i] = relative;
  }
  const open = named(layout, share);
  return open.length === 0 ? undefined : undeterminedFailure(lin, gauge, open);
}

/** A hard constraint is not met when it misses by more than this share of its value, or of one. */
const UNMET = 1e-6;

/** Hard constraints that cannot all hold, with those they share unknowns with; undefined when all are met. */
export function contradiction(lin: Linearisation): AdjustError | undefined {
  const { observations } = lin.problem;
  const unmet = lin.exact.filter(
    (r) => Math.abs(at(lin.residuals, r)) > UNMET * Math.max(1, Math.abs(observations[r]?.observed ?? 0)),
  );
  if (unmet.length === 0) return undefined;
  const columnsOf = (r: number) =>
    new Set(lin.rows.columns.subarray(indexAt(lin.rows.start, r), indexAt(lin.rows.start, r + 1)));
  const touched = new Set(unmet.flatMap((r) => [...columnsOf(r)]));
  const partners = lin.exact.filter(
    (r) => !unmet.includes(r) && [...columnsOf(r)].some((c) => touched.has(c)),
  );
  return {
    code: 'adjust/contradictoryConstraints',
    ids: [...unmet, ...partners].map((r) => observations[r]?.source ?? ''),
    cure: 'dropConstraint',
  };
}

/** A declared side that the solution does not bear out: the readings (or the declaration) are of the mirror image. */
export function contradictedSide(lin: Linearisation): AdjustError | undefined {
  const { network, layout } = lin.problem;
  const { x, y } = lin.state;
  const number = (id: string): number => layout.placeById.get(id) ?? 0;
  for (const { point, line, side } of network.sides) {
    const [p, a, b] = [number(point), number(line.from), number(line.to)];
    const left =
      (at(x, b) - at(x, a)) * (at(y, p) - at(y, a)) - (at(y, b) - at(y, a)) * (at(x, p) - at(x, a));
    if (left < 0 === (side === 'left')) {
      return { code: 'adjust/sideContradicted', ids: [point, line.from, line.to], cure: 'checkSide' };
    }
  }
  return undefined;
}
